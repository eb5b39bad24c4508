/** Units there are to work on: those in the cell at the start, and those that come before the end. */
import { compileTime } from '../../duration/compile.ts';
import type { ResolvedCarried, ResolvedProduct, ResolvedShift } from '../../scenario/resolve.ts';
import { coveredBy, factorOf } from './duty.ts';
import { createRoute, positionsOf, type Kind, type Place, type Route } from './routes.ts';

export interface Supply {
  routes: Route[];
  /** New units: at most `most` (Infinity: as many as are wanted), spread over routes by weight. */
  arrivals: { most: number; routes: { route: Route; weight: number }[] }[];
  /** Units on their way at the start. */
  stock: { route: Route; place: Place | null; units: number; carried: ResolvedCarried }[];
}

export function supplyOf(shift: ResolvedShift, until: number): Supply {
  const routes: Route[] = [];
  const add = (kinds: Kind[]): { route: Route; weight: number }[] => {
    const whole = kinds.flatMap((kind) => kind.products).reduce((sum, { weight }) => sum + weight, 0);
    return kinds.map((kind) => {
      const weight = kind.products.reduce((sum, one) => sum + one.weight, 0);
      const route = createRoute(shift, {
        products: kind.products.map((one) => ({ ...one, weight: one.weight / weight })),
      });
      routes.push(route);
      return { route, weight: weight / whole };
    });
  };
  const drawn = add(kindsOf(shift.products));
  const named = new Map<string, { route: Route; weight: number }[]>();
  const routesOf = (product: string | null): { route: Route; weight: number }[] => {
    if (product === null) return drawn;
    const one = shift.products.find(({ id }) => id === product)!;
    if (!named.has(product)) named.set(product, add([{ products: [{ product: one, weight: 1 }] }]));
    return named.get(product)!;
  };
  const arrivals = arrivalsOf(shift, until).map(({ product, most }) => ({ most, routes: routesOf(product) }));
  const stock = shift.carryOver.flatMap((carried) =>
    routesOf(carried.product).map(({ route, weight }) => ({
      route,
      carried,
      place: placeOf(shift, route, carried),
      units: carried.units * weight,
    })),
  );
  return { routes, arrivals, stock };
}

/** Products of the mix, those that go the same way together. */
export function kindsOf(products: ResolvedProduct[]): Kind[] {
  const kinds = new Map<string, Kind>();
  for (const product of products) {
    if (product.share <= 0) continue;
    const way = JSON.stringify([product.enters, product.returned, [...product.skips].sort()]);
    const kind = kinds.get(way) ?? { products: [] };
    kind.products.push({ product, weight: product.share });
    kinds.set(way, kind);
  }
  return [...kinds.values()];
}

/**
 * At most so many new units before a time. Random gaps: not over the true mean (Lorden's inequality, 1970,
 * from memory).
 */
function arrivalsOf(shift: ResolvedShift, until: number): { product: string | null; most: number }[] {
  const { intake } = shift;
  const open = Math.max(0, until - intake.late);
  if (intake.kind === 'constant') return [{ product: null, most: Infinity }];
  if (intake.kind === 'at start') return [{ product: null, most: intake.late <= until ? intake.units : 0 }];
  if (intake.kind === 'beat')
    return [
      {
        product: null,
        most: Math.min(
          intake.units ?? Infinity,
          intake.late <= until ? Math.floor(open / intake.every) + 1 : 0,
        ),
      },
    ];
  if (intake.kind === 'random') {
    const gap = compileTime(intake.gap);
    return [
      {
        product: null,
        most:
          gap.mean > 0
            ? Math.min(intake.units ?? Infinity, open / gap.mean + gap.variance / gap.mean ** 2 + 1)
            : (intake.units ?? Infinity),
      },
    ];
  }
  const byProduct = new Map<string | null, number>();
  for (const entry of intake.arrivals) {
    if (entry.at + intake.late > until) continue;
    byProduct.set(entry.product, (byProduct.get(entry.product) ?? 0) + entry.units);
  }
  return [...byProduct].map(([product, most]) => ({ product, most }));
}

function placeOf(shift: ResolvedShift, route: Route, carried: ResolvedCarried): Place | null {
  const positions = positionsOf(shift);
  const blocked = carried.state === 'blocked';
  const to = blocked ? (carried.to ?? route.next(carried.at)) : carried.at;
  if (to === null) return null;
  const place = route.before(to);
  // A unit that is sent back has been further than where it goes, and holds what it took before that.
  if (blocked) place.farthest = Math.max(place.farthest, positions.get(carried.at)!);
  if (carried.gear !== null) place.held = place.held.filter((one) => carried.gear!.includes(one.gear));
  const visited = Object.entries(carried.visits ?? {})
    .filter(([, visits]) => visits > 0)
    .map(([step]) => positions.get(step) ?? 0);
  return { ...place, farthest: Math.max(place.farthest, ...visited), unsure: carried.visits !== null };
}

/**
 * Mean minutes of the first visit that are already behind a unit carried over, 0 to the mean: such that even
 * the slowest person needs no more than the minutes that are left (on average not less than the mean less
 * those worked). So no ceiling comes out too low.
 */
export function behindOf(shift: ResolvedShift, carried: ResolvedCarried, step: string, mean: number): number {
  const { state, minutes } = carried;
  if (state === 'waiting' || state === 'blocked') return 0;
  if (state === 'curing') return Math.max(0, mean - (minutes ?? mean));
  const able = shift.people.filter((person) => step in person.skills || coveredBy(person).includes(step));
  const slowest = Math.max(1, ...able.map((person) => factorOf(person, step))) * shift.allowance;
  const whose = shift.people.find((person) => person.id === carried.person);
  const whole = mean * shift.allowance * (whose === undefined ? 1 : factorOf(whose, step));
  const left = state === 'put down' ? (minutes ?? whole) : whole - (minutes ?? 0);
  return Math.min(mean, Math.max(0, mean - Math.max(0, left) / slowest));
}

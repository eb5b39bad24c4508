/** The kinds of hidden shops: how true times come about, and what somebody with a stopwatch brings home. */
import type { Told } from './lead.ts';
import { WORKED, type Luck, type TrueShop, type Worked } from './simulator.ts';

/** Mean minutes of an ordinary shop of the family, and which spreads hand work has (invented). */
const USUAL: Record<Worked, number> = { fit: 13, glue: 8, unclamp: 5, sand: 16, check: 7 };

export interface HiddenShop {
  truth: TrueShop;
  /** So many people at each post, and their names. */
  crew: { fit: string[]; glue: string[]; sand: string[]; check: string[] };
  /** One timing: minutes, whose, and how many minutes into the shift it began. */
  time: (step: Worked, luck: Luck) => { minutes: number; person: string | null; at: number };
}

export interface Row {
  name: string;
  /** Held at least so often (per cent), or the tool has warned. */
  atLeast: number;
  /** How the lead comes by the times; left out: timed. */
  told?: Told;
  /** Clamp sets; left out: two, which every cell waits for. */
  sets?: number;
  shop: (luck: Luck) => HiddenShop;
}

const post = (step: Worked): 'fit' | 'glue' | 'sand' | 'check' => (step === 'unclamp' ? 'fit' : step);
const always = (): number => 1;

type Draw = (luck: Luck) => number;

/** A mean near the usual one (about a fifth either way), a spread of hand work. */
function curveOf(step: Worked, luck: Luck, kind: number): Draw {
  const mean = USUAL[step] * Math.exp(0.15 * luck.normal());
  const cv = 0.15 + 0.25 * luck.uniform();
  if (kind === 0) {
    const sigma = Math.sqrt(Math.log(1 + cv * cv));
    return (one) => mean * Math.exp(sigma * one.normal() - (sigma * sigma) / 2);
  }
  if (kind === 1) return (one) => mean * one.gamma(1 / (cv * cv));
  // Weibull: its cv is near its shape to the power -0.92 (a common approximation).
  const shape = cv ** -1.086;
  const scale = mean / gammaFunction(1 + 1 / shape);
  return (one) => scale * (-Math.log(one.uniform())) ** (1 / shape);
}

/** Lanczos' approximation (Numerical Recipes, section 6.1; from memory), x over 0. */
function gammaFunction(x: number): number {
  const series = [
    76.18009172947146, -86.50532032941677, 24.01409824083091, -1.231739572450155, 0.1208650973866179e-2,
    -0.5395239384953e-5,
  ].reduce((sum, one, i) => sum + one / (x + i + 1), 1.000000000190015);
  return (Math.exp((x + 0.5) * Math.log(x + 5.5) - x - 5.5) * 2.5066282746310005 * series) / x;
}

interface Changes {
  draw?: (step: Worked, luck: Luck, kind: number) => Draw;
  /** So many at each post: time factors. */
  people?: (luck: Luck) => { fit: number[]; glue: number[]; sand: number[]; check: number[] };
  product?: TrueShop['product'];
  pace?: TrueShop['pace'];
  day?: TrueShop['day'];
  /** Who is timed, and is the name written down? */
  timed?: (people: number[], luck: Luck) => number;
  named?: boolean;
  /** Minutes into the shift at which timings are taken. */
  when?: (luck: Luck) => number;
}

function made(luck: Luck, changes: Changes): HiddenShop {
  const draws = Object.fromEntries(
    WORKED.map((step) => [step, (changes.draw ?? curveOf)(step, luck, Math.floor(3 * luck.uniform()))]),
  ) as Record<Worked, Draw>;
  const people = changes.people?.(luck) ?? { fit: [1], glue: [1], sand: [1], check: [1] };
  const truth: TrueShop = {
    minutes: Object.fromEntries(WORKED.map((step) => [step, { draw: draws[step] }])) as TrueShop['minutes'],
    cure: 30,
    toSand: 0.05 + 0.1 * luck.uniform(),
    scrap: 0.005,
    people,
    product: changes.product ?? always,
    pace: changes.pace ?? always,
    day: changes.day ?? always,
    length: 510,
  };
  const names = (at: string, many: number): string[] =>
    Array.from({ length: many }, (_, i) => `${at}-${i + 1}`);
  const crew = {
    fit: names('fitter', people.fit.length),
    glue: names('gluer', people.glue.length),
    sand: names('sander', people.sand.length),
    check: names('checker', people.check.length),
  };
  return {
    truth,
    crew,
    time: (step, one) => {
      const who = people[post(step)];
      const person = changes.timed?.(who, one) ?? Math.floor(one.uniform() * who.length);
      const at = changes.when?.(one) ?? one.uniform() * truth.length;
      const day = truth.day(one);
      const minutes = draws[step](one) * truth.product(one) * who[person]! * day * truth.pace(at, day);
      return { minutes, at, person: changes.named === true ? crew[post(step)][person]! : null };
    },
  };
}

const interrupted = (step: Worked, luck: Luck, kind: number): Draw => {
  const plain = curveOf(step, luck, kind);
  const often = 0.03 + 0.07 * luck.uniform();
  const minutes = 3 + 7 * luck.uniform();
  return (one) => plain(one) + (one.uniform() < often ? minutes * (0.5 + one.uniform()) : 0);
};

const differing = (luck: Luck): { fit: number[]; glue: number[]; sand: number[]; check: number[] } => {
  const pair = (): number[] => {
    const apart = 0.1 + 0.15 * luck.uniform();
    return luck.uniform() < 0.5 ? [1 - apart, 1 + apart] : [1 + apart, 1 - apart];
  };
  return { fit: pair(), glue: [1], sand: pair(), check: [1] };
};

/** Cells that a crew is planned for: one or two people at fitting and at sanding. */
export const CREW_ROW: Row = {
  name: 'crew',
  atLeast: 0,
  shop: (luck) => {
    const some = (): number[] => (luck.uniform() < 0.5 ? [1] : [1, 1]);
    return made(luck, { people: () => ({ fit: some(), glue: [1], sand: some(), check: [1] }) });
  },
};

export const ROWS: readonly Row[] = [
  { name: 'curves of the families the tool fits', atLeast: 92, shop: (luck) => made(luck, {}) },
  {
    name: 'interruptions among the times',
    atLeast: 92,
    shop: (luck) => made(luck, { draw: interrupted }),
  },
  {
    name: 'two products, not told apart',
    atLeast: 85,
    shop: (luck) => {
      const [share, factor] = [0.2 + 0.3 * luck.uniform(), 1.25 + 0.35 * luck.uniform()];
      return made(luck, { product: (one) => (one.uniform() < share ? factor : 1) });
    },
  },
  {
    name: 'people who differ, written down and given their pace',
    atLeast: 85,
    shop: (luck) => made(luck, { people: differing, named: true }),
  },
  {
    name: 'people who differ, not written down',
    atLeast: 85,
    shop: (luck) => made(luck, { people: differing }),
  },
  {
    name: 'timed in the morning only, slower through the day',
    atLeast: 85,
    shop: (luck) => {
      const slower = 0.05 + 0.15 * luck.uniform();
      return made(luck, {
        pace: (minute) => 1 + (slower * minute) / 510,
        when: (one) => 180 * one.uniform(),
      });
    },
  },
  {
    name: 'told from memory: a mean and how much it varies',
    atLeast: 85,
    told: 'mean',
    shop: (luck) => made(luck, {}),
  },
  {
    name: 'told from memory: quick, usual, slow',
    atLeast: 85,
    told: 'quick, usual, slow',
    shop: (luck) => made(luck, {}),
  },
  {
    name: 'with clamp sets to spare, or nearly',
    atLeast: 85,
    sets: 3,
    shop: (luck) => made(luck, {}),
  },
];

/**
 * A second program for a family of cells, written for the tests alone: it shares no line with the engine, has
 * its own random numbers and knows nothing of files. One fit-and-glue line: fit, glue (takes a clamp set),
 * cure of so many minutes, unclamp (by the fitters, before any fit; frees the set), sand, check (a share goes
 * back to sanding, a share is scrap). Work in front of the first step never runs out, racks have no limit,
 * nobody has a break, every person has a bench, and pieces in hand at the end are finished and count.
 */

/** Own generator: xorwow (Marsaglia, Journal of Statistical Software 8, 2003; from memory). */
export class Luck {
  private readonly state: Uint32Array;
  private counter: number;

  constructor(seed: number) {
    this.state = Uint32Array.of(
      Math.imul(seed + 1, 2654435761),
      362436069 ^ seed,
      521288629,
      88675123,
      5783321,
    );
    this.counter = 6615241 + seed;
    for (let i = 0; i < 40; i++) this.uniform();
  }

  /** Over 0 and under 1. */
  uniform(): number {
    const s = this.state;
    let t = s[4]!;
    const first = s[0]!;
    s[4] = s[3]!;
    s[3] = s[2]!;
    s[2] = s[1]!;
    s[1] = first;
    t ^= t >>> 2;
    t ^= t << 1;
    t ^= first ^ (first << 4);
    s[0] = t;
    this.counter = (this.counter + 362437) >>> 0;
    return (((s[0] + this.counter) >>> 0) + 0.5) / 4294967296;
  }

  /** Standard normal (Box and Muller). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(this.uniform())) * Math.cos(2 * Math.PI * this.uniform());
  }

  /** Gamma of this shape, mean 1 (Marsaglia and Tsang 2000; shape 1 or more). */
  gamma(shape: number): number {
    const d = shape - 1 / 3;
    for (;;) {
      const x = this.normal();
      const v = (1 + x / Math.sqrt(9 * d)) ** 3;
      if (v > 0 && Math.log(this.uniform()) < (x * x) / 2 + d - d * v + d * Math.log(v))
        return (d * v) / shape;
    }
  }
}

export const WORKED = ['fit', 'glue', 'unclamp', 'sand', 'check'] as const;
export type Worked = (typeof WORKED)[number];

/** How one step's minutes come about. */
export interface TruePiece {
  /** Minutes of one piece on a fresh draw, before all factors. */
  draw: (luck: Luck) => number;
}

export interface TrueShop {
  minutes: Record<Worked, TruePiece>;
  cure: number;
  /** Shares of what is checked. */
  toSand: number;
  scrap: number;
  /** Time factors of the people of each post; the fitters' post fits and unclamps. */
  people: { fit: number[]; glue: number[]; sand: number[]; check: number[] };
  /** Factor of a unit on all its steps, drawn once. */
  product: (luck: Luck) => number;
  /** Factor of a piece begun so many minutes into the shift, on that day. */
  pace: (minute: number, day: number) => number;
  /** Drawn once a day. */
  day: (luck: Luck) => number;
  length: number;
}

interface Unit {
  factor: number;
}

interface Event {
  at: number;
  order: number;
  run: () => void;
}

/** Good units of one shift with so many clamp sets. */
export function goodUnits(shop: TrueShop, sets: number, luck: Luck): number {
  const events: Event[] = [];
  const day = shop.day(luck);
  let [now, order, good, free] = [0, 0, 0, sets];
  const lines: Record<Worked, Unit[]> = { fit: [], glue: [], unclamp: [], sand: [], check: [] };
  const posts = [
    { idle: shop.people.fit.map((factor) => factor), does: ['unclamp', 'fit'] as Worked[] },
    { idle: shop.people.glue.map((factor) => factor), does: ['glue'] as Worked[] },
    { idle: shop.people.sand.map((factor) => factor), does: ['sand'] as Worked[] },
    { idle: shop.people.check.map((factor) => factor), does: ['check'] as Worked[] },
  ];
  const plan = (minutes: number, run: () => void): void => {
    events.push({ at: now + minutes, order: (order += 1), run });
  };
  const next = (step: Worked, unit: Unit): void => {
    if (step === 'fit') lines.glue.push(unit);
    else if (step === 'glue') plan(shop.cure, () => lines.unclamp.push(unit));
    else if (step === 'unclamp') {
      free += 1;
      lines.sand.push(unit);
    } else if (step === 'sand') lines.check.push(unit);
    else {
      const outcome = luck.uniform();
      if (outcome < shop.toSand) lines.sand.push(unit);
      else if (outcome >= shop.toSand + shop.scrap) good += 1;
    }
  };
  const begin = (): void => {
    for (const post of posts)
      for (const step of post.does)
        while (post.idle.length > 0 && now < shop.length) {
          if (step === 'glue' && free === 0) break;
          const unit = step === 'fit' ? { factor: shop.product(luck) } : lines[step].shift();
          if (unit === undefined) break;
          if (step === 'glue') free -= 1;
          const person = post.idle.shift()!;
          const minutes = shop.minutes[step].draw(luck) * unit.factor * person * day * shop.pace(now, day);
          plan(minutes, () => {
            post.idle.push(person);
            next(step, unit);
          });
        }
  };
  begin();
  while (events.length > 0) {
    let first = 0;
    for (let i = 1; i < events.length; i++) {
      const [one, best] = [events[i]!, events[first]!];
      if (one.at < best.at || (one.at === best.at && one.order < best.order)) first = i;
    }
    const [event] = events.splice(first, 1);
    now = event!.at;
    event!.run();
    begin();
  }
  return good;
}

/**
 * A second program for a family of cells, written for the tests alone: it shares no line with the engine, has
 * its own random numbers and knows nothing of files. One fit-and-glue line: fit, glue (takes a clamp set),
 * cure of so many minutes, unclamp (by the fitters, before any fit; frees the set), sand, check (a share goes
 * back to sanding, a share is scrap). Work in front of the first step never runs out, racks have no limit,
 * nobody has a break, every person has a bench, and pieces in hand at the end are finished and count. Who
 * stands where may be as a plan says: a free person takes the first of the steps of the post that can begin,
 * or the one whose first piece has waited longest.
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

/** Where somebody stands: from so many minutes into the shift on, at these steps. */
export interface Stand {
  /** Time factor. */
  factor: number;
  posts: { from: number; steps: readonly Worked[] }[];
  oldest: boolean;
}

export interface Plan {
  people: Stand[];
  /** Minutes into the shift after which a step is not begun. */
  lastStart: Partial<Record<Worked, number>>;
}

/** Everybody at their own post all day. */
export function ownPosts({ people }: TrueShop): Plan {
  const stand =
    (...steps: Worked[]) =>
    (factor: number): Stand => ({ factor, posts: [{ from: 0, steps }], oldest: false });
  return {
    people: [
      ...people.fit.map(stand('unclamp', 'fit')),
      ...people.glue.map(stand('glue')),
      ...people.sand.map(stand('sand')),
      ...people.check.map(stand('check')),
    ],
    lastStart: {},
  };
}

/** What somebody who walks through the cell at a minute can count. */
export interface Seen {
  good: number;
  begun: number;
  /** Pieces that wait before each step; those before `fit` are without end, and not counted. */
  waiting: Record<Worked, number>;
  /** Whose place in the plan's people, and minutes worked. */
  inHand: { step: Worked; person: number; minutes: number }[];
  /** Minutes left of each cure. */
  curing: number[];
}

interface Unit {
  factor: number;
  /** Minute since which it waits. */
  since: number;
}

interface Event {
  at: number;
  order: number;
  run: () => void;
}

/** Good units of one shift with so many clamp sets. */
export const goodUnits = (shop: TrueShop, sets: number, luck: Luck, plan?: Plan): number =>
  new TrueDay(shop, sets, luck, plan ?? ownPosts(shop)).runTo(Infinity).good;

/** One day of a true shop, that can be stopped and looked at. */
export class TrueDay {
  private readonly events: Event[] = [];
  private readonly lines: Record<Worked, Unit[]> = { fit: [], glue: [], unclamp: [], sand: [], check: [] };
  private readonly day: number;
  private readonly busy: ({ step: Worked; since: number } | null)[];
  private readonly cures = new Set<number>();
  private now = 0;
  private order = 0;
  private good = 0;
  private begun = 0;

  constructor(
    private readonly shop: TrueShop,
    private free: number,
    private readonly luck: Luck,
    private readonly plan: Plan,
  ) {
    this.day = shop.day(luck);
    this.busy = plan.people.map(() => null);
    for (const { posts } of plan.people) for (const { from } of posts) this.after(from, () => undefined);
    this.begin();
  }

  /** Goes on until the last piece, or until that minute, its own events done; then what is to be seen. */
  runTo(minute: number): Seen {
    for (;;) {
      const first = this.soonest();
      if (first < 0 || this.events[first]!.at > minute) break;
      const [event] = this.events.splice(first, 1);
      this.now = event!.at;
      event!.run();
      this.begin();
    }
    const { fit, glue, unclamp, sand, check } = this.lines;
    return {
      good: this.good,
      begun: this.begun,
      waiting: {
        fit: fit.length,
        glue: glue.length,
        unclamp: unclamp.length,
        sand: sand.length,
        check: check.length,
      },
      inHand: this.busy.flatMap((one, person) =>
        one === null ? [] : [{ step: one.step, person, minutes: minute - one.since }],
      ),
      curing: [...this.cures].map((end) => end - minute).sort((a, b) => a - b),
    };
  }

  private soonest(): number {
    let first = this.events.length - 1;
    for (let i = first - 1; i >= 0; i--) {
      const [one, best] = [this.events[i]!, this.events[first]!];
      if (one.at < best.at || (one.at === best.at && one.order < best.order)) first = i;
    }
    return first;
  }

  private after(minutes: number, run: () => void): void {
    this.events.push({ at: this.now + minutes, order: (this.order += 1), run });
  }

  private begin(): void {
    for (let person = 0; person < this.busy.length; person++) {
      if (this.busy[person] !== null || this.now >= this.shop.length) continue;
      const step = this.next(this.plan.people[person]!);
      if (step === undefined) continue;
      this.start(step, person);
      // What was begun may let somebody before them begin.
      person = -1;
    }
  }

  /** The step that somebody free begins now. */
  private next({ posts, oldest }: Stand): Worked | undefined {
    const can = posts.findLast(({ from }) => from <= this.now)!.steps.filter((step) => this.canBegin(step));
    const since = (step: Worked): number => (step === 'fit' ? 0 : this.lines[step][0]!.since);
    return oldest
      ? can.reduce<Worked | undefined>(
          (best, step) => (best === undefined || since(step) < since(best) ? step : best),
          undefined,
        )
      : can[0];
  }

  private canBegin(step: Worked): boolean {
    if (this.now > (this.plan.lastStart[step] ?? Infinity)) return false;
    if (step === 'glue' && this.free === 0) return false;
    return step === 'fit' || this.lines[step].length > 0;
  }

  private start(step: Worked, person: number): void {
    const { shop, luck, day, now } = this;
    const unit = step === 'fit' ? { factor: shop.product(luck), since: now } : this.lines[step].shift()!;
    if (step === 'fit') this.begun += 1;
    if (step === 'glue') this.free -= 1;
    const pace = this.plan.people[person]!.factor * day * shop.pace(now, day);
    this.busy[person] = { step, since: now };
    this.after(shop.minutes[step].draw(luck) * unit.factor * pace, () => {
      this.busy[person] = null;
      this.end(step, unit);
    });
  }

  private end(step: Worked, unit: Unit): void {
    const { shop, lines } = this;
    const to = (next: Worked): void => {
      lines[next].push({ ...unit, since: this.now });
    };
    if (step === 'fit') to('glue');
    else if (step === 'glue') {
      const out = this.now + shop.cure;
      this.cures.add(out);
      this.after(shop.cure, () => {
        this.cures.delete(out);
        to('unclamp');
      });
    } else if (step === 'unclamp') {
      this.free += 1;
      to('sand');
    } else if (step === 'sand') to('check');
    else {
      const outcome = this.luck.uniform();
      if (outcome < shop.toSand) to('sand');
      else if (outcome >= shop.toSand + shop.scrap) this.good += 1;
    }
  }
}

/** Where the minutes went by reason, over many shifts: sums in whole milliseconds, so exact in any order. */
import { type Cause, reasonKey } from './causes.ts';
import type { ShiftReasons, Stood } from './reasons.ts';
import type { Stretch } from '../stretch.ts';

/** Minutes a shift of one person or one kind of gear. */
export interface ReasonPart {
  /** What was done, as engine/states.ts numbers it. */
  state: number;
  /** What was missing, and what the chain of causes ends with; null at work, on a break and the like. */
  first: Cause | null;
  behind: Cause | null;
  minutes: number;
}

export interface ReasonSums {
  /** Shifts added up. */
  count: number;
  /** Minutes of a shift until its report closes, overtime included. */
  minutes: number;
  /** Good units a shift. */
  good: number;
  /** By person; and by kind of gear, all items of it together. The longest first. */
  people: ReasonPart[][];
  gear: ReasonPart[][];
  /** Null where fewer than two pieces a shift come after the opening. */
  came: Came | null;
}

/** When half of the pieces that come as a rule have come. */
export interface Came {
  pieces: number;
  /** Minutes from the start: the mean over shifts, its standard deviation. */
  mean: number;
  spread: number;
  /** Good units more for each minute later, by the straight line through the shifts. */
  perMinute: number;
}

/** The minute by which so many have come; the end where fewer have. */
export const cameBy = ({ arrivals, ends }: Pick<ShiftReasons, 'arrivals' | 'ends'>, pieces: number): number =>
  arrivals[pieces - 1] ?? ends;

type Parts = Map<string, Omit<ReasonPart, 'minutes'> & { milliseconds: number }>;

/** Adds shifts up, all of them the same one of a day. */
export class ReasonTally {
  private count = 0;
  private ends = 0;
  private good = 0;
  private people: Parts[] = [];
  private gear: Parts[] = [];
  private readonly coming: Pick<ShiftReasons, 'arrivals' | 'ends' | 'good'>[] = [];

  add({ people, items, idle, stood, ends, good, arrivals }: ShiftReasons): void {
    this.coming.push({ arrivals, ends, good });
    if (this.count === 0) {
      this.people = people.map((): Parts => new Map());
      this.gear = items.map((): Parts => new Map());
    }
    this.count += 1;
    this.ends += whole(ends);
    this.good += good;
    people.forEach((line, person) => addLine(this.people[person]!, line, idle[person]!));
    items.forEach((kind, gear) =>
      kind.forEach((line, item) => addLine(this.gear[gear]!, line, stood[gear]![item]!)),
    );
  }

  sums(): ReasonSums {
    const of = (parts: Parts): ReasonPart[] =>
      [...parts.values()]
        .sort((a, b) => b.milliseconds - a.milliseconds)
        .map(({ milliseconds, ...part }) => ({ ...part, minutes: milliseconds / MINUTE / this.count }));
    return {
      count: this.count,
      minutes: this.ends / MINUTE / this.count,
      good: this.good / this.count,
      people: this.people.map(of),
      gear: this.gear.map(of),
      came: cameOf(this.coming),
    };
  }
}

function cameOf(shifts: readonly Pick<ShiftReasons, 'arrivals' | 'ends' | 'good'>[]): Came | null {
  const mean = (values: number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
  const pieces = Math.round(mean(shifts.map(({ arrivals }) => arrivals.length)) / 2);
  if (shifts.length < 2 || !(pieces >= 1)) return null;
  const times = shifts.map((shift) => cameBy(shift, pieces));
  const [time, good] = [mean(times), mean(shifts.map((shift) => shift.good))];
  const square = mean(times.map((one) => (one - time) ** 2));
  const product = mean(times.map((one, i) => (one - time) * (shifts[i]!.good - good)));
  return {
    pieces,
    mean: time,
    spread: Math.sqrt(square),
    perMinute: square > 0 ? product / square : 0,
  };
}

const MINUTE = 60_000;
const whole = (minutes: number): number => Math.round(minutes * MINUTE);

/** What has a reason goes by it; the rest of the line by what was done. */
function addLine(parts: Parts, line: readonly Stretch[], reasons: readonly Stood[]): void {
  for (const { from, to, state } of line) addPart(parts, state, null, null, whole(to) - whole(from));
  for (const { from, to, state, chain } of reasons) {
    const milliseconds = whole(to) - whole(from);
    addPart(parts, state, chain[0] ?? null, chain.at(-1) ?? null, milliseconds);
    addPart(parts, state, null, null, -milliseconds);
  }
  for (const [key, { milliseconds }] of parts) if (milliseconds === 0) parts.delete(key);
}

function addPart(
  parts: Parts,
  state: number,
  first: Cause | null,
  behind: Cause | null,
  milliseconds: number,
): void {
  const key = [state, first, behind]
    .map((part) => (part !== null && typeof part === 'object' ? reasonKey(part) : part))
    .join('|');
  const known = parts.get(key);
  if (known === undefined) parts.set(key, { state, first, behind, milliseconds });
  else known.milliseconds += milliseconds;
}

/**
 * Where the minutes went by what would have to be put right, and what putting it right alone brings when it
 * is tried: a number that explains stands beside its trial.
 */
import { gearStateOf } from '../engine/states.ts';
import type { Runner } from '../record/job.ts';
import type { Cause } from '../record/why/causes.ts';
import type { ReasonPart, ReasonSums } from '../record/why/sums.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import type { Interval } from './intervals/interval.ts';
import { putRight, type Cause as Loss } from './loss-causes.ts';
import { goodBetween } from './ranges.ts';
import { runStudy } from './study.ts';

/** What would have to be put right for minutes not to be lost so. */
export type Remedy =
  /** Hands, with a bench, at the steps that take and free gear. */
  | 'hands'
  | Extract<Loss, 'breaks' | 'who is in' | 'arrivals' | 'full racks' | 'gear out of order' | 'holds'>
  /** More of some gear, or work before it: what one more brings is tried elsewhere, one thing at a time. */
  | 'gear'
  | 'work before'
  /** The day ends, or the rules of time say so: nothing to be put right. */
  | 'end';

/** Those that are tried by putting them right alone. */
const TRIED = [
  'hands',
  'breaks',
  'who is in',
  'arrivals',
  'full racks',
  'gear out of order',
  'holds',
] as const satisfies readonly Remedy[];
export type Tried = (typeof TRIED)[number];

/** What ends the chain says what to put right; where that is only other work, what was missing does. */
function remedyOf(first: Cause, behind: Cause, { gear }: ResolvedShift): Remedy {
  switch (behind.kind) {
    case 'off':
      return 'breaks';
    case 'would not fit':
      return behind.before === 'break' || behind.before === 'away' ? 'breaks' : 'end';
    case 'not in':
      return 'who is in';
    case 'not come yet':
    case 'none to come':
      return 'arrivals';
    case 'out of order':
      return 'gear out of order';
    case 'on hold':
      return 'holds';
    case 'gone':
    case 'day over':
    case 'nothing new':
    case 'shut':
      return 'end';
  }
  switch (first.kind) {
    case 'rack full':
    case 'no out-rack':
    case 'nowhere to put it':
      return 'full racks';
    case 'no gear':
      return gear[first.gear]?.kind === 'bench' ? 'hands' : 'gear';
    case 'no piece':
    case 'none sent back':
    case 'not needed':
      return 'work before';
    default:
      return 'hands';
  }
}

/** Minutes a shift that go for one reason. */
export interface StoodFor {
  remedy: Remedy;
  /** By kind of gear, all items of it together; 0 for benches. */
  gear: number[];
  people: number;
  /** Good units that the minutes of the tightest gear would hold; 0 where there is no such gear. */
  pieces: number;
}

/** Means a shift, over all shifts of the day. */
export interface Stood {
  /** The kind of gear, no bench, that stands the smallest share of its minutes; null where there is none. */
  tightest: { gear: number; minutes: number; stood: number; held: number } | null;
  /** The most first. */
  reasons: StoodFor[];
}

/** The sums of a day's shifts by what would have to be put right. Gear is that of the first shift. */
export function stoodOf(shifts: readonly ResolvedShift[], sums: readonly ReasonSums[]): Stood {
  const { gear } = shifts[0]!;
  const by = new Map<Remedy, StoodFor>();
  const of = (remedy: Remedy): StoodFor => {
    const known = by.get(remedy) ?? { remedy, gear: gear.map(() => 0), people: 0, pieces: 0 };
    by.set(remedy, known);
    return known;
  };
  shifts.forEach((shift, day) => {
    const each = (parts: ReasonPart[], add: (line: StoodFor, minutes: number) => void): void => {
      for (const { first, behind, minutes } of parts)
        if (first !== null) add(of(remedyOf(first, behind ?? first, shift)), minutes / shifts.length);
    };
    sums[day]!.people.forEach((parts) => each(parts, (line, minutes) => (line.people += minutes)));
    gear.forEach(({ id, kind }, at) => {
      const own = shift.gear.findIndex((one) => one.id === id);
      if (kind !== 'bench' && own >= 0)
        each(sums[day]!.gear[own]!, (line, minutes) => (line.gear[at]! += minutes));
    });
  });
  const reasons = [...by.values()];
  const tightest = tightestOf(shifts, sums, reasons);
  for (const line of reasons)
    line.pieces = tightest === null || tightest.held === 0 ? 0 : line.gear[tightest.gear]! / tightest.held;
  const size = (line: StoodFor): number => (tightest === null ? line.people : line.gear[tightest.gear]!);
  return { tightest, reasons: reasons.sort((a, b) => size(b) - size(a) || b.people - a.people) };
}

function tightestOf(
  shifts: readonly ResolvedShift[],
  sums: readonly ReasonSums[],
  reasons: readonly StoodFor[],
): Stood['tightest'] {
  const { gear } = shifts[0]!;
  const mean = (of: (sums: ReasonSums) => number): number =>
    sums.reduce((sum, one) => sum + of(one), 0) / sums.length;
  return gear
    .flatMap(({ kind, count }, at) => {
      if (kind === 'bench' || count === 0) return [];
      const stood = reasons.reduce((sum, line) => sum + line.gear[at]!, 0);
      const minutes = count * mean((one) => one.minutes);
      return [{ gear: at, minutes, stood, held: mean((one) => heldBy(one, at)) }];
    })
    .reduce<Stood['tightest']>(
      (best, one) => (best === null || one.stood / one.minutes < best.stood / best.minutes ? one : best),
      null,
    );
}

/** Minutes that a good unit holds a kind of gear, being worked with or curing; 0 where none was good. */
function heldBy({ gear, good }: ReasonSums, index: number): number {
  const parts = gear[index] ?? [];
  const worked = parts
    .filter(({ first, state }) => first === null && gearStateOf(state).kind === 'at')
    .reduce((sum, { minutes }) => sum + minutes, 0);
  return good > 0 ? worked / good : 0;
}

const withRight = (shift: ResolvedShift, remedy: Tried): ResolvedShift =>
  remedy === 'hands' ? handsAtHand(shift) : putRight(shift, [remedy]);

/**
 * Gear never waits for hands: where nobody who stands there is free, somebody else of the same hours takes
 * it, at a bench of their own. They are asked last, so that they take no work but what would have waited.
 */
function handsAtHand(shift: ResolvedShift): ResolvedShift {
  const helpers = shift.steps.flatMap((step) => {
    if (step.kind !== 'hands') return [];
    const taken = shift.steps.flatMap(({ id, takes }) =>
      takes.filter(({ until }) => id === step.id || until === step.id),
    );
    const items = taken.reduce(
      (sum, take) => sum + (shift.gear.find(({ id }) => id === take.gear)?.count ?? 0),
      0,
    );
    const like = shift.people.find(({ cover }) => cover.some(({ steps }) => steps.includes(step.id)));
    return like === undefined ? [] : helpersLike(like, step.id, step.people * items);
  });
  const more = (step: string): number => helpers.filter(({ cover }) => cover[0]!.steps[0] === step).length;
  const benches = new Map(shift.steps.map(({ id }) => [`${id}-bench`, more(id)]));
  return {
    ...shift,
    people: [...shift.people, ...helpers],
    gear: shift.gear.map((gear) =>
      gear.kind === 'bench' ? { ...gear, count: gear.count + (benches.get(gear.id) ?? 0) } : gear,
    ),
  };
}

const helpersLike = (like: ResolvedPerson, step: string, count: number): ResolvedPerson[] =>
  Array.from({ length: count }, (_, i) => ({
    ...like,
    id: `hands-${step}-${i}`,
    cover: [{ from: 0, steps: [step] }],
    chance: 1,
    lateChance: 0,
    late: null,
    pay: 0,
  }));

/** The days that may come to be run for trials: what is no reason in a cell changes nothing of it. */
export const remedyDays = (shifts: ResolvedShift[]): ResolvedShift[][] =>
  TRIED.map((remedy) => shifts.map((shift) => withRight(shift, remedy)));

export interface RemedyTrial {
  remedy: Tried;
  /** Good units a shift more with it alone put right. */
  gain: Interval;
}

/** Shifts of each trial at most. */
export const TRIAL_SHIFTS = 400;
/** Minutes a shift under which a reason is not tried: what it could bring is too small to tell. */
const WORTH_A_TRIAL = 3;

/**
 * Tries each reason that takes anything alone, on the same luck as the cell as it is. Throws what the runner
 * throws; aborted, it has no trials.
 */
export async function tryRemedies(
  shifts: ResolvedShift[],
  { reasons, tightest }: Stood,
  count: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<RemedyTrial[]> {
  const worth = ({ gear, people }: StoodFor): boolean =>
    (tightest === null ? people : gear[tightest.gear]!) >= WORTH_A_TRIAL;
  const remedies = TRIED.filter((tried) => reasons.some((one) => one.remedy === tried && worth(one)));
  if (remedies.length === 0 || count < 2) return [];
  const cases = [
    { id: 'as it is', name: 'as it is', shifts },
    ...remedies.map((remedy) => ({
      id: remedy,
      name: remedy,
      shifts: shifts.map((shift) => withRight(shift, remedy)),
    })),
  ];
  const pairs = remedies.map((_, i) => ({ before: 0, after: i + 1 }));
  const settings = { first: count, most: count, precision: Infinity };
  const state = await runStudy({ cases, pairs, settings }, runner, undefined, signal);
  if (state.stopping.done < 2) return [];
  return remedies.map((remedy, i) => ({ remedy, gain: goodBetween(state, 0, i + 1) }));
}

/**
 * The grid: every pair of values of two things that vary, as fields of one table, all on the same luck. Which
 * field is the cheapest that makes the target as often as is promised, which brings in the most, and which
 * cannot be told from the one beside them.
 *
 * Pruned by ceilings: no shift makes more good units on average than its fluid ceiling (fluid-ceiling.ts), so
 * by Markov's inequality the target is made in at most ceiling over target of the shifts; where that is under
 * the promise the field is out without a run, and a quarter of the shifts tell its figures well enough.
 */
import type { Runner } from '../record/job.ts';
import { annuity, type Ranged } from '../money/payback.ts';
import type { ResolvedMoney, ResolvedShift } from '../scenario/resolve.ts';
import { fluidCeiling } from './ceilings/fluid-ceiling.ts';
import { asPromised, type Interval } from './intervals/interval.ts';
import type { StoppingSettings } from './stopping.ts';
import { runStudy, type StudyCase, type StudyState } from './study.ts';
import { summarize, type CaseSummary, type StudySummary } from './summary.ts';

export interface GridField {
  shifts: ResolvedShift[];
  /** What it costs once, over things as they are; 0 where nothing is bought or no price is known. */
  price: number;
  warmUp?: number;
}

export interface GridQuestion {
  /** Row by row. */
  fields: GridField[];
  columns: number;
  money: ResolvedMoney;
  /** Chance asked of a promise, 0 to 1. */
  promise: number;
  /** Shifts of each field. */
  count: number;
  settings: Partial<StoppingSettings>;
}

/** Years over which what is bought is paid off. */
export const YEARS_OF_USE = 5;
/** A field that is out gets a quarter of the shifts, but no fewer than this. */
const FEW = 30;

export interface GridCell {
  row: number;
  column: number;
  good: Interval;
  /** Null without a target. */
  chance: Interval | null;
  nineInTen: number;
  /** Labor a shift, and the shift's share of what is bought. */
  cost: Ranged;
  /** What the good units bring in, cost off; null where the file does not say what a unit brings in. */
  net: Ranged | null;
  price: number;
  /** Whether it makes the target as often as is promised; null without a target. */
  makes: 'yes' | 'perhaps' | 'no' | null;
  /** Most good units a shift on average, nobody ever waiting; null for several shifts in a row. */
  ceiling: number | null;
  /** Out by its ceiling alone. */
  out: boolean;
  /** Fields of one number cannot be told apart, each from one beside it; null: it can be told from all. */
  alike: number | null;
}

export interface GridAnswer {
  cells: GridCell[];
  columns: number;
  target: number | null;
  promise: number;
  count: number;
  confidence: number;
  partial: boolean;
  /** Place among the cells of the cheapest that surely makes it, or else may; null where none does. */
  cheapest: { at: number; sure: boolean } | null;
  /** Cheaper ones that may make it too. */
  perhapsCheaper: number[];
  /** The most money a shift; null where no margin is known. */
  mostNet: number | null;
}

/** The most a field can make on average; null where shifts follow each other. */
export const ceilingOf = ({ shifts }: GridField): number | null =>
  shifts.length === 1 ? fluidCeiling(shifts[0]!).good : null;

/** A shift's share of a price, paid off over its years of use. */
export const shareOfPrice = (price: number, { shiftsPerYear, discount }: ResolvedMoney): number =>
  price === 0 ? 0 : price / (shiftsPerYear * annuity(YEARS_OF_USE, discount / 100));

interface Part {
  /** Places among all fields. */
  places: number[];
  pairs: [before: number, after: number][];
  state: StudyState;
}

/** @param answer what the grid would say by now; it takes its time. */
export type OnGridLook = (state: StudyState, answer: () => GridAnswer) => void;

/**
 * Runs a grid, fields that are out first: they are few shifts, and from then on there is an answer for all.
 * Aborted, it answers with what it has, marked partial; null where that is nothing.
 */
export async function runGrid(
  question: GridQuestion,
  runner: Runner,
  onLook?: OnGridLook,
  signal?: AbortSignal,
): Promise<GridAnswer | null> {
  const { fields, promise, count } = question;
  const ceilings = fields.map(ceilingOf);
  const out = fields.map(({ shifts }, at) => {
    const target = shifts[0]!.target;
    const ceiling = ceilings[at]!;
    return target !== null && target > 0 && ceiling !== null && ceiling / target < promise;
  });
  const parts: Part[] = [];
  for (const pruned of [true, false]) {
    const places = fields.flatMap((_, at) => (out[at] === pruned ? [at] : []));
    if (places.length === 0) continue;
    const shifts = pruned ? Math.max(FEW, Math.ceil(count / 4)) : count;
    const pairs = besideEachOther(places, question.columns);
    const told = (state: StudyState): void =>
      onLook?.(state, () => answerOf(question, [...parts, { places, pairs, state }], ceilings, out));
    const part = await runPart(question, { places, pairs }, Math.min(count, shifts), runner, told, signal);
    if (part.state.stopping.done < 2) return null;
    parts.push(part);
    if (part.state.partial) break;
  }
  return parts.reduce((sum, { places }) => sum + places.length, 0) < fields.length
    ? null
    : answerOf(question, parts, ceilings, out);
}

async function runPart(
  question: GridQuestion,
  { places, pairs }: Omit<Part, 'state'>,
  count: number,
  runner: Runner,
  onLook: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<Part> {
  const cases = places.map((at): StudyCase => {
    const { shifts, warmUp } = question.fields[at]!;
    return { id: String(at), name: String(at), shifts, ...(warmUp === undefined ? {} : { warmUp }) };
  });
  const state = await runStudy(
    {
      cases,
      pairs: pairs.map(([before, after]) => ({
        before: places.indexOf(before),
        after: places.indexOf(after),
      })),
      settings: question.settings,
      count,
    },
    runner,
    onLook,
    signal,
  );
  return { places, pairs, state };
}

/** Fields side by side or one below the other, both of these places. */
function besideEachOther(places: number[], columns: number): [number, number][] {
  const there = new Set(places);
  return places.flatMap((at): [number, number][] => [
    ...(at % columns > 0 && there.has(at - 1) ? [[at - 1, at] as [number, number]] : []),
    ...(there.has(at - columns) ? [[at - columns, at] as [number, number]] : []),
  ]);
}

function answerOf(
  { fields, columns, money, promise, count }: GridQuestion,
  parts: Part[],
  ceilings: (number | null)[],
  out: boolean[],
): GridAnswer {
  const told = new Map<number, CaseSummary>();
  const alike: [number, number][] = [];
  const studies: StudySummary[] = [];
  for (const { places, pairs, state } of parts) {
    const study = summarize(state, false);
    studies.push(study);
    study.cases.forEach((one, i) => told.set(places[i]!, one));
    study.pairs.forEach(({ good }, i) => {
      if (good.low <= 0 && good.high >= 0) alike.push(pairs[i]!);
    });
  }
  const groups = groupsOf(fields.length, alike);
  const cells = fields.map(({ price }, at): GridCell => {
    const one = told.get(at)!;
    const share = shareOfPrice(price, money);
    const cost = added(one.cost, share);
    return {
      row: Math.floor(at / columns),
      column: at % columns,
      good: one.good,
      chance: one.target?.chance ?? null,
      nineInTen: one.spread.nineInTen,
      cost,
      net: money.margin === null ? null : netOf(one.good, money.margin, cost),
      price,
      makes: one.target === null ? null : out[at] === true ? 'no' : makesIt(one.target.chance, promise),
      ceiling: ceilings[at]!,
      out: out[at]!,
      alike: groups[at]!,
    };
  });
  return {
    cells,
    columns,
    target: told.get(0)!.target?.units ?? null,
    promise,
    count: parts.find(({ places }) => !out[places[0]!]!)?.state.stopping.done ?? count,
    confidence: studies[0]!.confidence,
    partial: studies.some(({ kind }) => kind === 'partial'),
    ...chosen(cells),
  };
}

function makesIt(chance: Interval, promise: number): 'yes' | 'perhaps' | 'no' {
  const { low, high } = asPromised(chance);
  return low >= promise ? 'yes' : high < promise ? 'no' : 'perhaps';
}

const added = ({ estimate, low, high }: Ranged, more: number): Ranged => ({
  estimate: estimate + more,
  low: low + more,
  high: high + more,
});

/** End to end: whatever good units and cost have to do with each other, the range is not too narrow. */
const netOf = (good: Ranged, margin: number, cost: Ranged): Ranged => ({
  estimate: good.estimate * margin - cost.estimate,
  low: good.low * margin - cost.high,
  high: good.high * margin - cost.low,
});

/** The cheapest that makes it, those that may for less, and the most net money; ties go to the first. */
export function chosen(
  cells: readonly Pick<GridCell, 'makes' | 'cost' | 'net'>[],
): Pick<GridAnswer, 'cheapest' | 'perhapsCheaper' | 'mostNet'> {
  const least = (places: number[]): number | undefined =>
    places.reduce<number | undefined>(
      (best, at) => (best === undefined || cells[at]!.cost.estimate < cells[best]!.cost.estimate ? at : best),
      undefined,
    );
  const those = (makes: GridCell['makes']): number[] =>
    cells.flatMap((cell, at) => (cell.makes === makes ? [at] : []));
  const [sure, perhaps] = [least(those('yes')), least(those('perhaps'))];
  const at = sure ?? perhaps;
  const net = cells.flatMap((cell, place) => (cell.net === null ? [] : [{ place, net: cell.net.estimate }]));
  return {
    cheapest: at === undefined ? null : { at, sure: sure !== undefined },
    perhapsCheaper:
      sure === undefined
        ? []
        : those('perhaps').filter((one) => cells[one]!.cost.estimate < cells[sure]!.cost.estimate),
    mostNet: net.length === 0 ? null : net.reduce((best, one) => (one.net > best.net ? one : best)).place,
  };
}

/** Numbers of the groups that pairs join, in the order of their first members; null: in none. */
export function groupsOf(count: number, pairs: readonly [number, number][]): (number | null)[] {
  const leader = Array.from({ length: count }, (_, at) => at);
  const find = (at: number): number => (leader[at] === at ? at : find(leader[at]!));
  for (const [one, other] of pairs) {
    const [a, b] = [find(one), find(other)];
    leader[Math.max(a, b)] = Math.min(a, b);
  }
  const joined = new Set(pairs.flat());
  const numbers = new Map<number, number>();
  return leader.map((_, at) => {
    if (!joined.has(at)) return null;
    const first = find(at);
    if (!numbers.has(first)) numbers.set(first, numbers.size);
    return numbers.get(first)!;
  });
}

/**
 * What is not known of the inputs, carried through the cases of a study: pairs of runs on the luck of the
 * study's own first replications, with all inputs moved as a design says, the same moves in every case. So
 * differences between cases keep what their inputs have in common.
 */
import { exp } from '../../random/exact.ts';
import type { InputPlace, UncertainInput } from '../../scenario/inputs.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import type { Job, JobResult, Runner } from '../../record/job.ts';
import { addCaseRows, createCaseRecord, ROWS_KEPT, type CaseRecord } from '../case-record.ts';
import { componentsOf, type InputComponents } from './components.ts';
import { designFor, designOf, STEP, type Design } from './design.ts';
import { deviationOfInput, type Deviation } from './deviation.ts';

export interface StudiedInput extends UncertainInput, Deviation {
  /** In a sentence: "“fit”", "“sand” again", "what goes from “check” back to “sand”", "who comes". */
  name: string;
}

export interface InputStudy {
  inputs: StudiedInput[];
  /** By case: which of them it has, ascending. */
  present: number[][];
  design: Design;
  /** By case: the runs with the design's moves, and those with the opposite ones, pair by pair. */
  up: CaseRecord[];
  down: CaseRecord[];
  /** By case: the study's own runs, */
  own: CaseRecord[];
  /** of which so many are sure to be there, however long it goes on. */
  first: number;
}

interface StudiedCase {
  shifts: ResolvedShift[];
  warmUp?: number;
}

/**
 * Pairs of runs a replication of the first stage, however many cases there are and however long the study
 * goes on: what is said of two cells must not hang on what else was asked.
 */
const PAIRS = 0.96;

/** Every input of any case that is not known exactly, once. */
export function inputsOfCases(cases: readonly StudiedCase[]): StudiedInput[] {
  const found = new Map<string, StudiedInput>();
  for (const { shifts } of cases)
    for (const shift of shifts)
      for (const input of shift.inputs) {
        if (found.has(input.id) || !isThere(shift, input.place)) continue;
        const studied = { ...input, ...deviationOfInput(shift, input), name: nameOf(shift, input.place) };
        if (studied.deviation > 0) found.set(input.id, studied);
      }
  return [...found.values()];
}

const presentIn = (inputs: readonly StudiedInput[], { shifts }: StudiedCase): number[] =>
  inputs.flatMap(({ id }, at) =>
    shifts.some((shift) => shift.inputs.some((one) => one.id === id && isThere(shift, one.place)))
      ? [at]
      : [],
  );

/** Cells that are changed by hand, to see what a cause costs, may be without what their file has. */
function isThere({ steps, people }: ResolvedShift, place: InputPlace): boolean {
  if (place.kind === 'attendance') return people.some(({ id }) => id === place.person);
  const step = steps.find(({ id }) => id === place.step);
  return step !== undefined && (place.kind !== 'rework' || place.branch < step.rework.length);
}

function nameOf(shift: ResolvedShift, place: InputPlace): string {
  if (place.kind === 'attendance')
    return `whether ${shift.people.find(({ id }) => id === place.person)!.name} comes`;
  const nameOfStep = (id: string): string => `“${shift.steps.find((step) => step.id === id)?.name ?? id}”`;
  const step = shift.steps.find(({ id }) => id === place.step)!;
  switch (place.kind) {
    case 'time': {
      const product = shift.products.find(({ id }) => id === place.product);
      return `${nameOfStep(step.id)}${product === undefined ? '' : ` of ${product.name}`}${place.repeat ? ' again' : ''}`;
    }
    case 'scrap':
      return `what ${nameOfStep(step.id)} scraps`;
    case 'rework': {
      const { to, cause } = step.rework[place.branch]!;
      const why = cause === 'rework' ? '' : ` for “${cause}”`;
      return to === step.id
        ? `what is done again at ${nameOfStep(to)}${why}`
        : `what ${nameOfStep(step.id)} sends back to ${nameOfStep(to)}${why}`;
    }
  }
}

/** Pairs of runs for so many replications of a study's first stage; all their rows are kept. */
const pairsFor = (first: number): number => Math.min(ROWS_KEPT, Math.floor(PAIRS * first));

/**
 * Null where everything is known, or where it was aborted. Throws what the runner throws.
 * @param own by case the study's own runs, the cell asked about first. @param first replications of its
 *   first stage.
 */
export async function runInputStudy(
  cases: readonly StudiedCase[],
  own: CaseRecord[],
  first: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<InputStudy | null> {
  const inputs = inputsOfCases(cases);
  const seed = cases[0]?.shifts[0]?.seed;
  if (inputs.length === 0 || seed === undefined) return null;
  const present = cases.map((one) => presentIn(inputs, one));
  const design = designOf(inputs.length, pairsFor(first), seed, present[0]!.length);
  const directions = [1, -1] as const;
  const jobs = cases.map(({ shifts }) =>
    directions.map((direction) => jobsOf(shifts, inputs, design, direction, runner.width)),
  );
  try {
    const results = await Promise.all(
      jobs.map((both) =>
        Promise.all(both.map((one) => Promise.all(one.map((job) => runner.run(job, signal))))),
      ),
    );
    const recordOf = (at: number, parts: JobResult[]): CaseRecord => {
      const record = createCaseRecord(cases[at]!.shifts, cases[at]!.warmUp, design.pairs);
      addCaseRows(record, parts);
      return record;
    };
    return {
      inputs,
      present,
      design,
      own,
      first,
      up: results.map(([up], at) => recordOf(at, up!)),
      down: results.map(([, down], at) => recordOf(at, down!)),
    };
  } catch (error) {
    if (signal?.aborted === true) return null;
    throw error;
  }
}

/** A case's runs in one direction, in as many jobs as keep the runner busy. */
function jobsOf(
  shifts: ResolvedShift[],
  inputs: readonly StudiedInput[],
  { pairs, signs }: Design,
  direction: 1 | -1,
  width: number,
): Job[] {
  const here = new Set(shifts.flatMap((shift) => shift.inputs.map(({ id }) => id)));
  const own = inputs.flatMap((input, at) => (here.has(input.id) ? [{ input, at }] : []));
  const places: InputPlace[] = own.map(({ input }) => input.place);
  const jobs: Job[] = [];
  const share = Math.max(8, Math.ceil(pairs / width));
  for (let from = 0; from < pairs; from += share) {
    const count = Math.min(share, pairs - from);
    const factors = new Float64Array(count * own.length);
    for (let i = 0; i < count; i++)
      own.forEach(({ input, at }, k) => {
        const sign = signs[(from + i) * inputs.length + at]!;
        factors[i * own.length + k] = exp(direction * sign * STEP * input.deviation);
      });
    jobs.push({ shifts, from, count, varied: { places, factors } });
  }
  return jobs;
}

/**
 * The inputs' part in a mean, or in the difference of two.
 * @param value of a pair's run, given the record of its case and its place in it.
 * @param before the case it is held against; none: the case's own mean.
 */
export function inputsPart(
  study: InputStudy | null,
  value: (record: CaseRecord, row: number) => number,
  after: number,
  before?: number,
): InputComponents | null {
  if (study === null) return null;
  const { up, down, own, first, design } = study;
  const oddOf = (at: number, row: number): number => (value(up[at]!, row) - value(down[at]!, row)) / 2 / STEP;
  const evenOf = (at: number, row: number): number =>
    row < first ? ((value(up[at]!, row) + value(down[at]!, row)) / 2 - value(own[at]!, row)) / STEP : NaN;
  const all = (of: (at: number, row: number) => number): Float64Array =>
    Float64Array.from(
      { length: design.pairs },
      (_, row) => of(after, row) - (before === undefined ? 0 : of(before, row)),
    );
  const here = [
    ...new Set([...study.present[after]!, ...(before === undefined ? [] : study.present[before]!)]),
  ];
  const found = componentsOf(
    designFor(
      design,
      here.sort((a, b) => a - b),
    ),
    { odd: all(oddOf), even: all(evenOf) },
    here.map((at) => study.inputs[at]!.degrees),
  );
  if (found.parts.length === 0) return found;
  const everyOne = (values: readonly number[]): number[] =>
    study.inputs.map((_, at) => (here.includes(at) ? values[here.indexOf(at)]! : 0));
  return { ...found, parts: everyOne(found.parts), effects: everyOne(found.effects) };
}

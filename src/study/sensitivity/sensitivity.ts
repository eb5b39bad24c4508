/**
 * What would change the answer: the question asked again with each input moved through its own uncertainty,
 * alone, on the same luck. The budget is small: enough to tell a shift of twice the precision of the answer
 * itself.
 */
import { layoutOfShift } from '../../record/layout.ts';
import type { Job, Runner } from '../../record/job.ts';
import { scalarAt } from '../../record/report.ts';
import { shiftsOf } from '../../scenario/options.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { settingsOf } from '../from-scenario.ts';
import { chanceInterval } from '../intervals/chance-interval.ts';
import { shared, type Interval } from '../intervals/interval.ts';
import { meanInterval } from '../intervals/mean-interval.ts';
import { addRow, createMoments, deviationOf } from '../intervals/moments.ts';
import { createStopping, lookAt, tellRow, type StoppingSettings } from '../stopping.ts';
import type { MovedInput } from './inputs.ts';

/** What is asked again: what one cell makes more than another, or what one makes. */
export type Asking = { kind: 'gain'; before: Scenario; after: Scenario } | { kind: 'makes'; after: Scenario };

export interface MovedAnswer {
  /** The input's id and name, and what was done to it: "“fit” 10% slower". */
  input: string;
  name: string;
  words: string;
  /**
   * By how much the answer shifts, and where it then lies, good units a shift; the ranges of all moves hold
   * together.
   */
  shift: Interval;
  answer: Interval;
  /** Chance of the target then, of the cell that is asked about; null without a target. */
  chance: Interval | null;
}

export interface Sensitivity {
  asking: Asking['kind'];
  /** Replications of each move, inputs tried. */
  count: number;
  inputs: number;
  capped: boolean;
  precision: number;
  /** The answer unmoved, on these replications. */
  answer: Interval;
  /** The largest shift first. */
  moves: MovedAnswer[];
}

export const SENSITIVITY = { first: 100, most: 400 };
const BLOCK = 100;

interface Run {
  good: number[];
  /** Replications that met the target; null without one. */
  met: number | null;
}

/** Aborted, there is no answer: null. Throws RunawayError, and what the runner throws. */
export async function runSensitivity(
  asking: Asking,
  inputs: readonly MovedInput[],
  runner: Runner,
  asked: Partial<StoppingSettings> = {},
  onCount?: (done: number, needed: number) => void,
  signal?: AbortSignal,
): Promise<Sensitivity | null> {
  const own = settingsOf(asking.after);
  const settings = { ...own, precision: 2 * own.precision, ...SENSITIVITY, ...asked };
  const moves = inputs.flatMap((input) => input.moves.map((move) => ({ input, move })));
  const cells = [asking, ...moves.map(({ move }) => movedAsking(asking, move.apply))].map(shiftsOfBoth);
  const runs = cells.map((cell) => cell.map((): Run => ({ good: [], met: null })));
  const stopping = createStopping(moves.length, settings);
  while (moves.length > 0 && !lookAt(stopping).enough) {
    const [from, count] = [stopping.done, Math.min(BLOCK, stopping.needed - stopping.done)];
    if (!(await runBlock(cells, runs, runner, from, count, signal))) return null;
    for (let at = from; at < from + count; at++)
      tellRow(
        stopping,
        moves.map((_, m) => answerAt(runs[m + 1]!, at) - answerAt(runs[0]!, at)),
      );
    onCount?.(stopping.done, stopping.needed);
  }
  const { ranges, done: count, capped } = lookAt(stopping);
  const confidence = shared(settings.confidence, moves.length);
  const answered = moves.map(({ input, move }, m): MovedAnswer => ({
    input: input.id,
    name: input.name,
    words: move.words,
    shift: ranges[m]!,
    answer: rangeOf(runs[m + 1]!, confidence, settings.confidence),
    chance: chanceOf(runs[m + 1]!, confidence),
  }));
  return {
    asking: asking.kind,
    count,
    inputs: inputs.length,
    capped,
    precision: settings.precision,
    answer: rangeOf(runs[0]!, settings.confidence, settings.confidence),
    moves: answered.sort((a, b) => Math.abs(b.shift.estimate) - Math.abs(a.shift.estimate)),
  };
}

function movedAsking(asking: Asking, apply: (scenario: Scenario) => Scenario): Asking {
  return asking.kind === 'gain'
    ? { ...asking, before: apply(asking.before), after: apply(asking.after) }
    : { ...asking, after: apply(asking.after) };
}

/** What is asked about first, then what it is held against. */
const shiftsOfBoth = (asking: Asking): ResolvedShift[][] => [
  shiftsOf(asking.after),
  ...(asking.kind === 'gain' ? [shiftsOf(asking.before)] : []),
];

const answerAt = ([after, before]: Run[], at: number): number => after!.good[at]! - (before?.good[at] ?? 0);

/** False where it was aborted. */
async function runBlock(
  cells: ResolvedShift[][][],
  runs: Run[][],
  runner: Runner,
  from: number,
  count: number,
  signal?: AbortSignal,
): Promise<boolean> {
  try {
    await Promise.all(
      cells.flatMap((cell, c) =>
        cell.map(async (shifts, side) =>
          addRun(runs[c]![side]!, shifts, await rowsOf(runner, { shifts, from, count }, signal)),
        ),
      ),
    );
    return true;
  } catch (error) {
    if (signal?.aborted === true) return false;
    throw error;
  }
}

const rowsOf = async (runner: Runner, job: Job, signal?: AbortSignal): Promise<Float64Array[]> =>
  (await runner.run(job, signal)).rows;

function addRun(run: Run, shifts: ResolvedShift[], rows: Float64Array[]): void {
  const layouts = shifts.map(layoutOfShift);
  const count = rows[0]!.length / layouts[0]!.size;
  const target = shifts.every((shift) => shift.target !== null);
  for (let row = 0; row < count; row++) {
    const scalar = (name: 'good' | 'targetMet'): number[] =>
      layouts.map((layout, shift) => rows[shift]![row * layout.size + scalarAt(layout, name)]!);
    run.good.push(scalar('good').reduce((sum, one) => sum + one, 0) / shifts.length);
    if (target) run.met = (run.met ?? 0) + Math.min(...scalar('targetMet'));
  }
}

function rangeOf(run: Run[], confidence: number, stated: number): Interval {
  const moments = createMoments(1);
  run[0]!.good.forEach((_, at) => addRow(moments, [answerAt(run, at)]));
  return {
    ...meanInterval(moments.count[0]!, moments.mean[0]!, deviationOf(moments, 0), confidence),
    confidence: stated,
  };
}

const chanceOf = ([after]: Run[], confidence: number): Interval | null =>
  after!.met === null ? null : chanceInterval(after!.met, after!.good.length, confidence);

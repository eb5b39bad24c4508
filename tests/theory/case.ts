/**
 * A case of theory: a scenario as a user would write it, figures from outside, and how a run is set against
 * them.
 */
import { runJob } from '../../src/record/job.ts';
import { scalarAt, type ReportLayout, type Scalar } from '../../src/record/report.ts';
import { compile } from '../../src/engine/compile.ts';
import { layoutOf } from '../../src/record/layout.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { Length } from './cases/cell.ts';

/** The report of one shift of one replication, by name. */
export interface Figures {
  scalar(name: Scalar): number;
  /** Time average of a line, minutes waited in it, starts out of it, minutes worked at its step. */
  line(step: string): number;
  waited(step: string): number;
  starts(step: string): number;
  worked(step: string): number;
  /** Minutes that all items of a kind of gear spent in a state. */
  gear(gear: string, state: number): number;
}

/** One figure: the sum of `of` over all measured shifts, divided by the sum of `per`. */
export interface Measure {
  name: string;
  /** From the formula. */
  expected: number;
  /** As printed in the source: the formula is to give it to the digits it has. */
  printed?: number;
  of: (figures: Figures) => number;
  per: (figures: Figures) => number;
  /** What a different rule would give: the run must be clear of it. */
  not?: { value: number; because: string }[];
}

export interface TheoryCase {
  name: string;
  source: string;
  /** The scenario as JSON, for shifts of this length where it is steady. */
  scenario: (length: Length) => unknown;
  measures: Measure[];
  /**
   * `steady`: the first shift warms up and is cut, those that follow it (one file, `nextShifts`) are
   * measured. `single`: the file's one shift is measured, from its start. `fixed`: no chance in it; one run,
   * figures exact (`warm` cuts the first shift).
   */
  kind: 'steady' | 'single' | 'fixed' | 'fixed, warm';
  /** Replications of the short form, for `npm test`; default 20 (1 where nothing is by chance). */
  replications?: number;
}

export interface Outcome {
  case: TheoryCase;
  measure: Measure;
  got: number;
  /** Standard error over independent replications; 0 where nothing is by chance. */
  error: number;
  replications: number;
  /** (got - expected) / error; 0 where both are 0. */
  errors: number;
  relative: number;
}

/** Reads a file's shifts; throws what the check says where it refuses the file. */
export function shiftsOfCase(one: TheoryCase, length: Length): ResolvedShift[] {
  const reading = readScenario(JSON.stringify(one.scenario(length)));
  if (reading.kind === 'wrong') throw new Error(`${one.name}: ${JSON.stringify(reading.faults)}`);
  return shiftsOf(reading.scenario);
}

function figuresOf(layout: ReportLayout, row: Float64Array): Figures {
  const at = layout.at;
  const step = (id: string): number => {
    const found = layout.steps.indexOf(id);
    if (found < 0) throw new RangeError(`no step ${id}`);
    return found;
  };
  return {
    scalar: (name) => row[scalarAt(layout, name)]!,
    line: (id) => row[at.lineMean + step(id)]!,
    waited: (id) => row[at.waited + step(id)]!,
    starts: (id) => row[at.starts + step(id)]!,
    worked: (id) => row[at.worked + step(id)]!,
    gear: (id, state) => row[at.gearMinutes + layout.gear.indexOf(id) * layout.gearStates + state]!,
  };
}

/** Replications run at once: rows of more would fill the memory. */
const AT_ONCE = 100;
/** Standard error aimed at by the full length, as a share of what is expected. */
const AIM = 0.0014;
const FIRST = 20;
const LENGTHS = { short: { hours: 6, measured: 1 }, full: { hours: 24, measured: 4 } };

interface Sums {
  of: number[];
  per: number[];
}

/** Runs replications and adds their sums to `sums`, a measure each. */
function runInto(one: TheoryCase, shifts: ResolvedShift[], sums: Sums[], from: number, count: number): void {
  const measured = shifts
    .map((shift, index) => ({ index, layout: layoutOf(compile(shift)) }))
    .slice(one.kind === 'steady' || one.kind === 'fixed, warm' ? 1 : 0);
  for (let at = from; at < from + count; at += AT_ONCE) {
    const { rows, count: made } = runJob({ shifts, from: at, count: Math.min(AT_ONCE, from + count - at) });
    for (let i = 0; i < made; i++) {
      const figures = measured.map(({ index, layout }) =>
        figuresOf(layout, rows[index]!.subarray(i * layout.size, (i + 1) * layout.size)),
      );
      one.measures.forEach((measure, m) => {
        sums[m]!.of.push(figures.reduce((sum, shift) => sum + measure.of(shift), 0));
        sums[m]!.per.push(figures.reduce((sum, shift) => sum + measure.per(shift), 0));
      });
    }
  }
}

/**
 * Ratio of the sums with its standard error from the residuals of the replications (Cochran, Sampling
 * Techniques, chapter 6).
 */
function ratio({ of, per }: Sums): { got: number; error: number } {
  const count = of.length;
  const total = per.reduce((sum, value) => sum + value, 0);
  const got = of.reduce((sum, value) => sum + value, 0) / total;
  const squares = of.reduce((sum, value, i) => sum + (value - got * per[i]!) ** 2, 0);
  return { got, error: count < 2 ? 0 : Math.sqrt(squares / (count - 1) / count) / (total / count) };
}

/**
 * Runs a case. `short`: so many replications as it says. `full`: a first stage of 20 replications (or as many
 * as the short form) tells the spread, and from that alone follows how many there will be for a standard
 * error of 0.14 % of what is expected.
 */
export function runCase(one: TheoryCase, length: 'short' | 'full'): Outcome[] {
  const fixed = one.kind === 'fixed' || one.kind === 'fixed, warm';
  const first = fixed ? 1 : one.kind === 'steady' && length === 'full' ? FIRST : (one.replications ?? FIRST);
  const shifts = shiftsOfCase(one, LENGTHS[length]);
  const sums: Sums[] = one.measures.map(() => ({ of: [], per: [] }));
  runInto(one, shifts, sums, 0, first);
  if (length === 'full' && !fixed) {
    const needed = Math.max(
      ...one.measures.map(
        (measure, m) => first * (ratio(sums[m]!).error / (AIM * Math.abs(measure.expected))) ** 2,
      ),
    );
    if (needed > first) runInto(one, shifts, sums, first, Math.ceil(needed) - first);
  }
  return one.measures.map((measure, m): Outcome => {
    const { got, error } = ratio(sums[m]!);
    const away = got - measure.expected;
    return {
      case: one,
      measure,
      got,
      error,
      replications: sums[m]!.of.length,
      errors: away === 0 ? 0 : away / error,
      relative: away / measure.expected,
    };
  });
}

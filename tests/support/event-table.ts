/**
 * The event table of a shift, to be compared line by line with one worked out by hand: "minute what unit step
 * who".
 */
import { compile } from '../../src/engine/compile.ts';
import { CellRun } from '../../src/engine/run.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { FactLines } from './fact-lines.ts';

/**
 * A whole scenario of the parts that matter to a table: shift from 06:00, units that are there at the start.
 */
export type Sketch = Omit<Scenario, 'format' | 'name'>;

export function shiftsOfSketch(sketch: Sketch): ResolvedShift[] {
  const scenario = { format: 1, name: 'By hand', ...sketch };
  const read = checkScenario(scenario);
  if (read.kind === 'wrong') throw new Error(read.faults.map((fault) => fault.text).join('\n'));
  return shiftsOf(read.scenario);
}

/**
 * Facts of every shift, in the order they came about (states as they are at the end of an instant, after it);
 * `kinds` are their first words, or names of people for what they do.
 */
export function dayTable(sketch: Sketch, kinds: string[]): string[][] {
  const cells = shiftsOfSketch(sketch).map(compile);
  const recorders = cells.map((cell) => new FactLines(cell));
  new CellRun(cells).run(0, recorders);
  return recorders.map((recorder) =>
    recorder.lines
      .map(inMinutes)
      .filter((line) => kinds.includes(line.split(' ')[1]!))
      .sort((a, b) => minuteOf(a) - minuteOf(b)),
  );
}

export const eventTable = (sketch: Sketch, kinds: string[]): string[] => dayTable(sketch, kinds)[0]!;

const minuteOf = (line: string): number => Number(line.slice(0, line.indexOf(' ')));

/** Minutes for ms; a start without the time it takes, which its finish shows. */
function inMinutes(line: string): string {
  const [time, what, ...rest] = line.split(' ');
  if (what === 'start') rest.pop();
  if (what === 'wait' || what === 'lapsed') rest.push(`${Number(rest.pop()) / 60_000}`);
  return [Number(time) / 60_000, what, ...rest].join(' ');
}

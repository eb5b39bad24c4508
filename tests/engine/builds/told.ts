/** What a build of the core tells of a day, in full and as one number; for node and for a browser. */
import fc from 'fast-check';
import { compile } from '../../../src/engine/compile.ts';
import { currentCore, plainCore, wasmCore, withCore, type Core } from '../../../src/engine/core.ts';
import { CellRun, RunawayError } from '../../../src/engine/run.ts';
import { DayTally } from '../../../src/record/row.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import { FactLines } from '../../support/fact-lines.ts';
import { generatedCells } from '../../support/generated-cells.ts';

export interface Told {
  rows: Float64Array[];
  lines: string[];
}

/** Rows and facts of some replications; the error's text where the day never ends. */
export function toldBy(core: Core, shifts: ResolvedShift[], replications: number[]): Told | string {
  return withCore(core, () => {
    const cells = shifts.map(compile);
    const run = new CellRun(cells);
    const day = new DayTally(cells);
    const rows = day.tallies.map(({ layout }) => new Float64Array(replications.length * layout.size));
    const lines = cells.map((cell) => new FactLines(cell));
    try {
      replications.forEach((replication, i) => {
        day.run(run, replication);
        day.write(rows, i);
      });
      run.run(replications[0]!, lines);
    } catch (error) {
      if (error instanceof RunawayError) return error.message;
      throw error;
    }
    return { rows, lines: lines.flatMap((one) => one.lines) };
  });
}

/** A hash of every bit that is told (FNV-1a). */
export function printOf(told: Told | string): number {
  let hash = 0x811c9dc5;
  const take = (byte: number): void => {
    hash = Math.imul(hash ^ byte, 0x01000193);
  };
  if (typeof told !== 'string')
    for (const row of told.rows) for (const byte of new Uint8Array(row.buffer)) take(byte);
  const text = typeof told === 'string' ? told : told.lines.join('\n');
  for (let i = 0; i < text.length; i++) take(text.charCodeAt(i));
  return hash >>> 0;
}

/** Days that are made up, always the same ones. */
export const generatedDays = (count: number): ResolvedShift[][] =>
  fc.sample(generatedCells, { numRuns: count, seed: 20_261_128 }).map(shiftsOf);

export interface Prints {
  kind: Core['kind'];
  prints: number[];
}

/** @param core `own`: the one that runs where nobody chooses. Throws where it is refused. */
export function printsBy(core: 'own' | 'WebAssembly' | 'JavaScript', days: ResolvedShift[][]): Prints {
  const built = core === 'own' ? currentCore() : core === 'WebAssembly' ? wasmCore() : plainCore();
  return { kind: built.kind, prints: days.map((shifts, i) => printOf(toldBy(built, shifts, [i, 1000 + i]))) };
}

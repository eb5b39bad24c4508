/**
 * The reference cell: two programs written apart from each other, and not from this one, gave its means
 * (standard error .002).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { applyOption } from '../../src/scenario/options.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { Rerun, scalar } from '../support/run-cell.ts';

const SHIFTS = 20_000;
/** Standard error of the two programs' own means, 400,000 shifts each. */
const THEIR_ERROR = 0.002;

function cellK(option: string | null): Scenario {
  const value: unknown = JSON.parse(
    readFileSync(new URL('../../scenarios/cell-k.json', import.meta.url), 'utf8'),
  );
  const read = checkScenario(value);
  if (read.kind === 'wrong') throw new Error(read.faults[0]!.text);
  return option === null ? read.scenario : applyOption(read.scenario, option);
}

/** Mean and standard error of good units. */
function meanGood(scenario: Scenario): { mean: number; error: number } {
  const rerun = new Rerun([resolve(scenario)]);
  let total = 0;
  let squares = 0;
  for (let replication = 0; replication < SHIFTS; replication++) {
    const good = scalar(rerun.rows(replication)[0]!, 'good');
    total += good;
    squares += good * good;
  }
  const mean = total / SHIFTS;
  return { mean, error: Math.sqrt((squares / SHIFTS - mean * mean) / SHIFTS) };
}

describe('cell K', () => {
  test.each([
    { sets: 'two clamp sets', option: null, published: 16.634 },
    { sets: 'three clamp sets', option: 'third-set', published: 20.48 },
  ])('makes a mean of $published good units with $sets', ({ option, published }) => {
    const { mean, error } = meanGood(cellK(option));
    expect(error).toBeLessThan(0.012);
    expect(Math.abs(mean - published)).toBeLessThan(3.3 * Math.hypot(error, THEIR_ERROR));
    expect(Math.abs(mean - published) / published).toBeLessThan(0.005);
  });
});

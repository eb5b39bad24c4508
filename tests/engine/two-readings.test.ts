/**
 * The engine against a slow, plain reading of the same rules that shares nothing with it but the time curves
 * and the random words.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { RunawayError } from '../../src/engine/run.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { engineLines, sortLines } from '../support/fact-lines.ts';
import { generatedCells } from '../support/generated-cells.ts';
import { EndlessInstant, referenceRun } from '../support/reference-run.ts';
import { holds } from '../support/holds.ts';

/**
 * Every fact with its time, unit and person; every state of every person and piece of gear at the end of each
 * instant.
 */
function bothReadings(
  scenario: Scenario,
  replication: number,
): { engine: string[]; reference: string[] } | null {
  const shift = resolve(scenario);
  try {
    return {
      engine: sortLines(engineLines(shift, replication)),
      reference: sortLines(referenceRun(shift, replication)),
    };
  } catch (error) {
    // Units that go round without any time passing: both give up, neither ends.
    if (error instanceof RunawayError || error instanceof EndlessInstant) return null;
    throw error;
  }
}

describe('two readings of the rules', () => {
  test('tell the same facts of a thousand generated cells', () => {
    let compared = 0;
    let facts = 0;
    holds(
      fc.property(generatedCells, fc.nat({ max: 1000 }), (scenario, replication) => {
        const both = bothReadings(scenario, replication);
        if (both === null) return;
        compared++;
        facts += both.engine.length;
        expect(both.engine).toEqual(both.reference);
      }),
      { numRuns: 1000, seed: 20_241_125 },
    );
    expect(compared).toBeGreaterThan(900);
    expect(facts / compared).toBeGreaterThan(50);
  });

  test('tell the same facts where the crew is larger than a mask of bits', () => {
    let compared = 0;
    let late = 0;
    holds(
      fc.property(generatedCells, fc.nat({ max: 1000 }), (scenario, replication) => {
        const both = bothReadings(withCrewOf(40, scenario), replication);
        if (both === null) return;
        compared++;
        late += both.engine.filter((line) => / start .*-3\d/.test(line)).length;
        expect(both.engine).toEqual(both.reference);
      }),
      { numRuns: 60, seed: 20_261_125 },
    );
    expect(compared).toBeGreaterThan(50);
    expect(late).toBeGreaterThan(50);
  });
});

/**
 * The same cell with its people again and again: most of them cover nothing, so that the last ones have work
 * to do.
 */
function withCrewOf(count: number, scenario: Scenario): Scenario {
  const own = Object.entries(scenario.people);
  const crew = Array.from({ length: Math.max(count, own.length) }, (_, i) => {
    const [id, person] = own[i % own.length]!;
    return i < own.length
      ? ([id, person] as const)
      : ([`${id}-${i}`, i < 33 ? { ...person, covers: [] } : person] as const);
  });
  return { ...scenario, people: Object.fromEntries(crew) };
}

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkNow } from '../../src/today/check-now.ts';
import { stateAt } from '../../src/today/state.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { generatedCells } from '../support/generated-cells.ts';
import { doneAfter, runOf, withoutChance } from './support.ts';

/**
 * The cell with nothing drawn after the count, and nothing that a count cannot say; null where that is no
 * sound file.
 */
function expressible(scenario: Scenario): Scenario | null {
  const { holds: _holds, carryOver: _carry, products: _products, gear, ...rest } = scenario;
  const people = Object.fromEntries(
    Object.entries(rest.people).map(([id, { attendance: _attendance, ...person }]) => [id, person]),
  );
  const steps = Object.fromEntries(
    Object.entries(rest.steps).map(([id, { people: _two, uses, ...step }]) => [
      id,
      step.kind === 'wait' || uses === undefined ? step : { ...step, uses },
    ]),
  );
  const intake =
    rest.intake?.kind === 'random' || rest.intake?.kind === 'constant'
      ? { kind: 'at start' as const, units: 8 }
      : rest.intake;
  const whole = Object.fromEntries(
    Object.entries(gear ?? {}).map(([id, { out: _out, ...one }]) => [id, one]),
  );
  const reading = checkScenario({
    ...rest,
    people,
    steps,
    gear: whole,
    ...(intake === undefined ? {} : { intake }),
  });
  if (reading.kind !== 'fine') return null;
  try {
    return withoutChance(reading.scenario);
  } catch {
    // With whole minutes a piece may fit no more.
    return null;
  }
}

/** A last start or an own end that may be over at the count: the rest then says them in a roundabout way. */
const roundabout = (scenario: Scenario): boolean =>
  Object.values(scenario.steps).some((step) => step.lastStart !== undefined) ||
  Object.values(scenario.people).some((person) => person.to !== undefined);

describe('generated cells with fixed times', () => {
  it('go on from a count exactly as they went on; with last starts and own ends that are over, nearly all of them', () => {
    const compared = { plain: 0, roundabout: 0 };
    const differ = { plain: [] as number[], roundabout: [] as number[] };
    for (const [i, cell] of fc.sample(generatedCells, { numRuns: 150, seed: 7 }).entries()) {
      const scenario = expressible(cell);
      if (scenario === null) continue;
      const record = runOf(scenario);
      const minute = 12 + ((i * 7) % 70);
      // Pieces that changed places stand in a rack that is full already: a count cannot say it.
      if (record.some(({ event, time }) => event === 'places changed' && time <= minute * 60_000)) continue;
      const now = stateAt(scenario, record, minute);
      if (now.inside.some((piece) => piece.state === 'put down')) continue;
      const checked = checkNow(scenario, now);
      expect(checked.kind === 'wrong' ? checked.faults : [], `cell ${i}`).toEqual([]);
      if (checked.kind === 'wrong') continue;
      const kind = roundabout(scenario) ? 'roundabout' : 'plain';
      compared[kind]++;
      if (doneAfter(runOf(checked.rest), 0).join('\n') !== doneAfter(record, minute).join('\n'))
        differ[kind].push(i);
    }
    expect(compared.plain).toBeGreaterThan(20);
    expect(compared.roundabout).toBeGreaterThan(20);
    expect(differ.plain).toEqual([]);
    expect(differ.roundabout.length / compared.roundabout).toBeLessThan(0.1);
  });
});

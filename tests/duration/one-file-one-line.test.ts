/**
 * A new curve is one file (toy/tilted.ts) and one line in the list, here added before anything reads it: it
 * then works wherever times are read, run, moved, told and asked for. What it leaves out is refused by types.
 */
import { readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test, vi } from 'vitest';
import type { Curve } from '../../src/duration/curve.ts';
import { CURVES } from '../../src/duration/curves.ts';
import { curveNamed, curveOf, timeChoices, type Time, type TimeKind } from '../../src/duration/time.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { describeChanges } from '../../src/scenario/describe-changes.ts';
import { scenarioJsonSchema } from '../../src/scenario/json-schema.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { inputsOf } from '../../src/study/sensitivity/inputs.ts';
import { asKind, faultOf, timeInWords } from '../../web/parts/time-words.ts';
import { withMean } from '../../web/pages/common/times.ts';
import { Rerun, scalar, shiftOf } from '../support/run-cell.ts';
import { SHOPS, shop } from '../support/shops.ts';
import { tilted, type Tilted } from './toy/tilted.ts';

vi.mock('../../src/duration/curves.ts', async (original) => {
  const list = await original<{ CURVES: readonly unknown[] }>();
  const toy = await import('./toy/tilted.ts');
  return { CURVES: [...list.CURVES, toy.tilted] };
});

/** The toy is in the list, but not in the types of the list. */
const toy = (most: number, tilt: number): Time => ({ curve: 'tilted', most, tilt }) as unknown as Time;
const TILTED = 'tilted' as unknown as TimeKind;

const cell = (time: unknown): Scenario => ({
  format: 1,
  name: 'One bench',
  steps: { plane: { time: time as Time } },
  people: { ana: { covers: ['plane'] } },
  shift: { start: '06:00', end: '14:00' },
});
const faultsOf = (scenario: unknown): string[] => {
  const reading = checkScenario(scenario);
  return reading.kind === 'wrong' ? reading.faults.map((fault) => fault.text) : [];
};

describe('a curve of one file and one line', () => {
  test('is read by the check of the file: its shape, its own faults, its name among those allowed', () => {
    expect(faultsOf(cell(toy(10, 2)))).toEqual([]);
    expect(faultsOf(cell(toy(10, 12)))).toEqual([
      'Step “plane”, time, tilt: found 12; allowed: at most "most" (10); lower the tilt.',
    ]);
    expect(faultsOf(cell({ curve: 'tilted', most: 10 }))).toEqual([
      'Step “plane”, time, tilt: found nothing; allowed: a number (it has to be there); add "tilt".',
    ]);
    expect(faultsOf(cell({ curve: 'tiltd', most: 10, tilt: 1 }))[0]).toMatch(/did you mean "tilted"\?/);
  });

  test.each(SHOPS)('is read in the place of any time of %s', (name) => {
    const { options: _options, ...scenario } = shop(name);
    const [id, step] = Object.entries(scenario.steps).find(([, one]) => one.kind !== 'wait')!;
    const moved = { ...scenario, steps: { ...scenario.steps, [id]: { ...step, time: toy(10, 1) } } };
    expect(faultsOf(moved)).toEqual([]);
  });

  test('has no piece in hand for longer than it can take', () => {
    const carried = (minutes: number): unknown => ({
      ...cell(toy(10, 2)),
      carryOver: [{ at: 'plane', state: 'in hand', person: 'ana', minutes }],
    });
    expect(faultsOf(carried(9))).toEqual([]);
    expect(faultsOf(carried(11))[0]).toMatch(/at most 10 min/);
  });

  test('is in the JSON Schema', () => {
    const validate = new Ajv2020({ strict: false }).compile(scenarioJsonSchema());
    expect(validate(cell(toy(10, 2)))).toBe(true);
    expect(validate(cell(toy(10, 200)))).toBe(false);
  });

  test('is run: one bench makes as many as 480 minutes hold of its mean (renewal theory)', () => {
    // Mean 10 / 3, variance 100 / 5 - 100 / 9 = 80 / 9. By t renewals number t / mean + (cv^2 - 1) / 2 on
    // average (Cox, Renewal Theory, 1962, from memory), with variance about t variance / mean^3; and the
    // piece in hand at the end is finished: one more.
    const rerun = new Rerun([shiftOf({ ...cell(toy(10, 2)), intake: { kind: 'at start', units: 400 } })]);
    const runs = 400;
    let good = 0;
    for (let i = 0; i < runs; i++) good += scalar(rerun.rows(i)[0]!, 'good');
    const mean = 10 / 3;
    const variance = 80 / 9;
    const expected = 480 / mean + (variance / mean / mean - 1) / 2 + 1;
    const standardError = Math.sqrt((480 * variance) / mean ** 3 / runs);
    expect(Math.abs(good / runs - expected)).toBeLessThan(3.3 * standardError);
  });

  test('is moved by the sensitivity', () => {
    const scenario = cell(toy(10, 2));
    const slower = inputsOf(scenario).find(({ id }) => id === 'time-plane')!.moves[0]!;
    const moved = slower.apply(scenario).steps['plane']!.time as { most: number };
    // A mean from memory is known to 10 % either way.
    expect(moved).toEqual(toy(moved.most, 2));
    expect(moved.most).toBeCloseTo(11, 6);
  });

  test('is told in words', () => {
    expect(describeChanges(cell(12), { steps: { plane: { time: toy(10, 2) } } })).toEqual([
      'plane 12 → up to 10 (tilt 2) min',
    ]);
    expect(timeInWords(toy(10, 2))).toBe('usually 2.5, one in ten under 0.1, one in ten over 8.1 min');
  });

  test('is offered by a form, with its fields', () => {
    expect(timeChoices().at(-1)).toEqual({ value: 'tilted', label: 'tilted, by its most' });
    const [most, tilt] = curveNamed(TILTED).fields;
    expect([most!.label, most!.get(toy(10, 2)), tilt!.label, tilt!.get(toy(10, 2))]).toEqual([
      'Most',
      10,
      'Tilt',
      2,
    ]);
    expect(most!.kind === 'number' && most!.set(toy(10, 2), 12)).toEqual(toy(12, 2));
    expect(asKind(8, TILTED)).toEqual(toy(16, 1));
    expect(withMean(toy(9, 2), 4)).toEqual(toy(12, 2));
    expect(faultOf(toy(10, 12))).toBe('Tilt: found 12; allowed: at most "most" (10); lower the tilt.');
  });
});

describe('what is left out', () => {
  test('of a curve is refused by types, whichever part it is', () => {
    type Parts = Curve<'tilted', Tilted>;
    type Optional = { [K in keyof Parts]-?: object extends Pick<Parts, K> ? K : never }[keyof Parts];
    const none: [Optional] extends [never] ? true : false = true;
    expect(none).toBe(true);

    const { faults: _faults, ...unchecked } = tilted;
    // @ts-expect-error without its check it is no curve
    const first: Curve<'tilted', Tilted> = unchecked;
    const { spread: _spread, ...unmoved } = tilted;
    // @ts-expect-error and does not get into the list without a part the sensitivity needs
    const second = [...CURVES, unmoved] satisfies readonly Curve<string, unknown>[];
    expect([first.kind, second.length]).toEqual(['tilted', CURVES.length + 1]);
  });

  test('of the list is a file without a line', async () => {
    const folder = new URL('../../src/duration/curves/', import.meta.url);
    const listed: unknown[] = [...CURVES];
    for (const file of readdirSync(folder)) {
      const exported = (await import(new URL(file, folder).href)) as Record<string, unknown>;
      expect(
        Object.values(exported).some((one) => listed.includes(one)),
        `${file} has no line in curves.ts`,
      ).toBe(true);
    }
    const kinds = CURVES.map(({ kind }) => kind);
    expect(new Set(kinds).size).toBe(kinds.length);
  });

  test('by a time that no curve knows is said aloud', () => {
    expect(() => curveOf({ curve: 'bent' } as unknown as Time)).toThrow('no curve for the time');
  });
});

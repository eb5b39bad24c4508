import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../../src/scenario/check.ts';
import type { Time } from '../../../src/duration/time.ts';
import { moreGear } from '../../../src/scenario/changing/more.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { baseCase } from '../../../src/study/from-scenario.ts';
import { inputsOf } from '../../../src/study/sensitivity/inputs.ts';
import { runSensitivity } from '../../../src/study/sensitivity/sensitivity.ts';
import { longerBy, spreadBy, timesBy } from '../../../src/study/sensitivity/times.ts';
import { runStudy } from '../../../src/study/study.ts';
import { summarize } from '../../../src/study/summary.ts';
import { compileTime, meanOf } from '../../../src/duration/compile.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';

const fileOf = (name: string): Scenario =>
  JSON.parse(readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8')) as Scenario;
const chairs = fileOf('chair-works');

const TIMES: Time[] = [
  12,
  { quick: 8, usual: 10, slow: 15 },
  { mean: 10, cv: 0.3 },
  { curve: 'triangular', least: 8, likeliest: 10, most: 15 },
  { curve: 'gamma', mean: 10, cv: 0.4 },
  { curve: 'weibull', shape: 2, scale: 11 },
  { curve: 'exponential', mean: 10 },
  { curve: 'uniform', least: 8, most: 14 },
  { curve: 'observed', values: [8, 9, 10, 14] },
];

describe('a time moved', () => {
  test.each(TIMES.map((time) => [JSON.stringify(time), time] as const))(
    '%s: 10% slower and 5 minutes longer are so on average',
    (_, time) => {
      expect(meanOf(timesBy(time, 1.1)) / meanOf(time)).toBeCloseTo(1.1, 6);
      expect(meanOf(longerBy(time, 5)) - meanOf(time)).toBeCloseTo(5, 5);
      expect(meanOf(longerBy(time, -100))).toBe(0);
    },
  );

  test.each(TIMES.map((time) => [JSON.stringify(time), time] as const))(
    '%s: varied more, its spread grows where it has one of its own',
    (_, time) => {
      const [before, after] = [compileTime(time), compileTime(spreadBy(time, 1.25))];
      const own =
        typeof time !== 'number' &&
        !('curve' in time && (time.curve === 'weibull' || time.curve === 'exponential'));
      if (own) expect(after.standardDeviation).toBeGreaterThan(before.standardDeviation * 1.1);
      else expect(after.standardDeviation).toBe(before.standardDeviation);
      if (!(typeof time === 'object' && 'quick' in time)) expect(after.mean).toBeCloseTo(before.mean, 6);
    },
  );
});

describe('inputs', () => {
  test.each(['chair-works', 'door-works', 'cell-k', 'one-step'])(
    'of %s stay within what a file may say, whichever is moved',
    (name) => {
      const scenario = fileOf(name);
      for (const { moves } of inputsOf(scenario))
        for (const move of moves) expect(checkScenario(move.apply(scenario)).kind, move.words).toBe('fine');
    },
  );

  test('of the chair works are its steps, the cure, the spread, what is sent back and scrapped, who comes, and when parts come', () => {
    expect(inputsOf(chairs).map(({ id }) => id)).toEqual([
      'time-stage',
      'time-fit',
      'time-glue',
      'time-cure',
      'time-unclamp',
      'time-clean',
      'time-sand',
      'time-check',
      'spread',
      'rework-fit-0',
      'rework-check-0',
      'rework-check-1',
      'scrap-check',
      'attendance',
      'late',
    ]);
  });

  test("with timings behind them are moved as far as those leave open: Student's range of the mean", () => {
    // 25 timings, mean 14.5, deviation 2.9 (a fifth): exp(2.0639 (t, 24 degrees, 95%) x 0.2 / 5) is 1.0861.
    const { products: _, ...alike } = chairs;
    const fit = { ...chairs.steps['fit']!, known: { time: { times: 25, spread: 2.9 } } };
    const timed: Scenario = { ...alike, steps: { ...chairs.steps, fit } };
    const [slower] = inputsOf(timed).find(({ id }) => id === 'time-fit')!.moves;
    expect(slower!.words).toBe('“fit” 8.6% slower (as 25 timings leave open)');
    expect((slower!.apply(timed).steps['fit']!.time as { mean: number }).mean).toBeCloseTo(14.5 * 1.0861, 2);
  });

  test('from memory are moved as far as the file says, those known exactly not at all', () => {
    const words = (scenario: Scenario): string[] =>
      inputsOf(scenario).flatMap(({ moves }) => moves.map((move) => move.words));
    expect(words(chairs)).toContain('“fit” 10% slower');
    expect(words({ ...chairs, study: { memory: 20 } })).toContain('“fit” 20% slower');
    // Log odds of 8 of 100: 1.96 x sqrt(1 / 8.5 + 1 / 92.5) = 0.7025 either way.
    expect(words(chairs)).toContain('15% sent back for “scratch” at “check” instead of 8%');
    expect(words(chairs)).toContain('4.1% sent back for “scratch” at “check” instead of 8%');
    const exact: Scenario = {
      ...chairs,
      steps: { ...chairs.steps, glue: { ...chairs.steps['glue']!, known: { time: 'exact' } } },
    };
    expect(words(exact).some((one) => one.startsWith('“glue and clamp”'))).toBe(false);
  });

  test('never send back more than there is', () => {
    const wild: Scenario = {
      ...chairs,
      steps: {
        ...chairs.steps,
        check: { ...chairs.steps['check']!, rework: [{ to: 'sand', percent: 90 }], scrap: 5 },
      },
    };
    for (const { moves } of inputsOf(wild))
      for (const move of moves) expect(checkScenario(move.apply(wild)).kind, move.words).toBe('fine');
  });
});

describe('the answer asked again', () => {
  const settings = { first: 30, most: 30 };

  test('is what the moved cells make on the same luck, run on their own', async () => {
    const inputs = inputsOf(chairs).filter(({ id }) => id === 'time-fit');
    const after = moreGear(chairs, 'clamp', 1);
    const asked = (await runSensitivity(
      { kind: 'gain', before: chairs, after },
      inputs,
      inLineRunner(),
      settings,
    ))!;
    const slower = inputs[0]!.moves[0]!;
    const study = summarize(
      await runStudy(
        {
          cases: [
            baseCase(slower.apply(chairs)),
            { ...baseCase(slower.apply(after)), id: 'after' },
            baseCase(chairs),
            { ...baseCase(after), id: 'after' },
          ],
          pairs: [
            { before: 0, after: 1 },
            { before: 2, after: 3 },
          ],
          settings,
          count: 30,
        },
        inLineRunner(),
      ),
    );
    const moved = asked.moves.find(({ words }) => words === slower.words)!;
    expect(moved.answer.estimate).toBeCloseTo(study.pairs[0]!.good.estimate, 9);
    expect(asked.answer.estimate).toBeCloseTo(study.pairs[1]!.good.estimate, 9);
    expect(moved.shift.estimate).toBeCloseTo(
      study.pairs[0]!.good.estimate - study.pairs[1]!.good.estimate,
      9,
    );
    expect(moved.shift.low).toBeLessThan(moved.shift.estimate);
    expect(moved.chance!.count).toBe(30);
  });

  test('has no range where nothing varies, and shifts by whole units', async () => {
    const cell: Scenario = {
      format: 1,
      name: 'One bench',
      steps: { plane: { time: 10 } },
      people: { ana: { covers: ['plane'] } },
      shift: { start: '06:00', end: '14:00' },
    };
    const inputs = inputsOf(cell).filter(({ id }) => id === 'time-plane');
    const { answer, moves } = (await runSensitivity({ kind: 'makes', after: cell }, inputs, inLineRunner(), {
      ...settings,
      grain: 0,
    }))!;
    // 480 minutes: 48 pieces of 10; of 11 the 44th is begun before the end and finished after it; of 9 the
    // 54th.
    expect([answer.estimate, answer.low, answer.high]).toEqual([48, 48, 48]);
    expect(Object.fromEntries(moves.map(({ words, answer: one }) => [words, one.estimate]))).toEqual({
      '“plane” 10% slower': 44,
      '“plane” 10% quicker': 54,
    });
  });

  test('stopped by hand is no answer', async () => {
    const stop = new AbortController();
    stop.abort(new Error('enough'));
    expect(
      await runSensitivity(
        { kind: 'makes', after: chairs },
        inputsOf(chairs),
        inLineRunner(),
        settings,
        undefined,
        stop.signal,
      ),
    ).toBeNull();
  });
});

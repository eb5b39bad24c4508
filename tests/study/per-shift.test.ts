/**
 * Per shift means per shift: a file that says one shift once, twice or five times over gives the same gain a
 * shift, the same worth and the same payback.
 */
import { describe, expect, test } from 'vitest';
import { returnOf } from '../../src/report/parts/money.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { askOneMore } from '../../src/study/clamp-question.ts';
import { comparison } from '../../src/study/from-scenario.ts';
import type { Interval } from '../../src/study/intervals/interval.ts';
import { oneMoreOfEach } from '../../src/study/one-more.ts';
import { runStudy, type StudyRequest } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { paybackWords } from '../../src/words/option-words.ts';
import { differenceSentence, makesSentence, promisesSentence } from '../../src/words/sentences.ts';
import { chanceWords } from '../../src/words/study-words.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

/**
 * A piece comes every ten minutes and is turned away where the gluer or the clamps are not ready; the cell is
 * empty at the end of each shift, so that nothing stands over. Clamps are bound for 40 minutes a piece: one
 * set takes every fourth piece, two take twice as many.
 */
function cell(times: number, cv: number): Scenario {
  const scenario: unknown = {
    format: 1,
    name: 'shift upon shift',
    seed: 'shift upon shift',
    shift: { start: '06:00', end: '14:30', target: 12 },
    steps: {
      glue: { time: { mean: 5, cv }, takes: [{ gear: 'clamps', until: 'off' }], rack: 0 },
      cure: { kind: 'wait', time: { mean: 30, cv: 0 } },
      off: { time: { mean: 5, cv } },
    },
    gear: { clamps: { name: 'clamp set', count: 1, price: 2000 } },
    people: { ana: { covers: ['glue'], pay: 20 }, bo: { covers: ['off'], pay: 22 } },
    intake: {
      kind: 'list',
      whenFull: 'divert',
      arrivals: Array.from({ length: 42 }, (_, i) => {
        const minutes = 360 + 10 * i;
        return {
          at: `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`,
        };
      }),
    },
    pay: { weeklyAfter: null },
    money: { margin: 30, shiftsPerYear: 240 },
    options: {
      'second-set': { name: 'A second set', price: 2000, changes: { gear: { clamps: { count: 2 } } } },
      longer: { name: 'A longer day', changes: { shift: { end: '15:00' } } },
    },
    nextShifts: Array.from({ length: times - 1 }, (_, i) => ({ days: i + 1 })),
  };
  const reading = checkScenario(scenario);
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

const runner = inLineRunner();
const TIMES = [1, 2, 5];
/** Fixed times are known to be fixed here: a range has no width unless the runs differ. */
const exact = { count: 5, settings: { grain: 0 } };
const study = async (request: StudyRequest): Promise<StudySummary> =>
  summarize(await runStudy(request, runner));
const figures = ({ estimate, low, high }: Interval): number[] => [estimate, low, high];

describe('fixed times, one shift over and over', () => {
  test('the same gain, cost, worth and payback a shift, to the last figure', async () => {
    const answers = await Promise.all(
      TIMES.map(async (times) => {
        const scenario = cell(times, 0);
        const { cases, pairs } = await study({ ...comparison(scenario), ...exact });
        const [second, longer] = [pairs[0]!, pairs[1]!];
        return {
          good: figures(cases[0]!.good),
          cost: figures(cases[0]!.cost),
          costPerGood: cases[0]!.costPerGood,
          gain: figures(second.good),
          costMore: figures(longer.cost),
          payback: paybackWords(scenario, 2000, second),
          worth: returnOf(scenario, { price: 2000, pair: second }),
          says: differenceSentence({ kind: 'thing', words: 'a second set' }, second.good),
        };
      }),
    );
    // Of a piece every ten minutes one set, bound for 40, takes every fourth and two take two of four: 11
    // and 22 of 42. Two people at 42 an hour for 8.5 hours.
    expect(answers[0]!.good[0]).toBe(11);
    expect(answers[0]!.gain).toEqual([11, 11, 11]);
    expect(answers[0]!.cost[0]).toBeCloseTo(42 * 8.5, 9);
    expect(answers[0]!.costMore[0]).toBeCloseTo(21, 9);
    expect(answers[0]!.payback).toMatch(/^It pays back after 7 shifts, .* it brings in \$330 a shift\.$/);
    for (const answer of answers.slice(1)) {
      const { says: _says, ...numbers } = answer;
      const { says: _first, ...expected } = answers[0]!;
      expect(numbers.payback).toBe(expected.payback);
      expect(numbers.gain).toEqual(expected.gain);
      expect(flat(numbers)).toEqual(flat(expected).map((value) => expect.closeTo(value, 9)));
    }
    expect(answers.map(({ says }) => says)).toEqual([
      'A second set adds 11 units a shift, in every shift run.',
      'A second set adds 11 units a shift, in every run.',
      'A second set adds 11 units a shift, in every run.',
    ]);
  });

  test('one more of a thing, and one more of each, gain the same a shift', async () => {
    const gains = await Promise.all(
      TIMES.map(async (times) => {
        const more = await askOneMore(cell(times, 0), 'clamps', runner, exact);
        const each = await oneMoreOfEach(cell(times, 0), runner, exact);
        return {
          gain: more.gain.estimate,
          next: more.nextGain.estimate,
          verdict: more.verdict,
          each: each.rows.map(({ id, gain }) => [id, gain.estimate]),
          constraint: each.constraint,
        };
      }),
    );
    expect(gains[0]!.gain).toBe(11);
    expect(gains[1]).toEqual(gains[0]);
    expect(gains[2]).toEqual(gains[0]);
  });

  test('what is meant of all shifts together says so', async () => {
    const { cases } = await study({ ...comparison(cell(5, 0), []), ...exact });
    const [one] = cases;
    expect(one!.shiftsInARow).toBe(5);
    expect([one!.total.estimate, one!.spread.half, one!.target!.units]).toEqual([55, 55, 60]);
    expect(promisesSentence(one!.spread, one!.shiftsInARow)).toBe(
      'Over 5 shifts the cell makes 55 at least eight times in ten, no more and no less.',
    );
    expect(makesSentence(one!.good)).toBe('The cell makes 11 units a shift in every run of 5 shifts.');
    expect(chanceWords(one!)).toBe(
      'In none of 5 runs did each of 5 shifts make its target; the chance is under 1 in 2.',
    );
  });
});

describe('random times, one shift over and over', () => {
  test('the same gain a shift within what the runs leave open, and the precision is of a shift', async () => {
    const precision = 0.1;
    const summaries = await Promise.all(
      TIMES.map((times) =>
        study({ ...comparison(cell(times, 0.3), ['second-set']), settings: { precision, first: 60 } }),
      ),
    );
    const gains = summaries.map(({ pairs }) => pairs[0]!.good);
    for (const gain of gains) {
      // More runs narrow what luck leaves open, not what is known of the times.
      expect(gain.luck).toBeLessThanOrEqual(precision + 1e-9);
      // Ranges at 95 % that were made apart: twice their widths is some 4 standard errors of the difference.
      expect(Math.abs(gain.estimate - gains[0]!.estimate)).toBeLessThan(
        2 * Math.hypot(gain.half, gains[0]!.half),
      );
    }
    // Five shifts a run say about as much as five runs of one: fewer runs are needed, not more.
    expect(summaries[2]!.count).toBeLessThan(summaries[0]!.count);
    expect(summaries[0]!.kind).toBe('final');
  });
});

const flat = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(flat)
      : [];

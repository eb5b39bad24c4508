/** Purchases are priced on usual days: figures by hand on a cell with fixed times. */
import { expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { usualDays } from '../../src/scenario/changing/usual-days.ts';
import { moreGear } from '../../src/scenario/changing/more.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { askOneMore } from '../../src/study/clamp-question.ts';
import { onUsualDays } from '../../src/study/usual-days.ts';
import { stockWords, tonightWords } from '../../src/words/usual-words.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

/**
 * One clamp set is tied up 60 minutes a piece: 5 to glue, 50 to cure, 5 to unclamp by the same person. Eight
 * hours make eight; ten parts come each morning. Tonight's stock is twenty pieces that only need unclamping
 * off their own stands.
 */
function cell(carried: number, parts = 10): Scenario {
  const scenario: unknown = {
    format: 1,
    name: 'usual',
    shift: { start: '06:00', end: '14:00' },
    steps: {
      glue: { time: 5, takes: [{ gear: 'clamp', until: 'off' }] },
      cure: { kind: 'wait', time: 50 },
      off: { time: 5 },
      check: { time: 1 },
    },
    gear: { clamp: { name: 'clamp set', count: 1, price: 300 } },
    people: { ana: { covers: ['off', 'glue'] }, bo: { covers: ['check'] } },
    intake: { kind: 'at start', units: parts },
    carryOver: carried === 0 ? [] : [{ at: 'check', units: carried }],
    pay: { weeklyAfter: null },
    money: { margin: 10 },
  };
  const reading = checkScenario(scenario);
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

const runner = inLineRunner();
const exact = { count: 4, settings: { grain: 0 } };

test('five days in a row for a single shift, the first two cut, tonight’s stock in none that count', async () => {
  const { scenario, warmUp, counted } = usualDays(cell(20));
  expect([warmUp, counted, shiftsOf(scenario).length]).toEqual([2, 3, 5]);
  expect(shiftsOf(scenario).map(({ startsAfter }) => startsAfter)).toEqual([0, 1440, 2880, 4320, 5760]);
  const usual = (await onUsualDays(
    cell(20),
    [{ id: 'more', name: 'a second set', scenario: moreGear(cell(20), 'clamp', 1) }],
    runner,
    exact,
  ))!;
  // Twenty pieces of tonight are checked on the first day and count in none of the others. One set makes
  // eight a day; the eighth comes off at 14:00, when no check begins any more, and is checked next
  // morning: 15 of 20 parts after two days, 39 of 50 after five. Two sets make all ten that come.
  expect(usual.byShift).toEqual([8, 8, 8]);
  expect([usual.begins, usual.ends]).toEqual([5, 11]);
  expect(usual.pairs[0]!.good).toMatchObject({ estimate: 2, low: 2, high: 2 });
});

test('tomorrow is another question, and the page says where the two differ', async () => {
  // Two parts come a day and twenty pieces stand over: a second set does nothing on usual days.
  const some: Scenario = { ...cell(0, 2), carryOver: [{ at: 'glue', units: 20 }] };
  const { usual, gain } = await askOneMore(some, 'clamp', runner, exact);
  const pair = usual!.pairs[0]!;
  expect(gain.estimate).toBeGreaterThan(5);
  expect(pair.good.estimate).toBeLessThan(gain.estimate);
  expect(tonightWords(pair.good, gain, 0.5)).toMatch(/^Tomorrow, with tonight’s stock, it is \d+\.\d more:/);
  expect(tonightWords(gain, gain, 0.5)).toBeNull();
  expect(stockWords(usual!, 0.5).join(' ')).toMatch(
    /more are made each shift than come, so the stock runs down/,
  );
});

test('a file of several shifts keeps their order and their days', () => {
  const { scenario, warmUp, counted } = usualDays(shipped('door-works'));
  const shifts = shiftsOf(scenario);
  expect([warmUp, counted, shifts.length]).toEqual([3, 3, 6]);
  expect(shifts.map(({ startsAfter }) => startsAfter / 60)).toEqual([0, 8.5, 24, 48, 56.5, 72]);
  expect(shifts.slice(3).map(({ people }) => people.length)).toEqual(
    shifts.slice(0, 3).map(({ people }) => people.length),
  );
});

test.each(SHOPS)('%s runs on usual days and says what it begins and ends them with', async (name) => {
  const usual = (await onUsualDays(
    shop(name),
    [{ id: 'same', name: 'the same', scenario: shop(name) }],
    runner,
    {
      count: 3,
    },
  ))!;
  // The same cell on the same luck: nothing is gained.
  expect(usual.pairs[0]!.good).toMatchObject({ estimate: 0 });
  expect(usual.byShift).toHaveLength(usual.counted);
  expect(stockWords(usual, 0.5)[0]).toMatch(/^As it is, the cell begins them with \d+ pieces? in it/);
});

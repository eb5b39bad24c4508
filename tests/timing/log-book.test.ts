import { describe, expect, it } from 'vitest';
import { logPage, whySentences } from '../../src/report/log-page.ts';
import { toText } from '../../src/document/document-text.ts';
import { driftsOf } from '../../src/timing/drift.ts';
import {
  coverageOfBook,
  emptyLog,
  finishedDays,
  timesOfBook,
  type LogBook,
} from '../../src/timing/log-book.ts';
import { CELL, timesFrom, withDay } from './support.ts';

const forecast = { p10: 17, p50: 19, p90: 21, chance: 0.4 };
const date = (i: number): string => `2027-03-${String(i + 1).padStart(2, '0')}`;
const book = (goods: number[]): LogBook =>
  goods.reduce(
    (log, good, i) => withDay(log, { date: date(i), forecast, target: 20, good }),
    emptyLog('Bench'),
  );

describe('the log', () => {
  it('keeps days in order, and what was said of a day before stays when more is said', () => {
    let log = withDay(emptyLog('Bench'), { date: '2027-03-05', forecast, target: 20 });
    log = withDay(log, { date: '2027-03-04', good: 18 });
    log = withDay(log, { date: '2027-03-05', good: 21, note: 'kits late' });
    expect(log.days).toEqual([
      { date: '2027-03-04', good: 18 },
      { date: '2027-03-05', forecast, target: 20, good: 21, note: 'kits late' },
    ]);
    expect(finishedDays(log)).toEqual([{ date: '2027-03-05', forecast, target: 20, good: 21 }]);
  });
  it('counts the ends of a range as within it, and tells ranges that are too narrow from those that hold', () => {
    expect(coverageOfBook(book([17, 21, 16, 22, 19]))).toMatchObject({
      count: 5,
      inside: 3,
      below: 1,
      above: 1,
      target: { count: 5, met: 2, expected: 2 },
    });
    expect(coverageOfBook(book([...Array<number>(16).fill(19), 15, 15, 25, 24])).verdict).toBe('holds');
    expect(coverageOfBook(book([...Array<number>(8).fill(19), ...Array<number>(12).fill(12)])).verdict).toBe(
      'too narrow',
    );
    expect(coverageOfBook(book([...Array<number>(28).fill(19)])).verdict).toBe('too wide');
    expect(coverageOfBook(book([12, 12])).verdict).toBe('too few to say');
  });
  it('takes times of the last days only, and finds the step that has become slower', () => {
    const slow = timesFrom({ curve: 'lognormal', mu: Math.log(24 * 1.5 * 1.1), sigma: 0.2 }, 30, 4);
    const times = slow.map((minutes) => ({
      step: 'sand',
      product: 'straight',
      person: null,
      minutes,
      repeat: false,
    }));
    const log = withDay(
      withDay(book([19]), {
        date: date(0),
        times: [{ step: 'sand', product: null, person: null, minutes: 1, repeat: false }],
      }),
      { date: date(1), good: 15, times },
    );
    expect(timesOfBook(log, 1)).toHaveLength(30);
    expect(timesOfBook(log, 2)).toHaveLength(31);
    const [drift] = driftsOf(CELL, timesOfBook(log, 1), { withAllowance: true });
    expect(drift).toMatchObject({ step: 'sand', verdict: 'slower' });
    expect(toText(logPage({ scenario: CELL, log, drifts: [drift!] }), 100)).toMatch(
      /Sand: lately longer than the file has it; 1\.\d+ times/,
    );
  });
});

describe('the words of the log', () => {
  it('say how many held, on which side the others lay and what that means', () => {
    const text = toText(
      logPage({
        scenario: null,
        log: book([...Array<number>(8).fill(19), ...Array<number>(12).fill(12)]),
        drifts: [],
      }),
      100,
    );
    expect(text).toMatch(/^The forecasts run 4\.2 too high; the last 12 all came under/);
    expect(text.replace(/\s+/g, ' ')).toContain('12 came under their range, 0 over');
    expect(text.split('\n').every((line) => line.length <= 100)).toBe(true);
    expect(toText(logPage({ scenario: null, log: emptyLog('Bench'), drifts: [] }), 100)).toMatch(
      /^No shift has both/,
    );
  });
  it('call nothing a cause whose range covers zero', () => {
    const range = (low: number, high: number) => ({
      estimate: (low + high) / 2,
      low,
      high,
      half: (high - low) / 2,
      luck: (high - low) / 2,
      inputs: 0,
      count: 100,
      confidence: 0.95,
    });
    const why = {
      planned: range(19.8, 20.2),
      good: 15,
      asFew: 0.2,
      count: 100,
      parts: [
        { cause: 'people' as const, units: range(-4, -3), told: true },
        { cause: 'times' as const, units: range(-1, 0.2), told: true },
      ],
    };
    const said = whySentences(why).join(' ');
    expect(said).toContain('People cost 3.5 units (3.0 to 4.0).');
    expect(said).not.toContain('Times');
  });
});

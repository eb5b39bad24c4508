import { describe, expect, test } from 'vitest';
import { niceTop } from '../../web/parts/axis.ts';
import { readClock, readNumber, writeClock, writeNumber } from '../../web/parts/reading.ts';
import { asKind, asPeopleSay, faultOf, kindOf } from '../../web/parts/time-words.ts';
import { CURVES } from '../../src/duration/curves.ts';
import { type Time } from '../../src/duration/time.ts';

describe('numbers as typed', () => {
  test.each([
    ['2.5', 2.5],
    ['2,5', 2.5],
    [' 30 min', 30],
    ['1 200', 1200],
    ['.5', 0.5],
    ['−3', -3],
  ])('%s is read as %d', (text, value) => {
    expect(readNumber(text, { unit: 'min' })).toEqual({ kind: 'fine', value });
  });

  test.each([
    ['1,800', 'en-US', 1800],
    ['1.800', 'en-US', 1.8],
    ['$1,800.50', 'en-US', 1800.5],
    ['1,800,000', 'en-US', 1_800_000],
    ['1.800,50 €', 'de-DE', 1800.5],
    ['1.800.000', 'de-DE', 1_800_000],
    ['1’800', 'de-CH', 1800],
    ['1 800,5', 'fr-FR', 1800.5],
    ['2,5', 'en-US', 2.5],
    ['0,125', 'de-DE', 0.125],
    ['2.1250', 'de-DE', 2.125],
    ['−1,800', 'en-US', -1800],
  ])('%s in %s is read as %d', (text, locale, value) => {
    expect(readNumber(text, {}, locale)).toEqual({ kind: 'fine', value });
  });

  test('thousands are never taken for decimals: what can be read in two ways is asked about', () => {
    for (const text of ['1,800', '1.800'])
      expect(readNumber(text, {}, 'de-DE')).toEqual({
        kind: 'wrong',
        message: `“${text}” may be 1800 or 1.8. Write the one you mean.`,
      });
    for (const locale of ['de-DE', 'en-US', 'fr-FR', 'sv-SE'])
      for (const text of ['1,800', '1.800'])
        expect(readNumber(text, { whole: true }, locale)).toEqual({ kind: 'fine', value: 1800 });
  });

  test.each(['two', '1.2.3', '1e9', '0x10', 'NaN', '3 sets', ''])(
    '“%s” is no number, and is said to be none',
    (text) => {
      expect(readNumber(text, { unit: 'min' }).kind).toBe('wrong');
    },
  );

  test('limits, whole numbers and empty fields are said in words', () => {
    expect(readNumber('51', { most: 50, unit: 'sets' })).toEqual({
      kind: 'wrong',
      message: 'At most 50 sets.',
    });
    expect(readNumber('-1', { least: 0 })).toEqual({ kind: 'wrong', message: 'At least 0.' });
    expect(readNumber('2.5', { whole: true })).toEqual({
      kind: 'wrong',
      message: 'Only whole numbers here.',
    });
    expect(readNumber('  ', { optional: true })).toEqual({ kind: 'fine', value: null });
  });

  test('are shown with no more than three decimals', () => {
    expect([0.1 + 0.2, 14.5, 30, null].map(writeNumber)).toEqual(['0.3', '14.5', '30', '']);
  });

  test('get a rule on which they stand about in the middle', () => {
    expect([0, 2, 14.5, 30, 450].map(niceTop)).toEqual([1, 4, 30, 60, 1000]);
  });
});

describe('clock times as typed', () => {
  test.each([
    ['6', '06:00'],
    ['6:30', '06:30'],
    ['630', '06:30'],
    ['14.30', '14:30'],
    ['1430', '14:30'],
    ['2:30 pm', '14:30'],
    ['12 am', '00:00'],
    ['12:05 PM', '12:05'],
    ['7 p.m.', '19:00'],
  ])('%s is %s', (text, clock) => {
    expect(readClock(text)).toEqual({ kind: 'fine', value: clock });
  });

  test.each(['25:00', '6:60', 'noon', '13 pm', '0 am', ''])('“%s” is none', (text) => {
    expect(readClock(text).kind).toBe('wrong');
  });

  test('are shown by the half-day where that is the habit', () => {
    expect([writeClock('00:05', true), writeClock('14:30', true), writeClock('14:30', false)]).toEqual([
      '12:05 am',
      '2:30 pm',
      '14:30',
    ]);
  });
});

describe('times as people give them', () => {
  test('quick, usual and slow of a lognormal are its 10th, 50th and 90th percentile', () => {
    // Mean 8, squared coefficient of variation 0.25: mu 1.96786977, sigma 0.47238073; z at 0.9 is 1.28155157.
    const z = 1.28155157 * 0.47238073;
    expect(asPeopleSay({ mean: 8, cv: 0.5 })).toEqual({
      quick: Math.round(Math.exp(1.96786977 - z) * 10) / 10,
      usual: Math.round(Math.exp(1.96786977) * 10) / 10,
      slow: Math.round(Math.exp(1.96786977 + z) * 10) / 10,
    });
  });

  test('a time that is wrong says so at the label of its field', () => {
    expect(faultOf({ quick: 8, usual: 10, slow: 9 })).toMatch(
      /^Slow: found 9; allowed: more than "usual" \(10\);/,
    );
    expect(faultOf({ mean: 8, cv: 0.0001 })).toBe(
      'Spread (standard deviation over mean): found 0.0001; allowed: 0, or 0.001 to 5 (0.1 to 500 %); write 0 where the time is always the same.',
    );
    expect(faultOf({ quick: 9, usual: 10, slow: 60 })).toMatch(
      /^This time: found one side of "usual" 50 times/,
    );
  });

  test('a time of any kind becomes a valid time of any other', () => {
    const some: Time[] = [
      0,
      30,
      { quick: 8, usual: 10, slow: 13 },
      { mean: 14.5, cv: 0.3 },
      { mean: 5, cv: 0 },
      { curve: 'triangular', least: 5, likeliest: 7, most: 12 },
      { curve: 'gamma', mean: 8, cv: 0.4 },
      { curve: 'weibull', shape: 1.7, scale: 9 },
      { curve: 'exponential', mean: 8 },
      { curve: 'uniform', least: 4, most: 9 },
      { curve: 'observed', values: [7, 8, 12] },
    ];
    for (const time of some) {
      for (const { kind } of CURVES) {
        const turned = asKind(time, kind);
        expect(kindOf(turned)).toBe(kind);
        expect(faultOf(turned), `${JSON.stringify(time)} as ${kind}: ${JSON.stringify(turned)}`).toBe('');
      }
    }
  });
});

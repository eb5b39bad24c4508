import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  capitalized,
  clockTime,
  counted,
  decimalsFor,
  duration,
  fixed,
  inSentence,
  justOver,
  listed,
  money,
  moneyRange,
  oneIn,
  ordinal,
  percent,
  plain,
  plural,
  rangeText,
  shiftsIn,
  singular,
  spelt,
  withArticle,
} from '../../src/words/words.ts';
import { holds as always } from '../support/holds.ts';

describe('figures', () => {
  test('have thousands set apart, a true minus sign and no minus zero', () => {
    expect([fixed(1234.56, 1), fixed(-0.04, 1), fixed(-0.4, 1), fixed(NaN, 1), fixed(Infinity, 0)]).toEqual([
      '1,234.6',
      '0.0',
      '−0.4',
      'unknown',
      'without limit',
    ]);
    expect([plain(3), plain(3.1), plain(3.14159), plain(1200), plain(-0.001)]).toEqual([
      '3',
      '3.1',
      '3.14',
      '1,200',
      '0',
    ]);
  });

  test('a range is rounded outwards and its half-width has one figure', () => {
    expect(rangeText({ estimate: 3.1, low: 2.8, high: 3.4 })).toEqual({
      estimate: '3.1',
      range: '2.8 to 3.4',
    });
    expect(rangeText({ estimate: 3.149, low: 2.851, high: 3.449 })).toEqual({
      estimate: '3.1',
      range: '2.8 to 3.5',
    });
    expect(rangeText({ estimate: 12.4, low: 9.2, high: 15.6 })).toEqual({ estimate: '12', range: '9 to 16' });
    expect(rangeText({ estimate: -0.52, low: -0.56, high: -0.48 })).toEqual({
      estimate: '−0.52',
      range: '−0.56 to −0.48',
    });
    expect(rangeText({ estimate: 20, low: 20, high: 20 })).toEqual({ estimate: '20', range: '' });
  });

  test('the range shown always holds the range meant, and leaves zero out when that does', () => {
    const value = fc.double({ min: -500, max: 500, noNaN: true });
    const read = (text: string): number => Number(text.replace('−', '-').replace(',', ''));
    always(
      fc.property(value, fc.double({ min: 0.0005, max: 50, noNaN: true }), (estimate, half) => {
        const ranged = { estimate, low: estimate - half, high: estimate + half };
        const [low, high] = rangeText(ranged).range.split(' to ').map(read) as [number, number];
        expect(low).toBeLessThanOrEqual(ranged.low + 1e-6);
        expect(high).toBeGreaterThanOrEqual(ranged.high - 1e-6);
        if (ranged.low > 1e-5) expect(low).toBeGreaterThan(0);
        if (ranged.high < -1e-5) expect(high).toBeLessThan(0);
      }),
      { numRuns: 1000 },
    );
  });

  test('an end just off zero gets the decimals it needs', () => {
    expect(decimalsFor({ estimate: 0.2, low: 0.04, high: 0.36 })).toBe(2);
    expect(rangeText({ estimate: 0.2, low: 0.004, high: 0.4 }).range).toBe('0.004 to 0.400');
  });

  test('"under" is said of a figure that is over', () => {
    expect([justOver(0.24, 1), justOver(0.3, 1), justOver(0, 1)]).toEqual([0.3, 0.4, 0.1]);
  });
});

describe('shares and chances', () => {
  test('are never 0% or 100% unless they are', () => {
    expect([0, 0.002, 0.64, 0.996, 1].map((share) => percent(share))).toEqual([
      '0%',
      'under 1%',
      '64%',
      'over 99%',
      '100%',
    ]);
    expect([
      percent(0.641, 'up'),
      percent(0.649, 'down'),
      percent(0.003, 'down'),
      percent(0.991, 'up'),
    ]).toEqual(['65%', '64%', 'under 1%', 'over 99%']);
  });

  test('are said in shifts', () => {
    expect([0.9, 0.8, 0.5, 0.1, 0.85, 0.05, 0.01, 0.97].map(shiftsIn)).toEqual([
      'nine shifts in ten',
      'eight shifts in ten',
      'half the shifts',
      'one shift in ten',
      '17 shifts in 20',
      '1 shift in 20',
      '1 shift in 100',
      '97 shifts in 100',
    ]);
  });

  test('one in so many is round and never less than the chance', () => {
    expect([0.0095, 0.161, 0.43, 0.002, 0.1].map(oneIn)).toEqual([
      '1 in 100',
      '1 in 6',
      '1 in 2',
      '1 in 500',
      '1 in 10',
    ]);
    always(
      fc.property(fc.double({ min: 1e-6, max: 1, noNaN: true }), (share) => {
        expect(1 / Number(oneIn(share).slice(5).replaceAll(',', ''))).toBeGreaterThanOrEqual(share - 1e-9);
      }),
    );
  });
});

describe('names', () => {
  test('ordinals are words to the twelfth', () => {
    expect([1, 3, 4, 12, 13, 21, 22, 23, 111, 112, 101].map(ordinal)).toEqual([
      'first',
      'third',
      'fourth',
      'twelfth',
      '13th',
      '21st',
      '22nd',
      '23rd',
      '111th',
      '112th',
      '101st',
    ]);
    expect([0, 1, 12, 13].map(spelt)).toEqual(['zero', 'one', 'twelve', '13']);
  });

  test('the article follows the sound', () => {
    expect(
      ['third', 'eighth', '11th', '18th', '80th', '13th', '118th', 'unclamp bench', 'unit', 'out-rack'].map(
        withArticle,
      ),
    ).toEqual([
      'a third',
      'an eighth',
      'an 11th',
      'an 18th',
      'an 80th',
      'a 13th',
      'a 118th',
      'an unclamp bench',
      'a unit',
      'an out-rack',
    ]);
  });

  test('one and several of a thing, whichever the file names', () => {
    expect(
      ['Clamp sets', 'bench', 'benches', 'press', 'presses', 'jig', 'trolleys', 'assemblies', 'bus'].map(
        singular,
      ),
    ).toEqual(['Clamp set', 'bench', 'bench', 'press', 'press', 'jig', 'trolley', 'assembly', 'bus']);
    expect(['clamp set', 'clamp sets', 'bench', 'press', 'assembly', 'trolley'].map(plural)).toEqual([
      'clamp sets',
      'clamp sets',
      'benches',
      'presses',
      'assemblies',
      'trolleys',
    ]);
    expect([counted(1, 'shifts'), counted(1200, 'shift'), counted(0, 'shift')]).toEqual([
      '1 shift',
      '1,200 shifts',
      '0 shifts',
    ]);
  });

  test('a name inside a sentence loses its capital unless it is an abbreviation', () => {
    expect(['Clamp sets', 'PVA press', 'T-nut', 'fit', 'Öl'].map(inSentence)).toEqual([
      'clamp sets',
      'PVA press',
      'T-nut',
      'fit',
      'öl',
    ]);
    expect(capitalized('éclair')).toBe('Éclair');
    expect([listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c']), listed(['a', 'b'], 'or')]).toEqual([
      'a',
      'a and b',
      'a, b, and c',
      'a or b',
    ]);
  });
});

describe('times and money', () => {
  test('minutes are hours and minutes', () => {
    expect([85, 45, 120, 0, 0.4, 59.6, -30, 1500].map(duration)).toEqual([
      '1 h 25 min',
      '45 min',
      '2 h',
      '0 min',
      'under 1 min',
      '1 h',
      '−30 min',
      '25 h',
    ]);
  });

  test('clock times follow the locale, any day', () => {
    expect([clockTime(870), clockTime(360), clockTime(1800), clockTime(0)]).toEqual([
      '14:30',
      '06:00',
      '06:00',
      '00:00',
    ]);
    expect([clockTime(870, 'en-US'), clockTime(0, 'en-US')]).toEqual(['2:30 PM', '12:00 AM']);
    expect(clockTime(870, 'de-DE')).toBe('14:30');
  });

  test('money has its currency in front and cents where there are any', () => {
    expect([
      money(1800, '$'),
      money(12.5, '$'),
      money(-90, '$'),
      money(1800, 'EUR'),
      money(0.004, '£'),
    ]).toEqual(['$1,800', '$12.50', '−$90', 'EUR\u00A01,800', '£0']);
    expect(moneyRange({ estimate: 36.2, low: 30, high: 42.4 }, '$')).toEqual({
      estimate: '$36',
      range: '$30 to $43',
    });
    expect(moneyRange({ estimate: 0.5, low: 0.3, high: 0.7 }, '$')).toEqual({
      estimate: '$0.50',
      range: '$0.30 to $0.70',
    });
  });
});

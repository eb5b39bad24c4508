/** Every form of sentence about an answer as a whole is read here, at its edges. */
import { describe, expect, test } from 'vitest';
import { paybackOf } from '../../src/money/payback.ts';
import {
  bestSentence,
  holdsBackSentence,
  howSureSentence,
  overtimeSentence,
  paybackSentence,
  presentValueSentence,
  soFar,
  verdictSentence,
  type OneMore,
} from '../../src/words/verdicts.ts';
import { verdictOf } from '../../src/study/verdict.ts';
import { differenceSentence } from '../../src/words/sentences.ts';

const measured = (estimate: number, low: number, high: number, count = 400) => ({
  estimate,
  low,
  high,
  count,
});
const range = (estimate: number, low: number, high: number) => ({ estimate, low, high });
const more = (given: Partial<OneMore>): OneMore => ({
  thing: 'Clamp sets',
  place: 3,
  gain: measured(3.1, 2.8, 3.4),
  nextGain: measured(0.1, -0.1, 0.3),
  matters: 0.5,
  constraint: ['fitting'],
  ...given,
});
const say = (one: OneMore): string => verdictSentence(verdictOf(one.gain, one.nextGain, one.matters), one);

describe('what one more does', () => {
  test('removes the constraint', () => {
    expect(say(more({}))).toBe(
      'A third clamp set adds 3.1 units a shift (2.8 to 3.4). A fourth then adds less than the 0.5 units a shift that matter, under 0.4. Then fitting holds you back.',
    );
    expect(say(more({ constraint: [] }))).toMatch(
      /Then nothing that was tried on its own surely adds the 0\.5 units a shift that matter\.$/,
    );
    expect(say(more({ constraint: null }))).toMatch(/that matter, under 0\.4\.$/);
    expect(say(more({ place: 7 }))).toMatch(/^A seventh clamp set .* An eighth then adds less/);
  });

  test('removes it by a little, and the range is not rounded over what matters', () => {
    expect(say(more({ nextGain: measured(0.2, -0.07, 0.47) }))).toContain(
      'A fourth then adds less than the 0.5 units a shift that matter, 0.47 at most.',
    );
    expect(say(more({ nextGain: measured(-0.2, -0.3, -0.1) }))).toContain('that matter (−0.3 to −0.1).');
  });

  test('is bounded as where choices are compared: one case, one figure', () => {
    for (const gain of [measured(0, -0.01, 0.02), measured(0.1, -0.1, 0.3), measured(-0.1, -0.33, 0.1)]) {
      const bound = (text: string): string => /under (0\.\d)/.exec(text)![1]!;
      expect(bound(say(more({ gain })))).toBe(
        bound(differenceSentence({ kind: 'thing', words: 'it' }, gain, { kind: 'units' }, 0.5)),
      );
    }
  });

  test('eases it', () => {
    expect(say(more({ nextGain: measured(1.2, 0.9, 1.5) }))).toBe(
      'A third clamp set adds 3.1 units a shift (2.8 to 3.4). A fourth adds another 1.2 units a shift (0.9 to 1.5): clamp sets still hold you back.',
    );
  });

  test('was not the constraint', () => {
    expect(say(more({ gain: measured(0.1, -0.1, 0.3) }))).toBe(
      'A third clamp set adds less than the 0.5 units a shift that matter, under 0.4. Clamp sets are not what holds you back. Fitting holds you back.',
    );
    expect(say(more({ gain: measured(-0.4, -0.6, -0.2), constraint: null }))).toBe(
      'A third clamp set loses 0.4 units a shift (0.2 to 0.6). Clamp sets are not what holds you back.',
    );
    expect(say(more({ gain: measured(0, 0, 0), constraint: null }))).toBe(
      'A third clamp set adds less than the 0.5 units a shift that matter. Clamp sets are not what holds you back.',
    );
  });

  test('cannot be told yet', () => {
    expect(say(more({ gain: measured(0.4, -0.2, 1, 60) }))).toBe(
      '60 shifts cannot tell yet whether a third clamp set adds the 0.5 units a shift that matter: anything from 0.2 fewer to 1.0 more units a shift.',
    );
    expect(say(more({ nextGain: measured(0.5, 0.3, 0.7) }))).toBe(
      'A third clamp set adds 3.1 units a shift (2.8 to 3.4). Whether clamp sets still hold you back after that cannot be told yet: a fourth brings anything from 0.3 to 0.7 more units a shift.',
    );
  });

  test('the constraint may be shared or nothing at all', () => {
    expect(holdsBackSentence(['fitting'], 0.5)).toBe('Fitting holds you back.');
    expect(holdsBackSentence(['fitting', 'Yusuf’s time'], 0.5, 'Then')).toBe(
      'Then fitting and Yusuf’s time hold you back alike.',
    );
    expect(holdsBackSentence([], 0.5)).toBe(
      'Nothing that was tried on its own surely adds the 0.5 units a shift that matter.',
    );
  });
});

describe('how sure', () => {
  test('says where the study stands', () => {
    expect(howSureSentence({ kind: 'done' }, 640, 0.241, 0.95)).toBe(
      'From 640 shifts of each choice, the same luck for all: known to within 0.25 units a shift, 95% sure.',
    );
    expect(howSureSentence({ kind: 'so far' }, 60, 0.9, 0.95)).toBe(
      'So far, after 60 shifts of each choice, the same luck for all: known to within 0.90 units a shift. This may still change.',
    );
    expect(howSureSentence({ kind: 'so far' }, 1, Infinity, 0.95)).toBe(
      'So far, after 1 shift of each choice, the same luck for all: known not at all yet. This may still change.',
    );
    expect(howSureSentence({ kind: 'capped', asked: 0.25 }, 20000, 0.4, 0.95)).toBe(
      'Stopped at the most it may run, 20,000 shifts of each choice, the same luck for all: known to within 0.40 units a shift, 95% sure, not to the 0.25 asked for.',
    );
    expect(howSureSentence({ kind: 'stopped', planned: 640 }, 120, 0.6, 0.95)).toBe(
      'Stopped by hand after 120 of 640 shifts: known to within 0.60 units a shift. This may still change.',
    );
  });

  test('marks what is so far', () => {
    expect(soFar('Nothing is known.', 60, 3)).toBe('So far, after 60 runs of 3 shifts: nothing is known.');
    expect(soFar('A third clamp set adds 3.1 units a shift (2.8 to 3.4).', 60)).toBe(
      'So far, after 60 shifts: a third clamp set adds 3.1 units a shift (2.8 to 3.4).',
    );
    expect(soFar('Orla and Bo cannot be told apart.', 1)).toBe(
      'So far, after 1 shift: Orla and Bo cannot be told apart.',
    );
  });

  test('one choice only, a clear lead, and none', () => {
    expect(bestSentence('plan A', null, null)).toBe(
      'Plan A was the only choice there was to try: nothing stands against it.',
    );
    expect(
      bestSentence('plan A', 'plan B', measured(12, 8, 16), { kind: 'money', currency: '$', per: 'shift' }),
    ).toBe('Plan A beats plan B by $12 a shift ($8 to $16).');
    expect(bestSentence('plan A', 'plan B', measured(-3, -4, -2))).toBe(
      'Plan B beats plan A by 3.0 units a shift (2.0 to 4.0).',
    );
    expect(bestSentence('plan A', 'plan B', measured(0.1, -0.1, 0.3))).toBe(
      'Plan A and plan B cannot be told apart after 400 shifts: anything from 0.1 fewer to 0.3 more units a shift.',
    );
  });
});

describe('overtime', () => {
  test('comes never, always, or in a share of shifts', () => {
    expect(overtimeSentence({ shifts: 0, count: 400, minutes: range(0, 0, 0) })).toBe(
      'No overtime in any of 400 shifts.',
    );
    expect(overtimeSentence({ shifts: 400, count: 400, minutes: range(85, 85, 85) })).toBe(
      'Overtime in every shift run; 1 h 25 min a shift on average, all people together.',
    );
    expect(
      overtimeSentence({
        shifts: 136,
        count: 400,
        minutes: range(25.2, 25.2, 25.2),
        parts: { finishing: 8.1, planned: 17.1 },
      }),
    ).toMatch(
      /, all people together: 8 min of it finishing the piece in hand at their own end, 17 min planned\.$/,
    );
    expect(
      overtimeSentence({
        shifts: 9,
        count: 400,
        minutes: range(8, 8, 8),
        parts: { finishing: 8, planned: 0 },
      }),
    ).toMatch(/together, finishing the piece in hand at their own end: none of it planned\.$/);
    expect(overtimeSentence({ shifts: 136, count: 400, minutes: range(25.2, 20.4, 30.1) })).toBe(
      'Overtime in 34% of shifts; 25 min a shift on average, all people together (20 min to 31 min).',
    );
  });
});

describe('money', () => {
  const say = (price: number, gain: ReturnType<typeof range>): string =>
    paybackSentence(paybackOf(price, gain), 240, gain, '$');

  test('pays back in so many shifts, with the range turned round', () => {
    expect(say(1800, range(60, 50, 90))).toBe(
      'It pays back after 30 shifts (20 to 36), about 7 weeks: it brings in $60 a shift ($50 to $90).',
    );
    expect(say(1800, range(60, 60, 60))).toBe(
      'It pays back after 30 shifts, about 7 weeks: it brings in $60 a shift.',
    );
    expect(say(18000, range(90, 80, 100))).toBe(
      'It pays back after 200 shifts (180 to 225), about 10 months: it brings in $90 a shift ($80 to $100).',
    );
    expect(say(90000, range(90, 80, 100))).toMatch(
      /^It pays back after 1,000 shifts \(900 to 1,125\), about 4\.2 years/,
    );
    expect(say(10, range(90, 80, 100))).toMatch(/^It pays back after 1 shift, within a week/);
  });

  test('may never, or does never, or need not', () => {
    expect(say(1800, range(10, -5, 25))).toBe(
      'It may never pay back: what it brings in may be nothing (−$5 to $25 a shift). At best it takes 72 shifts.',
    );
    expect(say(1800, range(-3, -5, 0))).toBe('It never pays back: it brings in nothing.');
    expect(say(1800, range(-3, -5, -1))).toBe('It never pays back: it brings in less than nothing.');
    expect(say(0, range(1, 1, 1))).toBe('There is nothing to buy.');
  });

  test('is worth its price, or not, or nobody can tell', () => {
    expect(presentValueSentence(range(12300, 8000, 17000), 5, '$')).toBe(
      'Over 5 years it is worth its price: $12,300 today, price off ($8,000 to $17,000).',
    );
    expect(presentValueSentence(range(-1566.3, -1566.3, -1566.3), 10, '$')).toBe(
      'Over 10 years it is worth less than it costs: −$1,566.30 today, price off.',
    );
    expect(presentValueSentence(range(100, -800, 1200), 1, '$')).toBe(
      "Whether it is worth its price over 1 year cannot be told: today's value, price off, is −$800 to $1,200.",
    );
  });
});

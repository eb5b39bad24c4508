/** Every form of sentence about one number is read here, at its edges. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chanceSentence,
  differenceSentence,
  eitherWay,
  makesSentence,
  outOfReachSentence,
  promisesSentence,
  promiseSentence,
  sureEnoughSentence,
  type Measure,
  type Subject,
} from '../../src/words/sentences.ts';
import { holds } from '../support/holds.ts';

const third: Subject = { kind: 'thing', words: 'a third clamp set' };
const hands: Subject = { kind: 'thing', words: 'shared hands', several: true };
const out: Subject = { kind: 'situation', words: 'with Orla out' };
const measured = (estimate: number, low: number, high: number, count = 400) => ({
  estimate,
  low,
  high,
  count,
});

describe('what the cell makes', () => {
  test('is a mean with its range, or exact, or not known yet', () => {
    expect(makesSentence(measured(19.6, 19.4, 19.8))).toBe(
      'The cell makes 19.6 units a shift on average (19.4 to 19.8).',
    );
    expect(makesSentence(measured(20, 20, 20), 'chairs', 'this crew')).toBe(
      'This crew makes 20 chairs in every shift run.',
    );
    expect(makesSentence(measured(1, 1, 1), 'chairs')).toBe('The cell makes 1 chair in every shift run.');
    expect(makesSentence(measured(19, -Infinity, Infinity, 1))).toBe(
      'The cell cannot be judged yet: too few shifts have been run.',
    );
  });
});

describe('a difference', () => {
  test('that leaves zero out adds or loses', () => {
    expect(differenceSentence(third, measured(3.1, 2.8, 3.4))).toBe(
      'A third clamp set adds 3.1 units a shift (2.8 to 3.4).',
    );
    expect(differenceSentence(hands, measured(-1.2, -1.6, -0.8))).toBe(
      'Shared hands lose 1.2 units a shift (0.8 to 1.6).',
    );
    expect(differenceSentence(third, measured(3, 3, 3))).toBe(
      'A third clamp set adds 3 units a shift, in every shift run.',
    );
    expect(differenceSentence(third, measured(1, 1, 1))).toBe(
      'A third clamp set adds 1 unit a shift, in every shift run.',
    );
  });

  test('that leaves zero out but is smaller than what matters says so', () => {
    expect(differenceSentence(third, measured(0.2, 0.04, 0.36), { kind: 'units' }, 0.5)).toBe(
      'A third clamp set adds 0.20 units a shift (0.04 to 0.36), less than the 0.5 that matters.',
    );
    expect(differenceSentence(third, measured(0.3, 0.13, 0.47), { kind: 'units' }, 0.5)).toBe(
      'A third clamp set adds 0.30 units a shift (0.13 to 0.47), less than the 0.5 that matters.',
    );
  });

  test('whose range covers zero is none that so many shifts can see', () => {
    expect(differenceSentence(third, measured(0.05, -0.14, 0.24))).toBe(
      'A third clamp set makes no difference that 400 shifts can see (under 0.3 units a shift).',
    );
    expect(differenceSentence(hands, measured(0.2, 0, 0.4, 1))).toBe(
      'Shared hands make no difference that 1 shift can see (under 0.5 units a shift).',
    );
    expect(differenceSentence(out, measured(0, -0.04, 0.04))).toBe(
      'With Orla out, there is no difference that 400 shifts can see (under 0.1 units a shift).',
    );
    expect(differenceSentence(third, measured(0, 0, 0))).toBe(
      'A third clamp set makes no difference in any of 400 shifts.',
    );
  });

  test('whose range covers zero and what matters as well cannot be told yet', () => {
    expect(differenceSentence(third, measured(0.4, -0.4, 1.2, 60), { kind: 'units' }, 0.5)).toBe(
      '60 shifts cannot tell yet what a third clamp set does: anything from 0.4 fewer to 1.2 more units a shift.',
    );
    expect(differenceSentence(out, measured(0.4, -0.4, 1.2, 60), { kind: 'units' }, 0.5)).toBe(
      '60 shifts cannot tell yet what changes with Orla out: anything from 0.4 fewer to 1.2 more units a shift.',
    );
  });

  test('without a range yet is not judged', () => {
    expect(differenceSentence(third, measured(3, -Infinity, Infinity, 1))).toBe(
      'What a third clamp set does cannot be judged yet: too few shifts have been run.',
    );
    expect(differenceSentence(out, measured(NaN, NaN, NaN, 0))).toBe(
      'What changes with Orla out cannot be judged yet: too few shifts have been run.',
    );
  });

  test('can be how things stand, minutes of overtime, or money', () => {
    const money: Measure = { kind: 'money', currency: '$', per: 'shift' };
    expect(differenceSentence(out, measured(-3.1, -3.4, -2.8))).toBe(
      'With Orla out, the cell makes 3.1 fewer units a shift (2.8 to 3.4).',
    );
    expect(differenceSentence(out, measured(3.1, 2.8, 3.4), { kind: 'units', noun: 'chairs' })).toBe(
      'With Orla out, the cell makes 3.1 more chairs a shift (2.8 to 3.4).',
    );
    expect(differenceSentence(third, measured(-25, -30, -20), { kind: 'overtime' })).toBe(
      'A third clamp set saves 25 min of overtime a shift (20 to 30).',
    );
    expect(differenceSentence(out, measured(25, 20, 30), { kind: 'overtime' })).toBe(
      'With Orla out, the cell needs 25 min of overtime a shift more (20 to 30).',
    );
    expect(differenceSentence(third, measured(-36, -42, -30), money)).toBe(
      'A third clamp set saves $36 a shift ($30 to $42).',
    );
    expect(differenceSentence(third, measured(0.5, 0.3, 0.7), { ...money, per: 'good unit' })).toBe(
      'A third clamp set adds $0.50 a good unit ($0.30 to $0.70).',
    );
    expect(differenceSentence(third, measured(0.1, -0.3, 0.5), money)).toBe(
      'A third clamp set makes no difference that 400 shifts can see (under $0.60 a shift).',
    );
  });

  test('never adds, loses, saves or needs while its range covers zero, and always does while it does not', () => {
    const end = fc
      .double({ min: -20, max: 20, noNaN: true })
      .filter((value) => value === 0 || Math.abs(value) > 1e-4);
    const measure = fc.constantFrom<Measure>(
      { kind: 'units' },
      { kind: 'overtime' },
      { kind: 'money', currency: '$', per: 'shift' },
    );
    holds(
      fc.property(
        end,
        end,
        measure,
        fc.constantFrom(third, hands, out),
        fc.option(fc.double({ min: 0.1, max: 5, noNaN: true }), { nil: undefined }),
        (a, b, what, subject, matters) => {
          const [low, high] = [Math.min(a, b), Math.max(a, b)];
          const said = differenceSentence(subject, measured((low + high) / 2, low, high), what, matters);
          const claims = /\b(adds?|loses?|saves?|needs|the cell makes)\b/.test(said);
          expect(claims, said).toBe(low > 0 || high < 0);
          if (claims) expect(/\b(adds?|more|needs)\b/.test(said), said).toBe(low > 0);
          expect(said).toMatch(/^[A-Z0-9].*\.$/);
          expect(said).not.toMatch(/NaN|undefined|Infinity|−/);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('either way names the smaller end first on one side of zero, and rounds outwards', () => {
    expect(eitherWay({ estimate: 0.5, low: 0.31, high: 0.69 })).toBe(
      'anything from 0.3 to 0.7 more units a shift',
    );
    expect(eitherWay({ estimate: -0.5, low: -0.69, high: -0.31 })).toBe(
      'anything from 0.3 to 0.7 fewer units a shift',
    );
    expect(eitherWay({ estimate: 0.5, low: 0, high: 1 })).toBe(
      'anything from nothing to 1.0 more units a shift',
    );
    expect(eitherWay({ estimate: 0, low: -5, high: 5 }, { kind: 'money', currency: '$', per: 'shift' })).toBe(
      'anything from $5 less to $5 more a shift',
    );
  });
});

describe('what shifts make', () => {
  test('is what nine, five and one in ten make', () => {
    expect(promisesSentence({ nineInTen: 18, half: 20, oneInTen: 22 })).toBe(
      'Nine shifts in ten make 18, half make 20, one in ten makes 22.',
    );
    expect(promisesSentence({ nineInTen: 18.9, half: 20.5, oneInTen: 22.99 })).toBe(
      'Nine shifts in ten make 18, half make 20, one in ten makes 22.',
    );
  });

  test('does not repeat itself where the numbers are alike', () => {
    expect(promisesSentence({ nineInTen: 20, half: 20, oneInTen: 20 })).toBe(
      'At least eight shifts in ten make 20, no more and no less.',
    );
    expect(promisesSentence({ nineInTen: 18, half: 18, oneInTen: 22 })).toBe(
      'Nine shifts in ten make 18, one in ten makes 22.',
    );
    expect(promisesSentence({ nineInTen: 18, half: 20, oneInTen: 20 })).toBe(
      'Nine shifts in ten make 18, half make 20, fewer than one in ten make more.',
    );
  });

  test('may be nothing', () => {
    expect(promisesSentence({ nineInTen: 0, half: 2, oneInTen: 4 })).toBe(
      'No number can be promised nine times in ten, half make 2, one in ten makes 4.',
    );
    expect(promisesSentence({ nineInTen: 0, half: 0, oneInTen: 1 })).toBe(
      'No number can be promised nine times in ten, one in ten makes 1.',
    );
    expect(promisesSentence({ nineInTen: 0, half: 0, oneInTen: 0 })).toBe(
      'At least nine shifts in ten make nothing.',
    );
  });

  test('can be promised at a share of the shifts', () => {
    expect(promiseSentence(19, 0.8)).toBe('Promise 19: eight shifts in ten make it.');
    expect(promiseSentence(19.7, 0.95)).toBe('Promise 19: 19 shifts in 20 make it.');
    expect(promiseSentence(23, 0.1)).toBe('Promise 23: one shift in ten makes it.');
    expect(promiseSentence(0, 0.8)).toBe('Nothing can be promised: under eight shifts in ten make even one.');
  });
});

describe('the chance of a target', () => {
  test('is per cent with its range', () => {
    expect(chanceSentence(22, { made: 256, count: 400, low: 0.5915, high: 0.6854 })).toBe(
      'The chance of 22 is 64% (59% to 69%).',
    );
    expect(chanceSentence(22, { made: 1, count: 400, low: 0.0004, high: 0.014 })).toBe(
      'The chance of 22 is under 1% (under 1% to 2%).',
    );
    expect(chanceSentence(22, { made: 399, count: 400, low: 0.986, high: 0.9996 })).toBe(
      'The chance of 22 is over 99% (98% to over 99%).',
    );
  });

  test('with the times in it is told with what better timings may make of it, where that is much', () => {
    const chance = { made: 10, count: 200, low: 0, high: 0.352, estimate: 0.07 };
    expect(chanceSentence(22, chance)).toBe(
      'The chance of 22 is 7% as far as your times are known; better timings may put it anywhere from under 1% to 36%.',
    );
    expect(chanceSentence(22, { ...chance, low: 0.04, high: 0.11 })).toBe(
      'The chance of 22 is 7% (4% to 11%).',
    );
  });

  test('is never nought or certain because it was so in the shifts run', () => {
    expect(chanceSentence(22, { made: 0, count: 400, low: 0, high: 0.00951 })).toBe(
      'None of 400 shifts made 22; the chance is under 1 in 100.',
    );
    expect(chanceSentence(22, { made: 400, count: 400, low: 0.99049, high: 1 })).toBe(
      'All 400 shifts made 22; the chance of missing it is under 1 in 100.',
    );
    expect(chanceSentence(22, { made: 0, count: 20, low: 0, high: 0.1611252 })).toBe(
      'None of 20 shifts made 22; the chance is under 1 in 6.',
    );
    expect(chanceSentence(22, { made: 0, count: 1, low: 0, high: 0.793 })).toBe(
      'The one shift run has not made 22: too few to say more.',
    );
    expect(chanceSentence(22, { made: 2, count: 2, low: 0.34, high: 1 })).toBe(
      'All 2 shifts made 22: too few to say more.',
    );
    expect(chanceSentence(22, { made: 0, count: 0, low: 0, high: 1 })).toBe(
      'The chance of 22 cannot be judged yet: no shift has been run.',
    );
  });

  test('is held against the one asked for as far as its range says', () => {
    const between = (low: number, high: number) => ({
      estimate: (low + high) / 2,
      low,
      high,
      luck: (high - low) / 2,
      inputs: 0,
    });
    expect(sureEnoughSentence(between(0.8, 0.9), 0.8)).toBe('That is at least the 80% asked for.');
    expect(sureEnoughSentence(between(0.6, 0.79), 0.8)).toBe('That is short of the 80% asked for.');
    expect(sureEnoughSentence(between(0.6, 0.8), 0.8)).toBe(
      'Whether that is the 80% asked for cannot be told yet.',
    );
    // With the times in it the chance is what can be promised, however far better timings may move it.
    const open = { estimate: 0.9, low: 0.5, high: 0.99, luck: 0.04, inputs: 0.24 };
    expect(sureEnoughSentence(open, 0.8)).toBe('That is at least the 80% asked for.');
    expect(sureEnoughSentence(open, 0.95)).toBe('That is short of the 95% asked for.');
  });

  test('above the ceiling is out of reach, on average or altogether', () => {
    expect(outOfReachSentence(22, 19.43, false)).toBe(
      '22 is out of reach on average: with nobody ever waiting, this crew and gear would make 19.5 a shift at most.',
    );
    expect(outOfReachSentence(22, 19.4, true)).toBe(
      '22 cannot be made: with nobody ever waiting, this crew and gear make 19.4 at most.',
    );
    expect(outOfReachSentence(22, 21.996, true)).toBe(
      '22 cannot be made: with nobody ever waiting, this crew and gear make 21.996 at most.',
    );
    expect(outOfReachSentence(22, 22, true)).toBeNull();
    expect(outOfReachSentence(22, NaN, true)).toBeNull();
  });
});

import { describe, expect, it, vi } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { nearest, pathOf } from '../../src/scenario/reading/fault.ts';
import { smallWith, textsWith } from './cells.ts';

describe('the shape of a file, in words', () => {
  it.each([
    [
      { format: 2 },
      'Format: found 2; allowed: the format number 1; write "format": 1, or open the file with the version that wrote it.',
    ],
    [{ format: null }, 'Format: found nothing; allowed: the format number 1; add "format": 1.'],
    [
      { steps: { fit: { time: '12' } } },
      'Step “fit”, time: found "12"; allowed: minutes as a number (0 or more), { quick, usual, slow }, { mean, cv }, or a named curve; write 12 without quotes.',
    ],
    [
      { steps: { fit: { time: null } } },
      'Step “fit”, time: found nothing; allowed: minutes as a number (0 or more), { quick, usual, slow }, { mean, cv }, or a named curve; add "time", for example 12.5.',
    ],
    [
      { steps: { fit: { time: -3 } } },
      'Step “fit”, time: found -3; allowed: 0 or more; take the minus sign away, if 3 was meant.',
    ],
    [
      { steps: { fit: { time: { cv: null } } } },
      'Step “fit”, time, how much it varies: found nothing; allowed: a number (it has to be there); add "cv".',
    ],
    [
      { steps: { fit: { time: { mean: null, cv: null, quick: 3, usual: 4, slwo: 9 } } } },
      'Step “fit”, time, slow: found nothing; allowed: a number (it has to be there); add "slow".',
    ],
    [
      { steps: { fit: { time: { mean: null, cv: null, curve: 'trianglar', least: 3 } } } },
      'Step “fit”, time, curve: found "trianglar"; allowed: "triangular", "uniform", "gamma", "weibull", "exponential" or "observed"; did you mean "triangular"?',
    ],
    [
      { steps: { fit: { time: { quick: 3 } } } },
      'Step “fit”, time, quick: found "quick", which belongs to another kind of entry; allowed: mean and cv; take it away (in "changes": "quick": null takes away what the base has).',
    ],
    [
      { steps: { fit: { rak: 3 } } },
      /^Step “fit”, rak: found the unknown entry "rak"; allowed: name, kind, time, .+ and then; did you mean "rack"\?$/,
    ],
    [
      { steps: { fit: { people: 3 } } },
      'Step “fit”, people: found 3; allowed: 1 or 2; write 1 or another of these.',
    ],
    [
      { steps: { fit: { kind: 'hand' } } },
      'Step “fit”, kind: found "hand"; allowed: "hands" or "wait"; did you mean "hands"?',
    ],
    [
      { steps: { fit: { plannedAt: 100 } } },
      'Step “fit”, planned at: found 100; allowed: 99.9 or less; write a number of 99.9 or less.',
    ],
    [
      { steps: { 'Fit it': { time: 1 } } },
      'Step “Fit it”: found the name "Fit it"; allowed: small letters, digits and hyphens, beginning with a letter, at most 40 ("constructor" is taken); write "fit-it" here and give the full wording as its "name".',
    ],
    [
      { gear: { clamp: { count: 1.5 } } },
      'Gear “clamp”, count: found 1.5; allowed: a whole number; round it to a whole number.',
    ],
    [
      { gear: { clamp: { count: '2 sets' } } },
      'Gear “clamp”, count: found "2 sets"; allowed: a number; write 2 without quotes.',
    ],
    [
      { shift: { start: '6:00' } },
      'Shift, start: found "6:00"; allowed: a clock time "HH:MM" from "00:00" to "23:59"; write "06:00".',
    ],
    [
      { shift: { end: '24:00' } },
      'Shift, end: found "24:00"; allowed: a clock time "HH:MM" from "00:00" to "23:59"; write it as "HH:MM", for example "06:00".',
    ],
    [
      { shift: { breaks: { from: '09:00' } } },
      'Shift, breaks: found a group { from }; allowed: a list in [ ]; put it in [ ].',
    ],
    [
      { people: { ada: { skills: { fit: 7 } } } },
      'Ada, skills, fit: found 7; allowed: 4 or less; write a number of 4 or less.',
    ],
    [
      { intake: { kind: 'bet' } },
      'Intake, kind: found "bet"; allowed: "at start", "beat", "random", "list" or "constant"; did you mean "beat"?',
    ],
    [
      { intake: { kind: 'at start', unit: 5, units: 5 } },
      'Intake, unit: found the unknown entry "unit"; allowed: kind, units, whenFull, late and dueAfter; did you mean "units"?',
    ],
    [{ name: '' }, 'Name: found text of 0 letters; allowed: at least 1 letters; write something.'],
    [
      { skillLevels: { factors: [1, 2] } },
      'Skill levels, factors: found a list of 2; allowed: exactly 4 entries; add what is missing.',
    ],
  ] as [object, string | RegExp][])('%j', (patch, text) => {
    const found = textsWith(patch);
    if (typeof text === 'string') expect(found).toContain(text);
    else
      expect(
        found.some((one) => text.test(one)),
        found.join('\n'),
      ).toBe(true);
  });

  it('refuses what JSON cannot say', () => {
    const cell = (time: unknown): unknown => ({ ...(smallWith({}) as object), steps: { fit: { time } } });
    for (const time of [Number.NaN, Number.POSITIVE_INFINITY, 5n, () => 5, Symbol('five')]) {
      const reading = checkScenario(cell(time));
      expect(reading.kind === 'wrong' && reading.faults[0]!.path).toBe('steps.fit.time');
    }
    const round: Record<string, unknown> = {};
    round['steps'] = round;
    expect(checkScenario(round)).toMatchObject({
      kind: 'wrong',
      faults: [{ found: 'groups nested deeper than 40' }],
    });
  });
});

describe('the nearest name', () => {
  it('is one a slip of the hand away, whatever its capitals and hyphens', () => {
    expect(nearest('unclmp', ['glue', 'unclamp', 'clean'])).toBe('unclamp');
    expect(nearest('Third Set', ['fourth-set', 'third-set'])).toBe('third-set');
    expect(nearest('gaer', ['gear', 'glue'])).toBe('gear');
    expect(nearest('sand', ['sanding', 'stain'])).toBe('sanding');
  });

  it('is nothing where nothing is near', () => {
    expect(nearest('polish', ['fit', 'glue', 'check'])).toBeNull();
    expect(nearest('', ['fit'])).toBeNull();
  });
});

it('writes a place as one reads it', () => {
  expect(pathOf(['steps', 'glue', 'takes', 0, 'until'])).toBe('steps.glue.takes[0].until');
  expect(pathOf([])).toBe('');
  expect(pathOf(['a b', 'third-set'])).toBe('["a b"].third-set');
});

it('is checked without making code from text, which a content security policy forbids', async () => {
  const real = globalThis.Function;
  let made = 0;
  const counting = new Proxy(real, {
    construct: (target, args: string[]) => {
      made += 1;
      return new target(...args);
    },
    apply: (target, self, args: string[]) => {
      made += 1;
      return Reflect.apply(target, self, args) as unknown;
    },
  });
  // The schema library makes its code once a schema, at the first check: the schemas must be new ones.
  vi.resetModules();
  const fresh = await import('../../src/scenario/check.ts');
  globalThis.Function = counting;
  try {
    new Function('return 1');
    expect(fresh.checkScenario(smallWith({})).kind).toBe('fine');
  } finally {
    globalThis.Function = real;
  }
  expect(made).toBe(1);
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkScenario, readScenario, type Fault } from '../../src/scenario/check.ts';
import { applyOption, describeChanges, diffPatch, shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { faultsOf, faultsWith, remarksWith, SMALL, smallWith } from './cells.ts';

function read(name: string): Scenario {
  const reading = readScenario(
    readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'),
  );
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  return reading.scenario;
}
// Not by a patch: a patch would swallow the nulls of the changes.
const withOption = (changes: object): Fault[] => faultsOf({ ...SMALL, ...option(changes) });
const textsOf = (changes: object): string[] => withOption(changes).map((fault) => fault.text);
const option = (changes: object): object => ({ options: { change: { changes } } });

describe('an option', () => {
  it('is the base with its changes, all options left out, and leaves the base as it was', () => {
    const base = read('chair-works');
    const before = JSON.stringify(base);
    const changed = applyOption(base, 'third-set');
    expect(changed.gear!['clamp']).toEqual({ name: 'clamp set', count: 3, price: 1800 });
    expect(changed.options).toBeUndefined();
    expect({ ...changed, gear: base.gear }).toEqual({ ...base, options: undefined });
    expect(JSON.stringify(base)).toBe(before);
  });

  it('puts a person who is added last in crew order', () => {
    expect(Object.keys(applyOption(read('chair-works'), 'second-fitter').people)).toEqual([
      'orla',
      'bastian',
      'tova',
      'ines',
      'kofi',
      'wren',
      'piet',
    ]);
  });

  it('is offered by the nearest name where it is misspelt', () => {
    expect(() => applyOption(read('cell-k'), 'thrid-set')).toThrow(
      'There is no option "thrid-set" in this file; it has third-set. Did you mean "third-set"?',
    );
  });

  it('is refused where its result is not valid, at the place of the change', () => {
    expect(textsOf({ gear: { clamp: { count: -1 } } })).toEqual([
      'Option “change”, gear “clamp”, count: found -1; allowed: 0 or more; take the minus sign away, if 1 was meant.',
    ]);
    expect(textsOf({ people: { bo: { covers: ['unclamp'] } } })).toEqual([
      'Option “change”, step “glue”: found nobody who can do "glue"; allowed: at least one person with the skill; add "glue" to somebody\'s "covers" or "skills".',
      'Option “change”, step “clean”: found nobody who can do "clean"; allowed: at least one person with the skill; add "clean" to somebody\'s "covers" or "skills".',
    ]);
    expect(withOption({ steps: null })[0]!.path).toBe('options.change.changes.steps');
    expect(withOption({ gaer: {} })[0]!.remedy).toBe('did you mean "gear"?');
    expect(withOption({ format: 2 })[0]!.path).toBe('options.change.changes.format');
    expect(withOption({ people: { adda: null } })[0]!.text).toBe(
      'Option “change”, adda: found "adda" taken away, which is not there; allowed: ada and bo; did you mean "ada"?',
    );
  });

  it('that changes nothing is pointed out', () => {
    expect(remarksWith(option({ gear: { clamp: { count: 2 } } })).at(-1)).toBe(
      'Option “change”: found changes that change nothing; allowed: a change to the cell; change something, or take the option out.',
    );
    expect(remarksWith(option({ gear: { clamp: { count: 3 } } })).at(-1)).not.toMatch(/options/);
  });

  it('is not asked about what is wrong with the base already', () => {
    expect(
      faultsWith({ steps: { fit: { time: -1 } }, ...option({ gear: { clamp: { count: 3 } } }) }).map(
        (fault) => fault.path,
      ),
    ).toEqual(['steps.fit.time']);
  });

  it('comes out of the patch between two scenarios as it was', () => {
    const base = read('chair-works');
    for (const id of Object.keys(base.options!)) {
      const { options: _options, ...plain } = base;
      const changed = applyOption(base, id);
      const patch = diffPatch(plain, changed) as Record<string, unknown>;
      expect(applyOption({ ...base, options: { again: { changes: patch } } }, 'again')).toEqual(changed);
    }
  });
});

describe('the changes of an option in words', () => {
  const words = (name: string, id: string): string[] => {
    const base = read(name);
    return describeChanges(base, base.options![id]!.changes);
  };
  it.each([
    ['chair-works', 'third-set', ['clamp sets 2 → 3']],
    ['chair-works', 'second-fitter', ['fit benches 1 → 2', 'Piet added: fit']],
    ['chair-works', 'fitter-unclamps', ['Orla covers unclamp, fit (before: fit)']],
    ['chair-works', 'overtime-45', ['overtime until the target, at most 45 min']],
    ['chair-works', 'late-arrivals', ['everything comes 60 min late']],
    ['chair-works', 'cold-shop', ['cure 30 → 45 min']],
    ['chair-works', 'wren-out', ['Kofi covers check, sand (before: sand)', 'Wren out']],
    [
      'door-works',
      'no-repair-bench',
      ['check sends back 10 % to sand (before: 6 % to sand and 4 % to fill and dry)'],
    ],
    ['door-works', 'more-slots', ['resting slots 8 → 12']],
  ])('%s, %s', (name, id, expected) => {
    expect([...words(name, id)].sort()).toEqual([...expected].sort());
  });

  it('names what has no phrase of its own by its place, before and after', () => {
    const base = smallWith({}) as Scenario;
    expect(
      describeChanges(base, {
        shift: { allowance: 1.1 },
        steps: { glue: { rack: null, whole: false } },
        people: { bo: null },
      }),
    ).toEqual([
      'shift allowance not set → 1.1',
      'rack before glue 4 → no limit',
      'glue whole true → false',
      'bo out',
    ]);
    expect(describeChanges(base, { gear: { clamp: { count: 2 } } })).toEqual([]);
  });
});

describe('shifts that follow', () => {
  it('start after the first by days and clock, without its carry-over and holds', () => {
    const shifts = shiftsOf(read('door-works'));
    expect(
      shifts.map((shift) => [shift.name, shift.start, shift.startsAfter, shift.length, shift.target]),
    ).toEqual([
      ['Door works', '07:00', 0, 510, 20],
      ['Evening shift', '15:30', 510, 390, 16],
      ['Next morning', '07:00', 1440, 510, 20],
    ]);
    expect(shifts.map((shift) => [shift.carryOver.length, shift.holds.length])).toEqual([
      [5, 1],
      [0, 0],
      [0, 0],
    ]);
    expect(shifts[1]!.people.map((person) => person.id)).toEqual(['maren', 'yusuf', 'anju', 'bo']);
    expect(new Set(shifts.map((shift) => shift.seed)).size).toBe(3);
  });

  it('may not begin before the one before them ends, nor be wrong themselves', () => {
    const small = (nextShifts: object[]): unknown => smallWith({ nextShifts });
    const paths = (value: unknown): string[] => {
      const reading = checkScenario(value);
      return reading.kind === 'fine' ? [] : reading.faults.map((fault) => fault.path);
    };
    expect(paths(small([{}, { days: 2 }]))).toEqual([]);
    expect(paths(small([{}, {}]))).toEqual(['nextShifts[1].days']);
    expect(paths(small([{ days: 0 }]))).toEqual(['nextShifts[0].days']);
    expect(paths(small([{ changes: { shift: { start: '20:00', end: '04:00' } } }]))).toEqual([
      'nextShifts[0].changes.shift.breaks[0].from',
      'nextShifts[0].changes.shift.breaks[1].from',
    ]);
    expect(
      paths(
        small([
          {
            changes: {
              steps: { polish: { time: 2 } },
              people: { ada: { covers: ['fit', 'repair', 'polish'] } },
            },
          },
        ]),
      ),
    ).toEqual(['nextShifts[0].changes.steps']);
    expect(paths(small([{ changes: { steps: { cure: { uses: ['clamp'] } } } }]))).toEqual([
      'nextShifts[0].changes.steps.cure.uses',
    ]);
    expect(paths(small([{ changes: { products: { stool: { enters: 'unclamp' } } } }]))).toEqual([
      'nextShifts[0].changes.products.stool.enters',
    ]);
    expect(paths(small([{ changes: { carryOver: [] } }]))).toEqual(['nextShifts[0].changes.carryOver']);
  });
});

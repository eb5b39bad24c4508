import { describe, expect, it } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { sameJson } from '../../src/scenario/merge-patch.ts';
import { applyChanges, shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { WHAT_IFS } from '../../src/whatif/list.ts';
import { cellOf, makeChoice, makeTogether, offered, WhatIfWrong, type Typed } from '../../src/whatif/make.ts';
import type { Cell } from '../../src/whatif/what-if.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../support/shops.ts';

const CELLS: [string, Scenario][] = [
  ...SHIPPED.map((name): [string, Scenario] => [name, shipped(name)]),
  ...SHOPS.map((name): [string, Scenario] => [name, shop(name)]),
];
const demo = shipped('chair-works');

/** Everything a what-if can be asked with the names of a cell: good and bad, far more than anybody types. */
function pool(cell: Cell): Typed[] {
  const { steps, people, gear, products } = cell.shift;
  const ids = (list: { id: string }[]): string[] => list.map(({ id }) => id).slice(0, 4);
  const [posts, who, things, made] = [ids(steps), ids(people), ids(gear), ids(products)];
  const given: Record<string, string[]> = {
    'gear-count': things.flatMap((id) => ['0', '1', '3', '4', '+1', '-1', '+7'].map((n) => `${id}=${n}`)),
    'gear-out': things.flatMap((id) =>
      ['08:00+120', '8:00+90', '09:30+120.5'].flatMap((at) => [`${id}=${at}`, `${id}:2=${at}`]),
    ),
    bench: posts.flatMap((id) => ['1', '2', '+1'].map((n) => `${id}=${n}`)),
    rack: posts.flatMap((id) => ['0', '4', '+4', 'none'].map((n) => `${id}=${n}`)),
    person: posts.flatMap((id) =>
      ['', ':2', '/2', '+bench', ':2+bench', '=20', '=20.004', '=20.001'].map((end) => `${id}${end}`),
    ),
    trainee: posts.flatMap((id) => ['', '/2', '+bench', '=16'].map((end) => `${id}${end}`)),
    also: who.flatMap((id) => posts.flatMap((step) => [`${id}=${step}`, `${id}=${step}/2`])),
    stands: who.flatMap((id) =>
      posts.flatMap((step, i) => [`${id}=${step}`, `${id}=${step},${posts[(i + 1) % posts.length]!}`]),
    ),
    swap: who.flatMap((id) => who.map((other) => `${id},${other}`)),
    move: who.flatMap((id) =>
      posts.flatMap((step) => [`${id}=${step}@08:00`, `${id}=${step}@9:15`, `${id}=${step}/1@09:15`]),
    ),
    out: who.flatMap((id) => who.map((other) => `${id},${other}`)),
    late: who.flatMap((id) => ['30', '30.5', '30@50', '30@100'].map((n) => `${id}=${n}`)),
    away: who.flatMap((id) => ['09:00-10:00', '09:00-10:30', 'none'].map((n) => `${id}=${n}`)),
    break: [...who, 'meal break', '08:00', '10:00'].flatMap((id) =>
      ['+15', '-15', '+30', '09:45'].map((n) => `${id}=${n}`),
    ),
    'late-parts': ['0', '30', '60', '60.5'],
    rush: [
      '2@09:00',
      '3@9:00',
      '2@09:00=11:00',
      ...made.flatMap((id) => [`${id}:2@09:00`, `${id}:2@09:00=12:00`]),
    ],
    returned: posts.flatMap((id) => [`${id}:3@09:00`, `${id}:2@09:00`]),
    mix: made.flatMap((id) => [`${id}=60`, `${id}=60.5`, `${id}=0`, `${id}=100`]),
    hold: posts.flatMap((id) => [`${id}=10:00`, ...made.map((product) => `${product}@${id}=10:00`)]),
    cure: ['+5', '35', '30', ...posts.flatMap((id) => [`${id}=+5`, `${id}=-1`])],
    time: posts.flatMap((id) => [`${id}=+1`, `${id}=-1`, `${id}=12`]),
    rework: posts.flatMap((id) => [`${id}=16`, `${id}=1`, ...posts.map((from) => `${from}:${id}=2`)]),
    scrap: posts.flatMap((id) => [`${id}=2`, `${id}=0`]),
    overtime: ['0', '30', '45', '45.5'],
    'last-start': posts.flatMap((id) => [`${id}=12:30`, `${id}=none`]),
    shifts: ['1', '2', '5', '7'],
    target: ['none', '0', '17', '18'],
  };
  expect(Object.keys(given).sort()).toEqual(WHAT_IFS.map(({ word }) => word).sort());
  return WHAT_IFS.flatMap((one) =>
    [...given[one.word]!, ...one.offers(cell), ...[one.such(cell)].flatMap((such) => such ?? [])].map(
      (text) => ({
        word: one.word,
        given: text,
      }),
    ),
  );
}

const faultsOf = (scenario: Scenario, changes: Record<string, unknown>): string[] => {
  const reading = checkScenario(applyChanges(scenario, changes));
  return reading.kind === 'wrong' ? reading.faults.map(({ text }) => text) : [];
};

describe.each(CELLS)('what-ifs of %s', (_name, scenario) => {
  const cell = cellOf(scenario);
  const { options: _options, ...base } = scenario;

  it('gives an example that it can read, and offers what the file takes', () => {
    for (const whatIf of WHAT_IFS) {
      const such = whatIf.such(cell);
      if (such !== null) makeChoice(scenario, { word: whatIf.word, given: such });
    }
    const all = offered(scenario);
    for (const { typed, made } of all) {
      expect(makeChoice(scenario, typed)).toEqual(made);
      expect(made.label.length).toBeLessThan(120);
      expect(faultsOf(scenario, made.changes), `${typed.word} ${typed.given}`).toEqual([]);
    }
    // Whatever the shop: somebody more at each post, with a bench and without.
    const hands = cell.shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside);
    expect(all.filter(({ typed }) => typed.word === 'person')).toHaveLength(2 * hands.length);
  });

  it('never gives two different choices one label, and never answers but with a choice or a sentence', () => {
    const byLabel = new Map<string, { typed: Typed; changes: Record<string, unknown> }>();
    const shifts = (changes: Record<string, unknown>): unknown =>
      shiftsOf(applyChanges(base as Scenario, changes));
    let made = 0;
    for (const typed of pool(cell)) {
      let choice;
      try {
        choice = makeChoice(scenario, typed);
      } catch (error) {
        expect(error).toBeInstanceOf(WhatIfWrong);
        expect((error as Error).message).toMatch(/^--[a-z-]+ takes .+; found “.*”: .+[.?]$/);
        continue;
      }
      const { label, changes } = choice;
      made += 1;
      const before = byLabel.get(label);
      if (before === undefined) byLabel.set(label, { typed, changes });
      else if (!sameJson(before.changes, changes))
        // Said in two ways: then the shifts are the same, but for what the file does not take.
        expect([label, typed, shifts(changes)]).toEqual([label, typed, shifts(before.changes)]);
    }
    expect(made).toBeGreaterThan(60);
  });
});

describe('a what-if in words', () => {
  const label = (word: string, given: string): string => makeChoice(demo, { word, given }).label;
  const changes = (word: string, given: string): unknown => makeChoice(demo, { word, given }).changes;

  it.each([
    ['late-parts', '60', 'Parts an hour late'],
    ['cure', '+5', 'Cure 35 min'],
    ['mix', 'bent=60', '60 in 100 bent-backed chairs'],
    ['rush', '2@9:00', 'Rush: 2 at 09:00'],
    ['break', 'tova,kofi=+15', 'Breaks of Tova and Kofi 15 min later'],
    ['break', 'Meal Break=10:30', 'Meal break of 10:00 at 10:30'],
    ['gear-count', 'Clamp set=3', 'A third clamp set'],
    ['gear-count', 'clamp=+2', 'A third and a fourth clamp set'],
    ['gear-out', 'clamp=08:00+120', 'A clamp set out of order from 08:00 for 120 min'],
    ['move', 'Bastian=clean@10:30', 'Bastian at clean from 10:30'],
    ['hold', 'bent@sand=10:00', 'Bent-backed chairs held before sand until 10:00'],
    ['rework', 'sand=16', '16 in 100 back to sand from check'],
    ['person', 'sander:2', 'Two more people at sand'],
    ['person', 'fitter+bench=26', 'One more person at fit with a bench, at $26 an hour'],
    ['trainee', 'sand', 'A trainee at sand'],
    ['also', 'orla=unclamp', 'Orla also at unclamp'],
    ['swap', 'kofi,ines', 'Ines and Kofi swap posts'],
    ['out', 'kofi,tova', 'Tova and Kofi out'],
    ['late', 'kofi=30', 'Kofi 30 min late'],
    ['away', 'wren=none', 'Wren never away'],
    ['overtime', '45', 'Up to 45 min of overtime'],
    ['last-start', 'glue=12:30', 'Glue and clamp not begun after 12:30'],
  ])('--%s %s is called “%s”', (word, given, called) => expect(label(word, given)).toBe(called));

  it('changes what a hand-written option of the file would', () => {
    expect(changes('gear-count', 'clamp=3')).toEqual(demo.options!['third-set']!.changes);
    expect(changes('also', 'orla=unclamp')).toEqual(demo.options!['fitter-unclamps']!.changes);
    expect(changes('overtime', '45')).toEqual(demo.options!['overtime-45']!.changes);
    expect(changes('cure', '45')).toEqual(demo.options!['cold-shop']!.changes);
    expect(changes('move', 'bastian=clean,unclamp,stage@10:30')).toEqual({
      people: { bastian: { changes: [{ from: '10:30', covers: ['clean', 'unclamp', 'stage'] }] } },
    });
    expect(changes('person', 'fit+bench')).toMatchObject({
      steps: { fit: { benches: 2 } },
      people: { 'extra-fit': { pay: 28, covers: ['fit'], skills: { fit: 3 } } },
    });
    expect(changes('mix', 'bent=60')).toEqual({ products: { straight: { share: 40 }, bent: { share: 60 } } });
  });

  it('reads each on what those before it have made', () => {
    const both = makeTogether(demo, [
      { word: 'gear-count', given: 'clamp=+1' },
      { word: 'gear-count', given: 'clamp=+1' },
      { word: 'rush', given: '2@09:00' },
      { word: 'rush', given: '1@10:00' },
    ]);
    expect(both).toMatchObject({ price: 3600, changes: { gear: { clamp: { count: 4 } } } });
    const { intake } = applyChanges(demo, both.changes);
    expect(intake?.kind === 'list' && intake.arrivals.filter(({ rush }) => rush)).toHaveLength(2);
  });

  it.each([
    [
      'move',
      'bastan=clean@10:30',
      'there is nobody called “bastan”; the file has orla, bastian, tova, ines, kofi and wren. Did you mean “bastian”?',
    ],
    [
      'move',
      'bastian=sandd@10:30',
      'there is no step “sandd”; the file has stage, fit, glue, cure, unclamp, clean, sand and check. Did you mean “sand”?',
    ],
    ['move', 'bastian=cure@10:30', 'nobody stands at “cure”: it is a wait'],
    ['move', 'bastian=clean', 'has no time behind @'],
    ['move', 'bastian=clean@25:30', '“25:30” is no time of day such as 09:30'],
    ['gear-count', 'clmp=3', 'there is no gear called “clmp”; the file has clamp. Did you mean “clamp”?'],
    ['gear-count', 'clamp=-3', 'it comes to −1, which is not between 0 and 1000'],
    ['cure', '-40', 'it comes to −10'],
    ['cure', 'five', '“five” is no number'],
    ['break', 'tea=+15', 'there is nobody called “tea”'],
    ['break', 'break=+15', 'several breaks are called “break”; say which by its time: 08:00 and 12:30'],
    ['mix', 'bent=130', '130 is not between 0 and 100'],
    [
      'rework',
      'glue=5',
      'nothing is sent back there; the file sends back fit:fit, check:sand and check:clean',
    ],
    ['also', 'orla=fit', 'Orla stands at “fit” already'],
    ['swap', 'orla', 'it takes two different people'],
    ['hold', 'bent@sand', 'does not have both parts around “=”'],
  ])('--%s %s says what is wrong, what there is, and what was meant', (word, given, why) => {
    expect(() => label(word, given)).toThrow(why);
    expect(() => label(word, given)).toThrow(new RegExp(`^--${word} takes .*such as .*; found “`));
  });
});

import { describe, expect, it } from 'vitest';
import { faultsWith, remarksWith, textsWith } from '../cells.ts';
import { refuses } from './refuses.ts';

describe('carry-over', () => {
  const carried = (...list: object[]): object => ({ carryOver: list });
  refuses([
    [
      'refuses curing at a hands step',
      carried({ at: 'glue', state: 'curing' }),
      'carryOver[0].state',
      /"curing" at the hands step "glue"/,
    ],
    [
      'refuses waiting at a wait',
      carried({ at: 'cure' }),
      'carryOver[0].state',
      /"waiting" at the wait "cure"/,
    ],
    [
      'refuses more clamp sets in use than there are',
      carried({ at: 'unclamp', units: 2 }, { at: 'cure', state: 'curing' }),
      'carryOver[1]',
      /3 units at the start with one of "clamp" each; allowed: at most the 2/,
    ],
    [
      'refuses more in hand than benches',
      carried({ at: 'fit', state: 'put down', units: 2 }),
      'carryOver[0]',
      /one of the benches of "fit" each/,
    ],
    [
      'refuses gear that is not held there',
      carried({ at: 'fit', gear: ['clamp'] }),
      'carryOver[0].gear[0]',
      /no taken gear there/,
    ],
    [
      'refuses a unit in hand of nobody',
      carried({ at: 'fit', state: 'in hand' }),
      'carryOver[0].person',
      /add "person"/,
    ],
    [
      'refuses a unit in hand of somebody else',
      carried({ at: 'fit', state: 'in hand', person: 'bo' }),
      'carryOver[0].person',
      /who does not cover "fit"; allowed: somebody who covers it: ada/,
    ],
    [
      'refuses two units in one hand',
      carried(
        { at: 'fit', state: 'in hand', person: 'ada' },
        { at: 'repair', state: 'in hand', person: 'ada' },
      ),
      'carryOver[1].person',
      /another unit in hand/,
    ],
    [
      'refuses more minutes worked than it takes',
      carried({ at: 'unclamp', state: 'in hand', person: 'bo', product: 'chair', minutes: 5 }),
      'carryOver[0].minutes',
      /at most 4 min/,
    ],
    [
      'refuses minutes of a unit that waits',
      carried({ at: 'fit', minutes: 5 }),
      'carryOver[0].minutes',
      /minutes of a unit that is waiting/,
    ],
    [
      'refuses more waiting than the rack holds',
      carried({ at: 'clean', units: 4 }),
      'carryOver[0]',
      /at most the 3 slots/,
    ],
    [
      'refuses a way on that does not follow',
      carried({ at: 'clean', state: 'blocked', to: 'fit' }),
      'carryOver[0].to',
      /a step that follows "clean": glue/,
    ],
    [
      'asks for the product where one skips the step',
      { products: { stool: { skips: ['fit'] } }, carryOver: [{ at: 'fit' }] },
      'carryOver[0].product',
      /add "product"/,
    ],
  ]);

  it('lets as many be in clamps as there are sets', () => {
    expect(
      faultsWith(
        carried({ at: 'unclamp' }, { at: 'cure', state: 'curing', minutes: 12 }, { at: 'glue', units: 4 }),
      ),
    ).toEqual([]);
  });

  it('knows a unit that waits for gluing to have no clamp set yet, and one blocked after unclamping to have none any more', () => {
    expect(
      faultsWith({
        ...carried({ at: 'glue', units: 4 }, { at: 'unclamp', state: 'blocked' }),
        gear: { clamp: { count: 0 } },
      }),
    ).toEqual([]);
  });
});

describe('limits', () => {
  const many = (count: number, of: unknown): object =>
    Object.fromEntries(Array.from({ length: count }, (_, i) => [`x${i}`, of]));
  it('refuses more steps, people, gear and options than a cell has', () => {
    expect(textsWith({ steps: many(25, { time: 1 }) })).toEqual([
      'Steps: found 31 entries; allowed: at most 30; put some together, or make two files.',
    ]);
    expect(faultsWith({ people: many(59, { covers: ['fit'] }) })[0]!.path).toBe('people');
    expect(faultsWith({ gear: many(60, { count: 1 }) })[0]!.path).toBe('gear');
    expect(faultsWith({ options: many(41, { changes: {} }) })[0]!.path).toBe('options');
    expect(faultsWith({ gear: { clamp: { count: 1001 } } })[0]!.text).toBe(
      'Gear “clamp”, count: found 1001; allowed: 1,000 or less; write a number of 1,000 or less.',
    );
  });

  it('refuses a cell without steps or people', () => {
    expect(textsWith({ people: { ada: null, bo: null } })).toEqual([
      'People: found an empty group; allowed: at least one person; add a person.',
    ]);
  });
});

describe('remarks', () => {
  it('points out gear nobody uses, and steps nobody comes to', () => {
    expect(remarksWith({ gear: { jig: { count: 1 } } })).toEqual([
      'Gear “jig”: found "jig", which no step uses; allowed: gear that some step uses or takes; add it to a step, or take it out.',
      'Step “repair”: found "repair", which no unit comes to; allowed: steps that some product goes through, or that rework leads to; send rework there, or take the step out.',
    ]);
  });

  it('points out a short cure, sanding without a rest, and missing pay', () => {
    const texts = remarksWith({
      steps: {
        cure: { time: 15 },
        clean: { name: 'clean and sand', rework: [{ to: 'repair', percent: 1 }] },
      },
      people: { bo: { pay: null } },
    });
    expect(texts).toEqual([
      'Bo, pay: found no pay for bo, while others have one; allowed: the pay an hour; add "pay", or costs come out too low.',
      "Step “cure”, time: found a cure of 15 min; allowed: usually 20 min or more; look at the adhesive's data sheet: it rules.",
      'Step “clean and sand”: found no rest between "cure" and "clean"; allowed: a rest as long as the adhesive\'s data sheet asks for before sanding; add a wait before it if the data sheet asks for one.',
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import { faultsWith } from '../cells.ts';
import { refuses } from './refuses.ts';

it('finds nothing wrong with the small cell the other cases start from', () => {
  expect(faultsWith({})).toEqual([]);
});

describe('names', () => {
  refuses([
    [
      'offers the nearest step for a misspelt one',
      { steps: { glue: { takes: [{ gear: 'clamp', until: 'unclmp' }] } } },
      'steps.glue.takes[0].until',
      /did you mean "unclamp"\?$/,
    ],
    [
      'lists the gear there is',
      { steps: { fit: { uses: ['jig'] } } },
      'steps.fit.uses[0]',
      /a kind of gear of this file: clamp/,
    ],
    [
      'knows the people asked for overtime',
      { shift: { overtime: { until: 'empty', who: ['adda'] } } },
      'shift.overtime.who[0]',
      /"ada"/,
    ],
    [
      'knows the product that arrives',
      { intake: { kind: 'list', arrivals: [{ at: '07:00', product: 'chairs' }] } },
      'intake.arrivals[0].product',
      /"chair"/,
    ],
    [
      'knows the steps of factors, skips and entries',
      { products: { chair: { factors: { fitt: 2 } } } },
      'products.chair.factors.fitt',
      /"fit"/,
    ],
    [
      'keeps the names of benches free',
      { gear: { 'fit-bench': { count: 1 } } },
      'gear.fit-bench',
      /any name but that of a step with "-bench"/,
    ],
    [
      'refuses a cover named twice',
      { people: { ada: { covers: ['fit', 'fit'] } } },
      'people.ada.covers[1]',
      /each once/,
    ],
    [
      'refuses a hold of a unit nobody named',
      { holds: [{ before: 'fit', until: '08:00', units: ['Miller'] }] },
      'holds[0].units[0]',
      /unknown unit "Miller"/,
    ],
    [
      'refuses a hold of nothing in particular',
      { holds: [{ before: 'fit', until: '08:00' }] },
      'holds[0]',
      /neither/,
    ],
  ]);
});

describe('the path', () => {
  refuses([
    [
      'needs a step that is not aside',
      {
        steps: { fit: null, glue: null, cure: null, unclamp: null, clean: null },
        people: { ada: { covers: ['repair'] }, bo: null },
        gear: null,
      },
      'steps.repair.then',
      /unknown step "clean"/,
    ],
    [
      'refuses a wait at the end',
      {
        steps: {
          clean: { aside: true, then: 'fit' },
          unclamp: { aside: true, then: 'fit' },
          glue: { takes: null },
        },
      },
      'steps',
      /the wait "cure" as the last step of "chair"/,
    ],
    [
      'refuses a wait a product begins with',
      { products: { stool: { skips: ['fit', 'glue'] } } },
      'products.stool.skips',
      /the wait "cure" as the first step of "stool"/,
    ],
    [
      'refuses a product that enters at a wait',
      { products: { stool: { enters: 'cure' } } },
      'products.stool.enters',
      /the wait "cure" as the first step of "stool"/,
    ],
    [
      'refuses a product that enters at a step it skips',
      { products: { stool: { enters: 'fit', skips: ['fit'] } } },
      'products.stool.enters',
      /a step "stool" skips/,
    ],
    [
      'asks a step aside what follows it',
      { steps: { repair: { then: null } } },
      'steps.repair.then',
      /add "then"/,
    ],
    [
      'refuses a loop of steps aside',
      { steps: { repair: { then: 'polish' }, polish: { time: 1, aside: true, then: 'repair' } } },
      'steps.repair.then',
      /repair, then polish, then repair/,
    ],
    [
      'refuses "then" on the main path',
      { steps: { fit: { then: 'clean' } } },
      'steps.fit.then',
      /steps aside only/,
    ],
    [
      'refuses people at a wait',
      { steps: { cure: { people: 2 } } },
      'steps.cure.people',
      /a wait needs no people/,
    ],
    ['refuses a rack before a wait', { steps: { cure: { rack: 3 } } }, 'steps.cure.rack', /no line/],
    [
      'refuses rework that goes forward',
      { steps: { fit: { rework: [{ to: 'clean', percent: 3 }] } } },
      'steps.fit.rework[0].to',
      /comes after "fit"/,
    ],
    [
      'refuses rework to a step a product skips',
      { products: { stool: { skips: ['fit'] } }, steps: { clean: { rework: [{ to: 'fit', percent: 2 }] } } },
      'steps.clean.rework[0].to',
      /a step that "stool" skips/,
    ],
    [
      'refuses a product that skips everything',
      { products: { stool: { skips: ['fit', 'glue', 'cure', 'unclamp', 'clean'] } } },
      'products.stool.skips',
      /at least one step left/,
    ],
  ]);
});

describe('gear that is held', () => {
  refuses([
    [
      'must be freed later on the path',
      { steps: { glue: { takes: [{ gear: 'clamp', until: 'fit' }] } } },
      'steps.glue.takes[0].until',
      /does not come after "glue"/,
    ],
    [
      'must not be freed by the step that takes it',
      { steps: { glue: { takes: [{ gear: 'clamp', until: 'glue' }] } } },
      'steps.glue.takes[0].until',
      /does not come after/,
    ],
    [
      'must be freed on the way of every product',
      { products: { stool: { skips: ['unclamp'] } } },
      'products.stool.skips',
      /which frees the "clamp" taken at "glue"/,
    ],
    [
      'must be freed where rework leads round the freeing step',
      {
        steps: {
          unclamp: { time: 4 },
          glue: { takes: [{ gear: 'clamp', until: 'clean' }] },
          clean: { rework: null },
          polish: { time: 2 },
          unclamp2: null,
          repair: { then: 'polish' },
          cure: { rework: [{ to: 'repair', percent: 5 }] },
        },
        people: { bo: { covers: ['unclamp', 'glue', 'clean', 'polish'] } },
      },
      'steps.glue.takes[0].until',
      /never freed where "chair" leaves after "polish"/,
    ],
    [
      'must be there twice where it is needed twice',
      { gear: { clamp: { count: 1 } }, steps: { unclamp: { uses: ['clamp'] } } },
      'gear.clamp.count',
      /at least 2: a unit at "unclamp" still holds one from "glue"/,
    ],
  ]);

  it('lets a product enter between taking and freeing, and then holds nothing', () => {
    expect(faultsWith({ products: { stool: { enters: 'unclamp' } } })).toEqual([]);
  });

  it('lets a product skip both the taking and the freeing step', () => {
    expect(
      faultsWith({
        products: { stool: { skips: ['glue', 'cure', 'unclamp'] } },
        steps: { clean: { rework: null } },
      }),
    ).toEqual([]);
  });

  it('counts going back to the taking step as freeing', () => {
    expect(faultsWith({ steps: { unclamp: { rework: [{ to: 'glue', percent: 5 }] } } })).toEqual([]);
  });
});

describe('rework', () => {
  refuses([
    [
      'refuses shares of more than everything',
      {
        steps: {
          clean: {
            rework: [
              { to: 'glue', percent: 70 },
              { to: 'fit', percent: 31 },
            ],
          },
        },
      },
      'steps.clean.rework',
      /102 % sent back or scrapped/,
    ],
    [
      'counts the largest rework factor',
      {
        people: { bo: { skills: { unclamp: 3, clean: 3, glue: { rework: 3 } } } },
        steps: { clean: { rework: [{ to: 'glue', percent: 40 }] } },
      },
      'steps.clean.rework',
      /121 % sent back or scrapped after the person/,
    ],
    [
      'refuses a loop that never ends',
      { steps: { clean: { scrap: 0, rework: [{ to: 'unclamp', percent: 100 }] } } },
      'steps.clean.rework[0].percent',
      /"chair" would go from "clean" back to "unclamp" for ever/,
    ],
    [
      'refuses a loop by way of a step aside',
      { steps: { clean: { scrap: 0, rework: [{ to: 'repair', percent: 100 }] } } },
      'steps.clean.rework[0].percent',
      /back to "repair" for ever/,
    ],
    [
      'refuses a loop that takes thousands of visits',
      { steps: { clean: { scrap: 0, rework: [{ to: 'clean', percent: 99.99 }] } } },
      'steps.clean',
      /a mean of 10,000 visits/,
    ],
  ]);

  it('lets a loop be whose end is near', () => {
    expect(faultsWith({ steps: { clean: { scrap: 0, rework: [{ to: 'clean', percent: 99 }] } } })).toEqual(
      [],
    );
  });
});

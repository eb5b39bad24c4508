import { describe, expect, it } from 'vitest';
import { faultsWith, remarksWith, textsWith } from './cells.ts';

/**
 * One patch on the small cell, and where the fault must stand; the first fault is looked at unless said
 * otherwise.
 */
type Case = [title: string, patch: object, path: string, words: RegExp];

const refuses = (cases: Case[]): void => {
  it.each(cases)('%s', (_title, patch, path, words) => {
    const faults = faultsWith(patch);
    expect(faults.map((fault) => fault.path)).toContain(path);
    expect(faults.find((fault) => fault.path === path)!.text).toMatch(words);
  });
};

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

describe('people', () => {
  refuses([
    [
      'refuses somebody who covers nothing',
      { people: { cy: {} } },
      'people.cy',
      /"cy" at no step at any time/,
    ],
    [
      'refuses a cover without its skill',
      { people: { bo: { skills: { unclamp: 3, clean: 3 } } } },
      'people.bo.covers[1]',
      /"glue", which is not among the skills of "bo"/,
    ],
    [
      'refuses a skill of level 0 that is covered',
      { people: { bo: { skills: { unclamp: 3, glue: 0, clean: 3 } } } },
      'people.bo.covers[1]',
      /level of 1 or more/,
    ],
    [
      'refuses cover of a wait',
      { people: { ada: { covers: ['fit', 'cure', 'repair'] } } },
      'people.ada.covers[1]',
      /a wait needs nobody/,
    ],
    [
      'refuses a step nobody can do',
      { people: { bo: { covers: ['unclamp', 'clean'] } } },
      'steps.glue',
      /nobody who can do "glue"/,
    ],
    [
      'refuses a step for two that only one can do',
      { steps: { glue: { people: 2 } } },
      'steps.glue.people',
      /one person \(bo\)/,
    ],
  ]);

  it('lets somebody be absent by attendance', () => {
    expect(faultsWith({ people: { bo: { attendance: { percent: 0 } } } })).toEqual([]);
  });

  it('points out a step somebody can do and nobody covers', () => {
    const texts = remarksWith({
      people: { ada: { skills: { fit: 3, repair: 3, glue: 2 } }, bo: { covers: ['unclamp', 'clean'] } },
    });
    expect(texts).toContain(
      'steps.glue: found nobody at "glue" at any time; allowed: somebody who covers it; let ada cover it: nothing gets past it otherwise.',
    );
  });

  it('points out a crew that outnumbers its benches, and not two shifts at one bench', () => {
    const second = (from: string): object => ({
      people: { ada: { covers: ['fit'], to: '10:00' }, cy: { covers: ['fit'], from, pay: 20 } },
      steps: { clean: { rework: [{ to: 'clean', percent: 1 }] }, repair: null },
    });
    expect(remarksWith(second('09:00'))[0]).toMatch(
      /^people\.ada: found 2 people \(ada and cy\) at fit; allowed: 1 at once, by the benches there/,
    );
    expect(remarksWith(second('10:00')).filter((text) => text.includes('benches'))).toEqual([]);
  });
});

describe('clock times', () => {
  refuses([
    [
      'refuses a break after the end',
      { shift: { breaks: [{ from: '15:00', minutes: 10 }] } },
      'shift.breaks[0].from',
      /"15:00", outside the shift; allowed: "06:00" or later and before "14:30"/,
    ],
    [
      'refuses breaks that overlap',
      {
        shift: {
          breaks: [
            { from: '09:00', minutes: 30 },
            { from: '09:20', minutes: 10 },
          ],
        },
      },
      'shift.breaks[1].from',
      /inside the one from "09:00" to "09:30"/,
    ],
    [
      'refuses a late last start',
      { steps: { glue: { lastStart: '14:30' } } },
      'steps.glue.lastStart',
      /outside the shift/,
    ],
    [
      'refuses an end before the start',
      { people: { ada: { from: '10:00', to: '09:00' } } },
      'people.ada.to',
      /not after the start at "10:00"/,
    ],
    [
      'refuses an own end after the shift',
      { people: { ada: { to: '15:00' } } },
      'people.ada.to',
      /outside the shift/,
    ],
    [
      'refuses a time away that ends before it begins',
      { people: { ada: { away: [{ from: '10:00', to: '09:00' }] } } },
      'people.ada.away[0].to',
      /not after "10:00"/,
    ],
    [
      'refuses an arrival before the start',
      { intake: { kind: 'list', arrivals: [{ at: '05:59' }] } },
      'intake.arrivals[0].at',
      /outside the shift/,
    ],
    [
      'refuses tidy-up as long as the shift',
      { shift: { tidyUp: 510 } },
      'shift.tidyUp',
      /less than the shift's 510 min/,
    ],
    [
      'refuses overtime until a target that is not there',
      { shift: { overtime: { until: 'target' } } },
      'shift.overtime.until',
      /without a target/,
    ],
    [
      'refuses more gear out of order than there is',
      { gear: { clamp: { out: [{ from: '08:00', minutes: 5, items: 3 }] } } },
      'gear.clamp.out[0].items',
      /at most the 2 there are/,
    ],
  ]);

  it('lets a last start lie in overtime, and a night shift cross midnight', () => {
    expect(
      faultsWith({
        steps: { glue: { lastStart: '15:00' } },
        shift: { overtime: { until: 'empty', cap: 60 } },
      }),
    ).toEqual([]);
    expect(
      faultsWith({ shift: { start: '22:00', end: '06:00', breaks: [{ from: '01:00', minutes: 30 }] } }),
    ).toEqual([]);
  });
});

describe('times', () => {
  refuses([
    [
      'asks for quick under usual',
      { steps: { fit: { time: { mean: null, cv: null, quick: 5, usual: 5, slow: 9 } } } },
      'steps.fit.time.usual',
      /more than "quick" \(5\)/,
    ],
    [
      'asks for usual under slow',
      { steps: { fit: { time: { mean: null, cv: null, quick: 5, usual: 10, slow: 9 } } } },
      'steps.fit.time.slow',
      /more than "usual" \(10\)/,
    ],
    [
      'refuses three times that make no sensible curve',
      { steps: { fit: { time: { mean: null, cv: null, quick: 4.9, usual: 5, slow: 12 } } } },
      'steps.fit.time',
      /one side of "usual" 70 times as long as the other; allowed: at most 20 times/,
    ],
    [
      'refuses a spread too small to reckon with, and says what to write instead',
      { steps: { fit: { time: { mean: 13, cv: 1e-200 } } } },
      'steps.fit.time.cv',
      /found 1e-200; allowed: 0, or 0.001 to 5 \(0.1 to 500 %\); write 0 where the time is always the same/,
    ],
    [
      'refuses it of a gamma curve, which cannot be always the same',
      { products: { stool: { times: { fit: { curve: 'gamma', mean: 13, cv: 1e-200 } } } } },
      'products.stool.times.fit.cv',
      /found 1e-200; allowed: 0.001 or more/,
    ],
    [
      'asks for least, likeliest and most in order',
      { products: { stool: { times: { fit: { curve: 'triangular', least: 5, likeliest: 4, most: 9 } } } } },
      'products.stool.times.fit.likeliest',
      /at least "least"/,
    ],
    [
      'refuses arrivals without time between them',
      { intake: { kind: 'random', gap: 0 } },
      'intake.gap',
      /at least 0.01 min/,
    ],
    [
      'refuses failures without time between them',
      { gear: { clamp: { fails: { every: { curve: 'observed', values: [0, 0] }, repair: 5 } } } },
      'gear.clamp.fails.every',
      /at least 0.01 min/,
    ],
    [
      'refuses a whole step that fits nowhere',
      { steps: { glue: { time: 181 } } },
      'steps.glue.time',
      /at least 181 min for a whole "glue".*at most 180 min, the longest stretch bo has/,
    ],
  ]);

  it('lets a whole step fit exactly', () => {
    expect(faultsWith({ steps: { glue: { time: 180 } } })).toEqual([]);
  });

  it('reckons a whole step with percentile, factor and allowance', () => {
    const patch = (mean: number): object => ({
      steps: {
        glue: { time: { mean: null, cv: null, curve: 'uniform', least: 0, most: mean }, plannedAt: 90 },
      },
      shift: { allowance: 1.25 },
      people: { bo: { skills: { unclamp: 3, clean: 3, glue: { factor: 1.6 } } } },
    });
    // 90 % of 100 is 90; times 1.25 and 1.6 it is 180, and 180 is the longest stretch.
    expect(faultsWith(patch(100))).toEqual([]);
    expect(faultsWith(patch(101)).map((fault) => fault.path)).toEqual(['steps.glue.time']);
  });
});

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
      'steps: found 31 entries; allowed: at most 30; put some together, or make two files.',
    ]);
    expect(faultsWith({ people: many(59, { covers: ['fit'] }) })[0]!.path).toBe('people');
    expect(faultsWith({ gear: many(60, { count: 1 }) })[0]!.path).toBe('gear');
    expect(faultsWith({ options: many(41, { changes: {} }) })[0]!.path).toBe('options');
    expect(faultsWith({ gear: { clamp: { count: 1001 } } })[0]!.text).toBe(
      'gear.clamp.count: found 1001; allowed: 1,000 or less; write a number of 1,000 or less.',
    );
  });

  it('refuses a cell without steps or people', () => {
    expect(textsWith({ people: { ada: null, bo: null } })).toEqual([
      'people: found an empty group; allowed: at least one person; add a person.',
    ]);
  });
});

describe('remarks', () => {
  it('points out gear nobody uses, and steps nobody comes to', () => {
    expect(remarksWith({ gear: { jig: { count: 1 } } })).toEqual([
      'gear.jig: found "jig", which no step uses; allowed: gear that some step uses or takes; add it to a step, or take it out.',
      'steps.repair: found "repair", which no unit comes to; allowed: steps that some product goes through, or that rework leads to; send rework there, or take the step out.',
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
      'people.bo.pay: found no pay for bo, while others have one; allowed: the pay an hour; add "pay", or costs come out too low.',
      "steps.cure.time: found a cure of 15 min; allowed: usually 20 min or more; look at the adhesive's data sheet: it rules.",
      'steps.clean: found no rest between "cure" and "clean"; allowed: a rest as long as the adhesive\'s data sheet asks for before sanding; add a wait before it if the data sheet asks for one.',
    ]);
  });
});

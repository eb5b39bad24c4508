import { describe, expect, it } from 'vitest';
import { faultsWith, remarksWith } from '../cells.ts';
import { refuses } from './refuses.ts';

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
      'Step “glue”: found nobody at "glue" at any time; allowed: somebody who covers it; let ada cover it: nothing gets past it otherwise.',
    );
  });

  it('points out a crew that outnumbers its benches, and not two shifts at one bench', () => {
    const second = (from: string): object => ({
      people: { ada: { covers: ['fit'], to: '10:00' }, cy: { covers: ['fit'], from, pay: 20 } },
      steps: { clean: { rework: [{ to: 'clean', percent: 1 }] }, repair: null },
    });
    expect(remarksWith(second('09:00'))[0]).toMatch(
      /^Ada: found 2 people \(ada and cy\) at fit; allowed: 1 at once, by the benches there/,
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

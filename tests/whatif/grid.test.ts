import { describe, expect, it } from 'vitest';
import { resolve } from '../../src/scenario/resolve.ts';
import { alikeSentence } from '../../src/report/pages/grid-page.ts';
import { groupsOf, type GridCell } from '../../src/study/grid.ts';
import { axesOffered, axisOf, choiceOf, gridOf, usualAxes } from '../../src/whatif/grid.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../support/shops.ts';

const demo = shipped('chair-works');

describe('an axis in words', () => {
  it('has its values, what they are called and what they do', () => {
    expect(axisOf(demo, 'clamp=2..4')).toMatchObject({
      name: 'clamp sets',
      values: [2, 3, 4],
      told: ['2 clamp sets', '3 clamp sets', '4 clamp sets'],
      left: [],
    });
    expect(axisOf(demo, 'person:fitter+bench=0..2')).toMatchObject({
      told: [
        'nobody more at fit',
        '1 more person at fit with a bench',
        '2 more people at fit with a bench each',
      ],
      made: [null, { word: 'person', given: 'fitter:1+bench' }, { word: 'person', given: 'fitter:2+bench' }],
    });
    expect(axisOf(demo, 'cure=20..40/10').values).toEqual([20, 30, 40]);
    expect(axisOf(demo, 'overtime=0,45').told).toEqual(['no overtime', 'up to 45 min of overtime']);
    expect(axisOf(demo, 'rack:glue=4,8').told).toEqual([
      '4 slots before glue and clamp',
      '8 slots before glue and clamp',
    ]);
  });

  it('leaves out what the file does not take, and says why', () => {
    const { values, left } = axisOf(demo, 'clamp=1..3');
    expect(values).toEqual([2, 3]);
    expect(left).toEqual([
      { told: '1 clamp set', why: expect.stringMatching(/2 units at the start/) as string },
    ]);
  });

  it.each([
    ['clmp=1..4', /there is no gear called “clmp”; the file has clamp\. Did you mean “clamp”\?/],
    ['clamp', /it has no “=”/],
    ['clamp=4..1', /no row of values/],
    ['clamp=1..40', /more than 12 values/],
    ['person:sandd=0..1', /there is no step “sandd”.*Did you mean “sand”/],
    ['cure:fit=1..2', /no such wait/],
  ])('%s says what is wrong and how it is written', (typed, why) => {
    expect(() => axisOf(demo, typed)).toThrow(why);
    expect(() => axisOf(demo, typed)).toThrow(/^What varies is written THING=FROM\.\.TO/);
  });

  it('makes a field of every pair, each the cell with both', () => {
    const [down, across] = [axisOf(demo, 'person:fit+bench=0..1'), axisOf(demo, 'clamp=2..3')];
    const { fields, columns } = gridOf(demo, down, across, 30);
    expect([fields.length, columns]).toEqual([4, 2]);
    const fitters = fields.map(({ shifts }) => shifts[0]!.people.filter((one) => 'fit' in one.skills).length);
    const sets = fields.map(({ shifts }) => shifts[0]!.gear.find(({ id }) => id === 'clamp')!.count);
    expect(sets).toEqual([2, 3, 2, 3]);
    expect(fitters[2]! - fitters[0]!).toBe(1);
    expect(fields.map(({ price }) => price)).toEqual([0, 1800, 900, 2700]);
    expect(choiceOf(down, across, 1, 1)).toHaveLength(2);
    expect(() => gridOf(demo, axisOf(demo, 'clamp=2..12'), axisOf(demo, 'overtime=0..60/10'), 30)).toThrow(
      /77|more than the 64/,
    );
  });

  it.each([
    ...SHIPPED.map((name) => [name, shipped(name)] as const),
    ...SHOPS.map((name) => [name, shop(name)] as const),
  ])('is there for %s without being asked for', (_name, scenario) => {
    const usual = usualAxes(scenario);
    const [down, across] = [axisOf(scenario, usual.down), axisOf(scenario, usual.across)];
    const { fields } = gridOf(scenario, down, across, 30);
    expect(fields).toHaveLength(down.values.length * across.values.length);
    expect(down.values.length).toBeGreaterThan(1);
    expect(
      fields.some(({ shifts }) => JSON.stringify(shifts[0]!.gear) === JSON.stringify(resolve(scenario).gear)),
    ).toBe(true);
  });
});

describe('what a page offers to vary', () => {
  it.each([
    ...SHIPPED.map((name) => [name, shipped(name)] as const),
    ...SHOPS.map((name) => [name, shop(name)] as const),
  ])('of %s begins with the usual two, and each can be had with six values', (_name, scenario) => {
    const offered = axesOffered(scenario);
    const usual = usualAxes(scenario);
    const first = offered.slice(0, 2).map(({ typed }) => typed);
    expect(first).toContain(usual.across);
    expect(first).toContain(usual.down);
    for (const { wide } of offered) {
      const { values, left } = axisOf(scenario, wide);
      expect(values.length + left.length, wide).toBe(6);
    }
  });

  it('says which fields cannot be told apart, by their letters', () => {
    const cell = (alike: number | null, estimate: number) =>
      ({ alike, good: { estimate } }) as unknown as GridCell;
    expect(alikeSentence({ cells: [cell(null, 1), cell(null, 2)] })).toMatch(/^Every field can be told/);
    expect(
      alikeSentence({ cells: [cell(0, 19.72), cell(0, 19.9), cell(1, 25), cell(1, 25), cell(null, 9)] }),
    ).toBe(
      'Fields of one letter cannot be told apart, each from one beside it: a (2 fields, 19.7 to 19.9 units), b (2 fields, 25.0 units).',
    );
  });
});

describe('fields that cannot be told apart', () => {
  it('share a number along the pairs that join them', () => {
    expect(
      groupsOf(6, [
        [0, 1],
        [4, 5],
        [1, 4],
      ]),
    ).toEqual([0, 0, null, null, 0, 0]);
    expect(
      groupsOf(4, [
        [2, 3],
        [0, 1],
      ]),
    ).toEqual([0, 0, 1, 1]);
    expect(groupsOf(2, [])).toEqual([null, null]);
  });
});

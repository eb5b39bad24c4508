/** Results of many days from a list, and the times that have moved, put into the file. */
import { describe, expect, it } from 'vitest';
import { newTimesBlocks } from '../../src/report/new-times-blocks.ts';
import { compileTime } from '../../src/duration/compile.ts';
import { newsOf, readDaysList } from '../../src/timing/days-list.ts';
import { newTimes, studyNewTimes } from '../../src/timing/new-times.ts';
import type { Observation } from '../../src/timing/observation.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shop, SHOPS } from '../support/shops.ts';

describe('a list of days', () => {
  it('gives each day its result, its causes and its note', () => {
    const { days, unread } = readDaysList(
      'Day;Good;Due;Scrap: split;Rework: scratch;Note\n2027-03-08;20;22;1;3;cold\n2027-03-09;22;22;0;;\n',
    );
    expect(unread).toEqual([]);
    expect(days).toEqual([
      {
        row: 2,
        day: '2027-03-08',
        result: { good: 20, target: 22, scrap: { split: 1 }, rework: { scratch: 3 } },
        note: 'cold',
      },
      { row: 3, day: '2027-03-09', result: { good: 22, target: 22 }, note: null },
    ]);
  });

  it('reads days as shops write them, and never guesses between day and month', () => {
    const dayFirst = readDaysList('date,made\n08/03/2027,20\n19/03/2027,21\n');
    expect(dayFirst.days.map(({ day }) => day)).toEqual(['2027-03-08', '2027-03-19']);
    const open = readDaysList('date,made\n08/03/2027,20\n09/03/2027,21\n');
    expect(open.days).toEqual([]);
    expect(open.unread[0]!.why).toContain('day first or month first');
  });

  it('says of every row it cannot read which and why, and reads the others', () => {
    const { days, unread } = readDaysList(
      'date,good\n2027-03-08,20\n2027-02-30,20\n2027-03-09,many\n2027-03-08,21\n,4\n2027-03-10,-1\n2027-03-11,9\n',
    );
    expect(days.map(({ day }) => day)).toEqual(['2027-03-08', '2027-03-11']);
    expect(unread.map(({ row }) => row)).toEqual([3, 4, 5, 6, 7]);
    expect(unread[2]!.why).toBe('2027-03-08 stands in row 2 already');
    expect(readDaysList('a,b\n1,2\n')).toMatchObject({ days: [], unread: [{ row: 1 }] });
  });

  it('adds what is news only, and keeps what else the book knows of the day', () => {
    const { days } = readDaysList('day,good,note\n2027-03-08,20,cold\n2027-03-09,21,\n');
    const overtime = { kofi: 20 };
    const known = (day: string): { result: { good: number } | null; note: string | null } =>
      day === '2027-03-08'
        ? { result: Object.assign({ good: 19 }, { overtime }), note: 'cold' }
        : { result: { good: 21 }, note: null };
    expect(newsOf(days, known)).toEqual([
      { day: '2027-03-08', kind: 'result', content: { good: 20, overtime } },
    ]);
  });
});

describe.each(SHOPS)('times that have moved at %s', (name) => {
  const scenario = shop(name);
  const step = Object.entries(scenario.steps).find(([, one]) => one.kind !== 'wait')![0];
  const mean = compileTime(scenario.steps[step]!.time).mean;
  const allowance = scenario.shift?.allowance ?? 1;
  const observed = (factor: number): Observation[] =>
    Array.from({ length: 30 }, (_, i) => ({
      step,
      product: null,
      person: null,
      minutes: mean * allowance * factor * (1 + ((i % 5) - 2) / 40),
      rating: null,
      repeat: false,
      date: '2027-03-05',
      row: i + 1,
    }));

  it('go into the file with what they change; what has not moved changes nothing', async () => {
    const made = newTimes(scenario, observed(1.6))!;
    expect(made.places.map((one) => one.step)).toEqual([step]);
    expect(made.places[0]!.after / mean).toBeCloseTo(1.6, 1);
    expect(compileTime(made.scenario.steps[step]!.time).mean).toBeCloseTo(made.places[0]!.after, 3);
    const study = await studyNewTimes(scenario, made, inLineRunner(), undefined, 30);
    expect(study.cases.map(({ id }) => id)).toEqual(['file', 'new']);
    expect(JSON.stringify(newTimesBlocks(scenario, made, study))).toContain('ith the new times');
    expect(newTimes(scenario, [])).toBeNull();
  });
});

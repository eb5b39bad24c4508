/** What a person decides of a list of times: leave one out, name nobody, trust no two. */
import { describe, expect, it } from 'vitest';
import { timesPage } from '../../src/report/times-page.ts';
import { timeKey } from '../../src/timing/left-out.ts';
import type { Observation } from '../../src/timing/observation.ts';
import { studyTimes } from '../../src/timing/study-times.ts';
import { placeSentences } from '../../src/words/times-words.ts';
import { shop, SHOPS } from '../support/shops.ts';

const taken = (step: string, minutes: number[], people: (string | null)[] = [null]): Observation[] =>
  minutes.map((one, i) => ({
    step,
    product: null,
    person: people[i % people.length]!,
    minutes: one,
    rating: null,
    repeat: false,
    date: '2027-03-05',
    row: i + 2,
  }));

describe.each(SHOPS)('a list of times for %s', (name) => {
  const scenario = shop(name);
  const step = Object.keys(scenario.steps).find((id) => scenario.steps[id]!.kind !== 'wait')!;
  const list = taken(step, [10, 11, 9, 10.5, 9.5, 10.2, 95]);
  const wild = list.at(-1)!;

  it('tells what stands far off, and keeps it in every figure until it is left out', () => {
    const all = studyTimes(scenario, list).places[0]!;
    expect(all.far.map(({ row, minutes }) => [row, minutes])).toEqual([[8, 95]]);
    expect(all.fit.count).toBe(7);
    const less = studyTimes(scenario, list, { leaveOut: new Set([timeKey(wild)]) }).places[0]!;
    expect(less.left.map(({ minutes }) => minutes)).toEqual([95]);
    expect([less.fit.count, less.far]).toEqual([6, []]);
    expect(less.fit).toEqual(studyTimes(scenario, list.slice(0, -1)).places[0]!.fit);
    expect(placeSentences(scenario, less).join(' ')).toContain('Left out by hand');
    // Taken in again: nothing was lost.
    expect(studyTimes(scenario, list, { leaveOut: new Set() }).places[0]).toEqual(all);
  });

  it('still shows a place of which everything was left out', () => {
    const study = studyTimes(scenario, list, { leaveOut: new Set(list.map(timeKey)) });
    expect(study.places.map(({ fit, left }) => [fit.count, fit.chosen, left.length])).toEqual([[0, null, 7]]);
  });

  it('never calls two times enough, however alike', () => {
    for (const minutes of [
      [10, 10],
      [10, 10.01],
      [7, 7, 7],
    ]) {
      const { needed } = studyTimes(scenario, taken(step, minutes)).places[0]!.fit;
      expect(needed!.more).toBe(5 - minutes.length);
    }
  });

  it('names nobody unless asked', () => {
    const [one, two] = Object.keys(scenario.people) as [string, string];
    const minutes = Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 10 : 14) * (1 + (i % 5) / 50));
    const study = studyTimes(scenario, taken(step, minutes, [one, two]), { pace: 'none' });
    const told = (withNames: boolean): string =>
      JSON.stringify(timesPage({ scenario, read: null, study, forecast: null, withNames }).blocks);
    const names = [one, two].map((id) => scenario.people[id]!.name ?? id);
    for (const who of names) expect(told(true)).toContain(who);
    for (const who of [...names, `"${one}"`, `"${two}"`]) expect(told(false)).not.toContain(who);
    expect(told(false)).toMatch(/erson [AB] takes/);
  });
});

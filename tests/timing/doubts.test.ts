import { describe, expect, test } from 'vitest';
import { exp } from '../../src/random/exact.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { baseCase } from '../../src/study/from-scenario.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { applyFits } from '../../src/timing/apply-fits.ts';
import type { Doubt } from '../../src/timing/doubts.ts';
import { luckOf } from '../../src/timing/luck.ts';
import type { Observation } from '../../src/timing/observation.ts';
import { studyTimes } from '../../src/timing/study-times.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { mindSentence } from '../../src/words/input-words.ts';
import { studySure } from '../../src/words/study-words.ts';
import { doubtSentence } from '../../src/words/times-words.ts';

const cell = (people: string[]): Scenario => ({
  format: 1,
  name: 'One bench',
  steps: { plane: { time: { mean: 10, cv: 0.2 } } },
  people: Object.fromEntries(people.map((id) => [id, { name: id, covers: ['plane'] }])),
  shift: { start: '06:00', end: '14:30' },
});

/** Times of about ten minutes; `change` says the rest of each. */
const list = (count: number, change: (i: number, minutes: number) => Partial<Observation>): Observation[] => {
  const luck = luckOf('a list', 0, 0);
  return Array.from({ length: count }, (_, i) => {
    const minutes = 10 * exp(0.2 * (luck(3 * i) + luck(3 * i + 1) + luck(3 * i + 2) - 1.5));
    const plain = { step: 'plane', product: null, person: null, rating: null, repeat: false, date: null };
    return { ...plain, minutes, row: i + 1, ...change(i, minutes) };
  });
};

const doubts = (scenario: Scenario, observations: Observation[]): Doubt[] =>
  studyTimes(scenario, observations, { draws: 19 }).places[0]!.doubts;

/** A clock minute in even steps through the shift. */
const allDay = (i: number, count: number): number => 360 + (i * 500) / count;

describe('a range does not know', () => {
  test('nothing to mind in times of one person taken all through the day', () => {
    expect(
      doubts(
        cell(['Ana']),
        list(30, (i) => ({ at: allDay((i * 7) % 30, 30) })),
      ),
    ).toEqual([]);
  });

  test('whose pieces they were, where several work there and none is named', () => {
    const found = doubts(
      cell(['Ana', 'Ben']),
      list(25, () => ({})),
    );
    expect(found).toEqual([{ kind: 'whose', people: ['Ana', 'Ben'], untold: 25 }]);
    expect(doubtSentence(cell(['Ana', 'Ben']), found[0]!)).toContain('Ana and Ben work here');
  });

  test('that people differ, where they are named and do', () => {
    const found = doubts(
      cell(['Ana', 'Ben']),
      list(40, (i, minutes) => (i % 2 === 0 ? { person: 'Ana' } : { person: 'Ben', minutes: 1.4 * minutes })),
    );
    expect(found.map(({ kind }) => kind)).toEqual(['people differ']);
  });

  test('nothing against people who differ as the file has it', () => {
    const file = cell(['Ana', 'Ben']);
    file.people['Ben']!.skills = { plane: { factor: 1.4 } };
    const found = doubts(
      file,
      list(40, (i, minutes) => (i % 2 === 0 ? { person: 'Ana' } : { person: 'Ben', minutes: 1.4 * minutes })),
    );
    expect(found).toEqual([]);
  });

  test('the afternoon, where all were taken before ten', () => {
    const found = doubts(
      cell(['Ana']),
      list(25, (i) => ({ at: 365 + ((i * 7) % 25) * 8 })),
    );
    expect(found).toEqual([{ kind: 'part of the day', from: 365, to: 557, start: 360, end: 870 }]);
    expect(doubtSentence(cell(['Ana']), found[0]!)).toContain(
      'between 06:05 and 09:17, and the day goes from 06:00 to 14:30',
    );
  });

  test('the hours that were not timed, where the hour matters', () => {
    const found = doubts(
      cell(['Ana']),
      list(40, (i, minutes) => ({ at: allDay(i, 40), minutes: minutes * 1.05 ** ((i * 500) / 40 / 60) })),
    );
    expect(found.map(({ kind }) => kind)).toEqual(['the hour matters']);
    expect(doubtSentence(cell(['Ana']), found[0]!)).toMatch(/^pieces take \d% longer with each hour/);
  });

  test('other days, where there was one, or where they differ', () => {
    expect(
      doubts(
        cell(['Ana']),
        list(20, () => ({ date: '2024-03-05' })),
      ),
    ).toEqual([{ kind: 'one day', day: '2024-03-05' }]);
    const days = (apart: number): Doubt[] =>
      doubts(
        cell(['Ana']),
        list(30, (i, minutes) => ({
          date: `2024-03-0${1 + (i % 3)}`,
          minutes: minutes * (i % 3 === 0 ? apart : 1),
        })),
      );
    expect(days(1)).toEqual([]);
    expect(days(1.4)).toEqual([{ kind: 'days differ', days: 3 }]);
  });
});

describe('what a range does not know is kept in the file', () => {
  /** The file as it is written once the list's times are put into it, read again. */
  const applied = (scenario: Scenario, observations: Observation[]): Scenario => {
    const { places } = studyTimes(scenario, observations, { draws: 19 });
    const made = applyFits(
      scenario,
      places.map(({ fit }) => fit),
      places.map(({ doubts }) => doubts),
    );
    const reading = readScenario(JSON.stringify(made));
    if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join());
    return reading.scenario;
  };

  test('with its timings, and said once with every answer that rests on them', async () => {
    const morning = applied(
      cell(['ana', 'ben']),
      list(25, (i) => ({ at: 365 + ((i * 7) % 25) * 8 })),
    );
    expect(morning.steps['plane']!.known?.time).toMatchObject({
      times: 25,
      mind: { between: ['06:05', '09:17'], people: 'not named' },
    });
    const asked = async (scenario: Scenario): Promise<string> => {
      const request = { cases: [baseCase(scenario)], pairs: [], settings: {}, count: 30 };
      return studySure(summarize(await runStudy(request, inLineRunner())));
    };
    const said =
      'Mind, as no range knows it: the times of “plane” were all taken between 06:05 and 09:17; several people work at “plane”, and whose times they are was not noted.';
    expect((await asked(morning)).endsWith(said)).toBe(true);
    // Where luck alone is asked for, nothing rests on the times.
    expect(await asked({ ...morning, study: { timesKnown: true } })).not.toContain('Mind');
  });

  test('and nothing is kept or said where there is nothing to mind', () => {
    const fine = applied(
      cell(['ana']),
      list(30, (i) => ({ at: allDay((i * 7) % 30, 30) })),
    );
    expect(fine.steps['plane']!.known?.time).not.toHaveProperty('mind');
    expect(mindSentence([])).toBeNull();
  });
});

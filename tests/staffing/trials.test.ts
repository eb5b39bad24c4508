/** What the planner keeps of the shifts it tries: above all who went over the exposure limit. */
import { describe, expect, test } from 'vitest';
import { workingAt } from '../../src/engine/states.ts';
import type { Job, Runner } from '../../src/record/job.ts';
import { layoutWith } from '../../src/record/layout.ts';
import { scalarAt } from '../../src/record/report.ts';
import { draftOf } from '../../src/staffing/draft.ts';
import { everyDraft } from '../../src/staffing/every-draft.ts';
import { openDay, type Day } from '../../src/staffing/question.ts';
import { breaksLimit, openTrials, type Figures } from '../../src/staffing/trials.ts';
import { whatWouldDo } from '../../src/staffing/would-do.ts';
import type { OneMoreOfEach } from '../../src/study/one-more.ts';
import { TWO_PEOPLE } from './small-cells.ts';

const figures = (shifts: number, overLimit: number): Figures => ({
  good: Array.from({ length: shifts }, () => 1),
  cost: [],
  met: [],
  overLimit,
  excess: 0,
});

/** Of each shift: minutes of each person at the sander before and after their own end, and good units. */
type Shift = { sanding: [number, number][]; good: number };

/** A runner that hands out these shifts, one after the other, and remembers what it was asked. */
function played(day: Day, shifts: Shift[]): Runner & { asked: [from: number, count: number][] } {
  const asked: [number, number][] = [];
  return {
    asked,
    run: ({ from, count, lists = [] }: Job) => {
      const layout = layoutWith(day.shift, lists);
      const state = workingAt(layout.gear.length, layout.steps.indexOf('sand'));
      const rows = new Float64Array(count * layout.size);
      for (let row = 0; row < count; row++) {
        const at = row * layout.size;
        const { sanding, good } = shifts[(from + row) % 1_000_000]!;
        rows[at + scalarAt(layout, 'good')] = good;
        rows[at + scalarAt(layout, 'cost')] = 100 + good;
        rows[at + scalarAt(layout, 'targetAt')] = good > 5 ? 60 : NaN;
        sanding.forEach(([within, after], person) => {
          rows[at + layout.at.personMinutes + person * layout.personStates + state] = within;
          rows[at + layout.at.personOvertime + person * layout.personStates + state] = after;
        });
      }
      asked.push([from, count]);
      return Promise.resolve({ rows: [rows] });
    },
    close: () => Promise.resolve(),
  } as unknown as Runner & { asked: [number, number][] };
}

// At 5 m/s2 an hour is 50 points: 480 minutes are the 400 of the limit.
const SANDERS = openDay({
  scenario: {
    ...TWO_PEOPLE,
    limits: { vibration: { sand: 5 } },
    study: { ...TWO_PEOPLE.study, timesKnown: true },
  },
});

describe('the exposure limit', () => {
  test.each([
    [0, 100, false],
    [1, 1, false],
    [1, 100, false],
    [2, 2, true],
    [2, 100, true],
    [2, 199, true],
    [2, 200, false],
    [3, 200, true],
    [4, 400, false],
    [5, 400, true],
  ])('%d shifts over in %d', (over, shifts, broken) =>
    expect(breaksLimit(figures(shifts, over))).toBe(broken),
  );

  test('counts a shift once, whoever of them was over, and minutes after their own end too', async () => {
    const shifts: Shift[] = [
      {
        sanding: [
          [480, 0],
          [0, 0],
        ],
        good: 3,
      },
      {
        sanding: [
          [481, 0],
          [500, 0],
        ],
        good: 4,
      },
      {
        sanding: [
          [400, 81],
          [0, 0],
        ],
        good: 6,
      },
    ];
    const trials = openTrials(SANDERS, played(SANDERS, shifts));
    const seen = await trials.see(draftOf(SANDERS), 3, 0);
    expect(seen).toMatchObject({ good: [3, 4, 6], cost: [103, 104, 106], overLimit: 2 });
    expect(seen.met).toEqual([NaN, NaN, 60]);
  });

  test('adds up by how much people are over nine tenths of it, those under taking nothing off', async () => {
    const shifts: Shift[] = [
      {
        sanding: [
          [480, 0],
          [0, 0],
        ],
        good: 1,
      },
      {
        sanding: [
          [456, 0],
          [504, 0],
        ],
        good: 1,
      },
    ];
    const seen = await openTrials(SANDERS, played(SANDERS, shifts)).see(draftOf(SANDERS), 2, 0);
    // 1 - .9, then (.95 - .9) + (1.05 - .9).
    expect(seen.excess).toBeCloseTo(0.1 + 0.05 + 0.15, 9);
    const none = openDay({ scenario: TWO_PEOPLE });
    expect(await openTrials(none, played(none, shifts)).see(draftOf(none), 2, 0)).toMatchObject({
      overLimit: 0,
      excess: 0,
    });
  });

  test('runs no shift twice, asked at once or later', async () => {
    const shifts = Array.from({ length: 10 }, (_, good): Shift => ({
      sanding: [
        [0, 0],
        [0, 0],
      ],
      good,
    }));
    const runner = played(SANDERS, shifts);
    const told: number[] = [];
    const trials = openTrials(SANDERS, runner, undefined, (spent) => told.push(spent));
    const draft = draftOf(SANDERS);
    await Promise.all([trials.see(draft, 4, 1_000_000), trials.see(draft, 6, 1_000_000)]);
    const seen = await trials.see(draft, 5, 1_000_000);
    expect(seen.good).toEqual([0, 1, 2, 3, 4, 5]);
    expect(runner.asked).toEqual([
      [1_000_000, 4],
      [1_000_004, 2],
    ]);
    expect([trials.spent, told]).toEqual([6, [4, 6]]);
    await trials.see(draft, 2, 2_000_000);
    expect(trials.spent).toBe(8);
  });
});

test('as many plans as may be are listed, and one more is too many', () => {
  const day = openDay({
    scenario: TWO_PEOPLE,
    overtime: { cap: 15 },
    vary: { changes: 0, breaks: false, lastStart: false, rule: false },
  });
  const all = everyDraft(day, 1000)!.length;
  expect(everyDraft(day, all)).toHaveLength(all);
  expect(everyDraft(day, all - 1)).toBeNull();
});

describe('what would do', () => {
  const chance = (low: number, estimate: number, high: number): unknown => ({
    estimate,
    low,
    high,
    luck: 0,
    inputs: 0,
  });
  const answer = async (day: Day, ...chances: [number, number, number][]): Promise<string[]> => {
    const each = {
      rows: chances.map((_, i) => ({ id: `r${i}`, name: `row ${i}`, price: null })),
      study: { cases: chances.map((one, i) => ({ id: `r${i}`, target: { chance: chance(...one) } })) },
    } as unknown as OneMoreOfEach;
    const runner = played(day, []);
    const found = await whatWouldDo({ ...day, overtime: null, present: [] }, draftOf(day), each, runner, 10);
    return found.map(({ name, enough }) => `${name}: ${enough}`);
  };

  test('is surely enough from the chance asked for on, perhaps where the range reaches it; most helpful first', async () => {
    const day = openDay({ scenario: TWO_PEOPLE, confidence: 0.8 });
    expect(day.confidence).toBe(0.8);
    expect(await answer(day, [0.5, 0.6, 0.79], [0.6, 0.7, 0.8], [0.8, 0.9, 0.95], [0.79, 0.85, 0.9])).toEqual(
      ['row 2: yes', 'row 3: perhaps', 'row 1: perhaps', 'row 0: no'],
    );
  });
});

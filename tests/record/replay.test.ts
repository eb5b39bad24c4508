/** One shift written down: fixed times, so that every stretch can be reckoned by hand. */
import { describe, expect, test } from 'vitest';
import { FREE, NO_GEAR, NO_UNIT, NOT_IN, ON_BREAK, workingAt } from '../../src/engine/recorder.ts';
import { recordReplay, type ReplayShift } from '../../src/record/replay.ts';
import type { Stretch } from '../../src/record/stretch.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { shiftOf } from '../support/run-cell.ts';

const SAND = {
  format: 1,
  name: 'Sanding',
  steps: { sand: { time: 10 } },
  people: { ana: { covers: ['sand'] } },
  intake: { kind: 'at start', units: 3 },
  shift: { start: '06:00', end: '07:00' },
};
const GLUE = {
  format: 1,
  name: 'Glueing',
  gear: { clamp: { name: 'clamp set', count: 1 } },
  people: { ana: { covers: ['glue', 'unclamp'] } },
  intake: { kind: 'at start', units: 2 },
  shift: { start: '06:00', end: '07:30' },
  steps: {
    glue: { time: 5, benches: 0, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 20 },
    unclamp: { time: 5, benches: 0 },
  },
};

const first = (scenario: unknown): ReplayShift => recordReplay([shiftOf(scenario)], 0)[0]!;
const parts = (stretches: Stretch[]): [number, number, number, number][] =>
  stretches.map(({ from, to, state, unit }) => [from, to, state, unit]);

/** States number gear before steps: one kind a scenario names, then the bench of each step that has one. */
const gearOf = (scenario: unknown): number => shiftOf(scenario).gear.length;

describe('a shift written down', () => {
  test('has each piece in hand for as long as it takes, then nothing to work on', () => {
    const replay = first(SAND);
    const sanding = workingAt(gearOf(SAND), 0);
    expect(parts(replay.people[0]!)).toEqual([
      [0, 10, sanding, 0],
      [10, 20, sanding, 1],
      [20, 30, sanding, 2],
      [30, 60, NO_UNIT, -1],
    ]);
    expect(replay.goods).toEqual([10, 20, 30]);
    expect(replay.ends).toBe(60);
    expect(replay.scrapped).toBe(0);
  });

  test('has the length of each line at every change', () => {
    const { lines } = first(SAND);
    const at = (minute: number): number => lines[0]!.filter((one) => one.at <= minute).at(-1)!.length;
    expect([0, 9.9, 10, 19.9, 20, 59].map(at)).toEqual([2, 2, 1, 1, 0, 0]);
  });

  test('has a clamp set tied up from the glue-up to the end of unclamping, and the person without one meanwhile', () => {
    const replay = first(GLUE);
    const [glue, unclamp] = [workingAt(gearOf(GLUE), 0), workingAt(gearOf(GLUE), 2)];
    expect(parts(replay.people[0]!)).toEqual([
      [0, 5, glue, 0],
      [5, 25, NO_GEAR, -1],
      [25, 30, unclamp, 0],
      [30, 35, glue, 1],
      [35, 55, NO_UNIT, -1],
      [55, 60, unclamp, 1],
      [60, 90, NO_UNIT, -1],
    ]);
    const clamp = replay.gear[0]![0]!;
    expect(clamp.map(({ from, to, unit }) => [from, to, unit])).toEqual([
      [0, 5, 0],
      [5, 25, 0],
      [25, 30, 0],
      [30, 35, 1],
      [35, 55, 1],
      [55, 60, 1],
      [60, 90, -1],
    ]);
    expect(clamp.at(-1)!.state).toBe(FREE);
    expect(replay.goods).toEqual([30, 60]);
  });

  test('joins up without a gap or an overlap, breaks and overtime included', () => {
    const long = {
      ...SAND,
      steps: { sand: { time: 28 } },
      shift: {
        ...SAND.shift,
        breaks: [{ from: '06:30', minutes: 10 }],
        overtime: { until: 'empty', cap: 60 },
      },
    };
    const replay = first(long);
    // 28, then 2 before the break and 26 after it: 66 minutes, 6 of them after the end, when the third is not
    // begun any more.
    expect(replay.goods).toEqual([28, 66]);
    expect(replay.ends).toBe(66);
    const [ana] = replay.people;
    expect(ana![0]!.from).toBe(0);
    expect(ana!.at(-1)!.to).toBe(66);
    for (const [i, stretch] of ana!.entries()) if (i > 0) expect(stretch.from).toBe(ana![i - 1]!.to);
    expect(ana!.find(({ state }) => state === ON_BREAK)).toMatchObject({ from: 30, to: 40 });
  });

  test('counts the times of each shift from its own start', () => {
    const two = {
      ...SAND,
      intake: { kind: 'at start', units: 8 },
      nextShifts: [{ name: 'Late', days: 0, changes: { shift: { start: '14:00', end: '15:00' } } }],
    };
    const reading = checkScenario(two);
    if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join(' '));
    const [early, late] = recordReplay(shiftsOf(reading.scenario), 0);
    expect(early!.goods).toEqual([10, 20, 30, 40, 50, 60]);
    expect(late!.goods.slice(0, 2)).toEqual([10, 20]);
    const goods = late!.events.filter(({ event }) => event === 'good').map(({ time }) => time / 60_000);
    expect(goods.slice(0, 2)).toEqual([10, 20]);
    expect(Math.min(...late!.events.map(({ time }) => time))).toBeGreaterThanOrEqual(0);
  });

  test('is the same again for the same number, and another for another', () => {
    const random = { ...SAND, steps: { sand: { time: { mean: 10, cv: 0.3 } } } };
    const shift = shiftOf(random);
    expect(recordReplay([shift], 3)).toEqual(recordReplay([shift], 3));
    expect(recordReplay([shift], 3)[0]!.goods).not.toEqual(recordReplay([shift], 4)[0]!.goods);
  });

  test('leaves out who is not in until they come', () => {
    const late = { ...SAND, people: { ana: { covers: ['sand'], from: '06:20' } } };
    expect(parts(first(late).people[0]!)[0]).toEqual([0, 20, NOT_IN, -1]);
  });
});

/**
 * The grid of people by clamp sets against machine interference: `N` sets that cure for 30 minutes and are
 * handled by one of `c` people (Stevenson, Operations Management, 14th edition, chapter 18, read; any cure
 * curve: Baskett et al. 1975, from memory). The printed figures were recomputed from the birth-death chain.
 */
import { describe, expect, it } from 'vitest';
import { annuity } from '../../src/money/payback.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import type { Interval } from '../../src/study/intervals/interval.ts';
import { studentQuantile } from '../../src/study/intervals/student-quantile.ts';
import { chosen, runGrid, YEARS_OF_USE, type GridAnswer } from '../../src/study/grid.ts';
import { axisOf, gridOf } from '../../src/whatif/grid.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { steady } from '../theory/cases/cell.ts';
import { finiteSource } from '../theory/formulas/birth-death.ts';

const CURE = 30;
/** Joints an hour, by people and sets, handling of 8 minutes. */
const AT_8 = [
  [1.5789474, 3.0238727, 4.2954804, 5.354982, 6.1753716, 6.7544098],
  [1.5789474, 3.1578947, 4.7148455, 6.2290118, 7.6790435, 9.0422122],
  [1.5789474, 3.1578947, 4.7368421, 6.3116566, 7.8755695, 9.4199151],
  [1.5789474, 3.1578947, 4.7368421, 6.3157895, 7.8939207, 9.4693049],
  [1.5789474, 3.1578947, 4.7368421, 6.3157895, 7.8947368, 9.4735193],
];
/** The same for 12 minutes, each row from the first number of sets that is printed. */
const AT_12: [sets: number, figures: number[]][] = [
  [1, [1.4285714, 2.6415094, 3.5891648, 4.2504198, 4.6513444, 4.8588285]],
  [3, [4.2363112, 5.5232789, 6.6781823, 7.6657726]],
  [4, [5.7016207, 7.086019, 8.4165837]],
  [5, [7.1394588, 8.553987]],
  [6, [8.5704961]],
];
const perHour = (people: number, sets: number, hands: number, cure = CURE): number =>
  60 * finiteSource(sets, cure, hands, people);

const read = (file: unknown): Scenario => {
  const reading = readScenario(JSON.stringify(file));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
};
const cellOf = (hands: number, cure: unknown): Record<string, unknown> => ({
  name: 'One task',
  steps: {
    load: { time: { curve: 'exponential', mean: hands }, benches: 0, takes: [{ gear: 'set', until: 'off' }] },
    cure: { kind: 'wait', time: cure },
    off: { time: 0, benches: 0 },
  },
  people: { gluer: { covers: ['load'], pay: 22.5 }, helper: { covers: ['off'] } },
  study: { timesKnown: true, promise: 90 },
});

/** One minute of the source is a hundredth of one in the file: an hour of the file holds a hundred. */
const SCALE = 0.01;
const HOURS = 100;
const ongoing = (hands: number): Scenario =>
  read(
    steady({
      ...cellOf(hands * SCALE, CURE * SCALE),
      gear: { set: { count: 3 } },
      intake: { kind: 'constant', inside: 8 },
    })({ hours: 1, measured: 1 }),
  );

async function played(scenario: Scenario, down: string, across: string, count: number): Promise<GridAnswer> {
  const asked = gridOf(scenario, axisOf(scenario, down), axisOf(scenario, across), count);
  const fields = asked.fields.map((field) => ({ ...field, warmUp: field.shifts.length - 1 }));
  return (await runGrid({ ...asked, fields }, inLineRunner()))!;
}

/** How many standard errors a mean is off. */
const errorsOff = ({ estimate, luck, count, confidence }: Interval, truth: number): number =>
  Math.abs(estimate - truth) / (luck / studentQuantile(confidence, count - 1));

describe('the grid of people by clamp sets', () => {
  it('is printed as the chain of births and deaths has it', () => {
    AT_8.forEach((row, c) =>
      row.forEach((printed, n) => expect(perHour(c + 1, n + 1, 8)).toBeCloseTo(printed, 6)),
    );
    AT_12.forEach(([from, row], c) =>
      row.forEach((printed, n) => expect(perHour(c + 1, from + n, 12)).toBeCloseTo(printed, 6)),
    );
    // More people than sets change nothing; the printed rows leave those out.
    expect(perHour(4, 3, 12)).toBeCloseTo((60 * 3) / (12 + CURE), 9);
    const gain = (c: number, n: number): number => perHour(c, n, 8) - perHour(1, 3, 8);
    expect(gain(1, 4)).toBeCloseTo(1.0595015, 6);
    expect(gain(2, 3)).toBeCloseTo(0.419365, 6);
    expect(gain(2, 4)).toBeCloseTo(1.9335313, 6);
  });

  it.each([
    [8, 4],
    [12, 1],
  ])('is made by the shifts, handling %d min, up to %d more people', async (hands, more) => {
    const grid = await played(ongoing(hands), `person:load=0..${more}`, 'set=1..6', 60);
    for (const { row, column, good, alike } of grid.cells) {
      const [people, sets] = [row + 1, column + 1];
      const truth = perHour(people, sets, hands);
      expect(errorsOff(good, truth * HOURS), `${people} people, ${sets} sets`).toBeLessThan(3.3);
      // No field above what the sets alone, or the hands alone, could make.
      const most = Math.min((60 * sets) / (hands + CURE), (60 * people) / hands);
      expect((good.estimate - 3.3 * good.half) / HOURS).toBeLessThan(most);
      // More people than sets: told apart nowhere from a row less.
      if (people > sets) expect(alike).toBe(grid.cells[(row - 1) * 6 + column]!.alike);
      if (people > sets) expect(alike).not.toBeNull();
    }
    const at = (people: number, sets: number): GridAnswer['cells'][number] =>
      grid.cells[(people - 1) * 6 + sets - 1]!;
    // A person is worth more with more sets, and these are surely apart.
    expect(at(2, 5).good.estimate - at(1, 5).good.estimate).toBeGreaterThan(
      at(2, 3).good.estimate - at(1, 3).good.estimate,
    );
    expect(at(1, 3).alike === null || at(1, 3).alike !== at(1, 4).alike).toBe(true);
  });

  it('responds to the cure and to the time of the hands', async () => {
    const cure = await played(ongoing(8), 'person:load=0', 'cure=0.20,0.25,0.35,0.45', 60);
    const truths = [5.3837472, 4.7934037, 3.8782705, 3.2305703];
    [20, 25, 35, 45].forEach((minutes, i) => expect(perHour(1, 3, 8, minutes)).toBeCloseTo(truths[i]!, 6));
    cure.cells.forEach(({ good }, i) => expect(errorsOff(good, truths[i]! * HOURS)).toBeLessThan(3.3));
    const two = read({
      ...ongoing(8),
      gear: { set: { count: 4 } },
      people: { ...ongoing(8).people, other: { covers: ['load'] } },
    });
    const time = await played(two, 'person:load=0', 'time:load=0.04,0.06,0.10,0.14', 60);
    const hands = [7.0416383, 6.6207951, 5.8636364, 5.2069397];
    [4, 6, 10, 14].forEach((minutes, i) => expect(perHour(2, 4, minutes)).toBeCloseTo(hands[i]!, 6));
    time.cells.forEach(({ good }, i) => expect(errorsOff(good, hands[i]! * HOURS)).toBeLessThan(3.3));
  });
});

describe('the field that is chosen', () => {
  const exactly = (estimate: number): { estimate: number; low: number; high: number } => ({
    estimate,
    low: estimate,
    high: estimate,
  });
  /** Eight hours by the exact means, so much for a person and a set a shift. */
  const fields = (person: number, set: number, makes: (units: number) => boolean, margin: number | null) =>
    AT_8.flatMap((row, c) =>
      row.map((rate, n) => {
        const cost = person * (c + 1) + set * (n + 1);
        return {
          makes: makes(8 * rate) ? ('yes' as const) : ('no' as const),
          cost: exactly(cost),
          net: margin === null ? null : exactly(margin * 8 * rate - cost),
        };
      }),
    );

  it.each([
    [180, 12, 228],
    [30, 25, 130],
  ])('is one person and four sets for 40 in eight hours at %d and %d', (person, set, cost) => {
    const all = fields(person, set, (units) => units >= 40, null);
    const { cheapest, perhapsCheaper } = chosen(all);
    expect(cheapest).toEqual({ at: 3, sure: true });
    expect(all[3]!.cost.estimate).toBe(cost);
    expect(perhapsCheaper).toEqual([]);
  });

  it('is two people and six sets where a unit brings in 14', () => {
    const all = fields(180, 12, () => true, 14);
    const { mostNet } = chosen(all);
    expect(mostNet).toBe(6 + 5);
    expect(all[mostNet!]!.net!.estimate).toBeCloseTo(580.727766, 4);
  });

  it('may be cheaper than the one that surely makes it, and is the one that may where none does', () => {
    const all = fields(180, 12, (units) => units >= 40, null);
    const perhaps = all.map((one, at) => (at === 2 ? { ...one, makes: 'perhaps' as const } : one));
    expect(chosen(perhaps)).toMatchObject({ cheapest: { at: 3, sure: true }, perhapsCheaper: [2] });
    const none = perhaps.map((one) => (one.makes === 'yes' ? { ...one, makes: 'no' as const } : one));
    expect(chosen(none)).toMatchObject({ cheapest: { at: 2, sure: false }, perhapsCheaper: [] });
  });
});

/** Exact: 480 minutes from empty, exponential handling and cure, pieces whose cure ended. */
const EXACT: [
  hands: number,
  target: number,
  people: number,
  sets: number,
  mean: number,
  chance: number,
  level: number,
][] = [
  [8, 30, 1, 2, 23.676379, 0.066823, 19],
  [8, 30, 1, 3, 33.344724, 0.808602, 28],
  [8, 30, 1, 4, 41.215672, 0.993934, 35],
  [8, 30, 2, 3, 37.10741, 0.940421, 31],
  [8, 30, 2, 4, 48.826088, 0.999849, 42],
  [12, 24, 1, 2, 20.523318, 0.187473, 16],
  [12, 24, 1, 3, 27.584344, 0.850717, 23],
  [12, 24, 1, 4, 32.360008, 0.977013, 27],
  [12, 24, 2, 3, 33.131244, 0.988, 28],
];

describe.each([
  [8, 30],
  [12, 24],
])('the chance by field, handling %d min, %d due', (hands, target) => {
  it('is exact, and the cheapest field at nine in ten is one person and four sets', async () => {
    const day = { start: '06:00', end: '14:00', atEnd: 'put down', target };
    const scenario = read({
      format: 1,
      ...cellOf(hands, { curve: 'exponential', mean: CURE }),
      shift: day,
      gear: { set: { count: 2, price: 12 * 240 * annuity(YEARS_OF_USE, 0.08) } },
      intake: { kind: 'at start', units: 110 },
      money: { margin: 14 },
    });
    const count = 2000;
    const grid = await played(scenario, 'person:load=0..1', 'set=2..4', count);
    for (const [, , people, sets, mean, chance, level] of EXACT.filter(([of]) => of === hands)) {
      const cell = grid.cells[(people - 1) * 3 + sets - 2]!;
      const name = `${people} people, ${sets} sets`;
      expect(errorsOff(cell.good, mean), name).toBeLessThan(3.3);
      const error = Math.sqrt((chance * (1 - chance)) / (cell.out ? count / 4 : count));
      expect(Math.abs(cell.chance!.estimate - chance) / error, name).toBeLessThan(3.3);
      // The level itself may be one off where nearly nine in ten make it.
      expect(Math.abs(cell.nineInTen - level), name).toBeLessThanOrEqual(1);
      expect(cell.cost.estimate).toBeCloseTo(180 * people + 12 * (sets - 2), 6);
    }
    expect(grid.cheapest).toEqual({ at: 2, sure: true });
    // Two sets and one person are out by the ceiling alone.
    expect(grid.cells.filter(({ makes }) => makes === 'yes').length).toBeGreaterThan(1);
  });
});

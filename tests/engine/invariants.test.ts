/** What is always true of a run, checked on hundreds of generated cells. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compile } from '../../src/engine/compile.ts';
import { CellRun, RunawayError } from '../../src/engine/run.ts';
import { SilentRecorder } from '../../src/engine/silent.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { generatedCells } from '../support/generated-cells.ts';
import { Rerun, scalar, sum, type Rows } from '../support/run-cell.ts';
import { holds } from '../support/holds.ts';

const RUNS = 300;

/** A day of one to three shifts: the second with one more of all gear and somebody new, the third shorter. */
const days = fc.tuple(generatedCells, fc.constantFrom(0, 0, 1, 2)).map(([scenario, more]) => {
  const gear = Object.fromEntries(
    Object.entries(scenario.gear ?? {}).map(([id, kind]) => [id, { count: kind.count + 1 }]),
  );
  const zoe = { covers: Object.keys(scenario.steps).filter((step) => scenario.steps[step]!.kind !== 'wait') };
  const second = { changes: { gear, people: { ana: null, zoe } } };
  // No less gear than the second: pieces that stand over may hold all of it.
  const third = { days: 3, changes: { gear, shift: { end: '07:30', breaks: [] } } };
  return shiftsOf({ ...scenario, nextShifts: [second, third].slice(0, more) } as Scenario);
});

/** Calls `check` unless the units of this cell go round without any time passing. Whether they do not. */
function unlessEndless(check: () => void): boolean {
  try {
    check();
    return true;
  } catch (error) {
    if (error instanceof RunawayError) return false;
    throw error;
  }
}

function forDays(seed: number, check: (shifts: ResolvedShift[], replication: number) => void): void {
  let checked = 0;
  holds(
    fc.property(days, fc.nat({ max: 100_000 }), (shifts, replication) => {
      if (unlessEndless(() => check(shifts, replication))) checked++;
    }),
    { numRuns: RUNS, seed },
  );
  expect(checked).toBeGreaterThan(0.9 * RUNS);
}

/** Every wait in a line or outside, unit by unit, those that are not over at the end too. */
class Waits extends SilentRecorder {
  readonly inLine: number[];
  outside = 0;
  private readonly joined = new Map<number, { time: number; step: number }>();
  private readonly came = new Map<number, number>();

  constructor(steps: number) {
    super();
    this.inLine = new Array<number>(steps).fill(0);
  }

  override join(time: number, unit: number, step: number): void {
    this.joined.set(unit, { time, step });
  }

  override start(time: number, unit: number): void {
    this.leaveLine(time, unit);
  }

  override keepOutside(time: number, unit: number): void {
    this.came.set(unit, time);
  }

  override enter(time: number, unit: number): void {
    this.leaveOutside(time, unit);
  }

  override divert(time: number, unit: number): void {
    this.leaveOutside(time, unit);
  }

  override end(time: number): void {
    for (const unit of [...this.joined.keys()]) this.leaveLine(time, unit);
    for (const unit of [...this.came.keys()]) this.leaveOutside(time, unit);
  }

  private leaveLine(time: number, unit: number): void {
    const since = this.joined.get(unit);
    if (since === undefined) return;
    this.inLine[since.step]! += time - since.time;
    this.joined.delete(unit);
  }

  private leaveOutside(time: number, unit: number): void {
    this.outside += time - (this.came.get(unit) ?? time);
    this.came.delete(unit);
  }
}

const counts = (rows: Rows): number[] =>
  (['good', 'returned', 'scrap', 'inside', 'outside', 'diverted'] as const).map((name) => scalar(rows, name));

describe('in every run', () => {
  test('arrived is good and scrap and inside and held outside and diverted', () => {
    forDays(1, (shifts, replication) => {
      for (const rows of new Rerun(shifts).rows(replication))
        expect(sum(counts(rows))).toBe(scalar(rows, 'arrived'));
    });
  });

  test('what one shift leaves inside and outside has arrived in the next', () => {
    let days = 0;
    forDays(2, (shifts, replication) => {
      const all = new Rerun(shifts).rows(replication);
      for (let k = 1; k < all.length; k++) {
        days++;
        const left = scalar(all[k - 1]!, 'inside') + scalar(all[k - 1]!, 'outside');
        expect(scalar(all[k]!, 'arrived')).toBeGreaterThanOrEqual(left);
      }
    });
    expect(days).toBeGreaterThan(50);
  });

  test('every minute of every person is in one state, and so is every minute of every piece of gear', () => {
    forDays(3, (shifts, replication) => {
      const rerun = new Rerun(shifts);
      rerun.rows(replication).forEach(({ layout, row }, k) => {
        const length = scalar({ layout, row }, 'length');
        const part = (from: number, width: number, index: number): Float64Array =>
          row.subarray(from + index * width, from + (index + 1) * width);
        const { at, personStates, gearStates } = layout;
        layout.people.forEach((_, person) => {
          const own = part(at.personMinutes, personStates, person);
          const after = part(at.personOvertime, personStates, person);
          expect(Math.min(...own, ...after)).toBeGreaterThanOrEqual(0);
          expect(sum(own) + sum(after)).toBeCloseTo(length, 6);
        });
        layout.gear.forEach((_, gear) => {
          const minutes = part(at.gearMinutes, gearStates, gear);
          expect(Math.min(0, ...minutes)).toBe(0);
          expect(sum(minutes)).toBeCloseTo(length * rerun.cells[k]!.gear.items[gear]!, 6);
        });
      });
    });
  });

  test('the area under each line is the sum of the waits in it, and so it is outside', () => {
    let waits = 0;
    forDays(4, (shifts, replication) => {
      const cells = shifts.map(compile);
      const recorders = cells.map((cell) => new Waits(cell.steps.count));
      new CellRun(cells).run(replication, recorders);
      new Rerun(shifts).rows(replication).forEach(({ layout, row }, k) => {
        const length = scalar({ layout, row }, 'length');
        recorders[k]!.inLine.forEach((wait, step) => {
          if (wait > 0) waits++;
          expect(row[layout.at.lineMean + step]! * length).toBeCloseTo(wait / 60_000, 6);
        });
        expect(scalar({ layout, row }, 'outsideMean') * length).toBeCloseTo(
          recorders[k]!.outside / 60_000,
          6,
        );
      });
    });
    expect(waits).toBeGreaterThan(RUNS);
  });

  test('the same replication gives the same row to the bit, alone or after others in the same memory', () => {
    forDays(5, (shifts, replication) => {
      const used = new Rerun(shifts);
      for (let r = 0; r < 3; r++) used.rows(r);
      const alone = new Rerun(shifts).rows(replication);
      const after = used.rows(replication);
      const again = used.rows(replication);
      alone.forEach(({ row }, k) => {
        expect(after[k]!.row).toEqual(row);
        expect(again[k]!.row).toEqual(row);
      });
    });
  });
});

/** By unit, step and visit: the time drawn and the outcome; by unit: its product. */
class Luck extends SilentRecorder {
  readonly times = new Map<string, number>();
  readonly outcomes = new Map<string, string>();
  private readonly visits = new Map<string, number>();

  override arrive(_time: number, unit: number, product: number): void {
    this.outcomes.set(`${unit}`, `product ${product}`);
  }

  override start(
    _time: number,
    unit: number,
    step: number,
    visit: number,
    _person: number,
    _second: number,
    duration: number,
  ): void {
    this.visits.set(`${unit} ${step}`, visit);
    this.times.set(`${unit} ${step} ${visit}`, duration);
  }

  override finish(
    _time: number,
    unit: number,
    step: number,
    _person: number,
    outcome: number,
    branch: number,
  ): void {
    const visit = this.visits.get(`${unit} ${step}`);
    if (visit !== undefined) this.outcomes.set(`${unit} ${step} ${visit}`, `${outcome} ${branch}`);
  }
}

/** Everybody as quick and as careful as the next, so that only luck is left. */
function alike(scenario: Scenario): Scenario {
  const skill = { level: 3, factor: 1, rework: 1 };
  const people = Object.fromEntries(
    Object.entries(scenario.people).map(([id, person]) => [
      id,
      {
        ...person,
        skills: Object.fromEntries(Object.keys(person.skills ?? {}).map((step) => [step, skill])),
      },
    ]),
  );
  return { ...scenario, people };
}

/** Another crew in another order, with more gear and benches and longer racks. */
function rearranged(scenario: Scenario): Scenario {
  const people = Object.fromEntries([
    ['zoe', { covers: Object.keys(scenario.steps).filter((step) => scenario.steps[step]!.kind !== 'wait') }],
    ...Object.entries(scenario.people).reverse(),
  ]);
  const gear = Object.fromEntries(
    Object.entries(scenario.gear ?? {}).map(([id, kind]) => [id, { ...kind, count: kind.count + 1 }]),
  );
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => [
      id,
      step.kind === 'wait'
        ? step
        : {
            ...step,
            benches: (step.benches ?? 1) + 1,
            ...(step.rack === undefined ? {} : { rack: (step.rack ?? 0) + 2 }),
          },
    ]),
  );
  return { ...scenario, people, gear, steps };
}

function luckOf(scenario: Scenario, replication: number): Luck {
  const cell = compile(shiftsOf(scenario)[0]!);
  const luck = new Luck();
  new CellRun([cell]).run(replication, [luck]);
  return luck;
}

describe('with another crew and other gear', () => {
  test('the same unit has the same product, base time and luck at the same step and visit', () => {
    let shared = 0;
    holds(
      fc.property(generatedCells, fc.nat({ max: 1000 }), (scenario, replication) => {
        unlessEndless(() => {
          const one = luckOf(alike(scenario), replication);
          const other = luckOf(rearranged(alike(scenario)), replication);
          for (const of of ['times', 'outcomes'] as const) {
            for (const [what, value] of one[of]) {
              if (!other[of].has(what)) continue;
              shared++;
              expect(`${what}: ${other[of].get(what)!}`).toBe(`${what}: ${value}`);
            }
          }
        });
      }),
      { numRuns: RUNS, seed: 6 },
    );
    expect(shared).toBeGreaterThan(20 * RUNS);
  });
});

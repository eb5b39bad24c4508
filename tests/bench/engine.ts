/**
 * What `npm run bench` measures of a run: shifts a CPU second, memory, how cost grows, what a second thread
 * is worth.
 */
import { readFileSync } from 'node:fs';
import { compile } from '../../src/engine/compile.ts';
import { CellRun } from '../../src/engine/run.ts';
import { DayTally } from '../../src/record/row.ts';
import { runJob } from '../../src/record/job.ts';
import { applyOption, shiftsOf } from '../../src/scenario/options.ts';
import type { Person, Scenario } from '../../src/scenario/schema.ts';
import { threadRunner } from '../../src/work/threads.ts';

export interface Shifts {
  shifts: number;
  /** CPU seconds of this process. */
  seconds: number;
  /**
   * Averages over the shifts: good units, lead time in minutes, units in the line before sanding (0 in a cell
   * without).
   */
  mean: number;
  lead: number;
  sandLine: number;
}

const cell = (name: string): Scenario =>
  JSON.parse(readFileSync(`scenarios/${name}.json`, 'utf8')) as Scenario;

/** Cell K with three clamp sets, rows and pay in, on this thread; replications from `from` on. */
export function runCellK(shifts: number, from: number): Shifts {
  return timed(applyOption(cell('cell-k'), 'third-set'), shifts, from);
}

/**
 * CPU seconds of the first shifts of a process that has run none yet, the core made and the cell compiled.
 */
export function firstShifts(shifts: number): number {
  const day = shiftsOf(applyOption(cell('cell-k'), 'third-set'));
  const began = process.cpuUsage();
  runJob({ shifts: day, from: 0, count: shifts });
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1e6;
}

function timed(scenario: Scenario, shifts: number, from = 0): Shifts {
  const compiled = shiftsOf(scenario).map(compile);
  const run = new CellRun(compiled);
  const day = new DayTally(compiled);
  const rows = day.tallies.map(({ layout }) => new Float64Array(layout.size));
  for (let i = 0; i < Math.min(shifts, 2000); i++) {
    day.run(run, from + i);
    day.write(rows);
  }
  const sand = compiled[0]!.stepIds.indexOf('sand');
  const began = process.cpuUsage();
  let good = 0;
  let lead = 0;
  let line = 0;
  for (let i = 0; i < shifts; i++) {
    day.run(run, from + i);
    day.write(rows);
    const { counts, lineArea } = day.tallies[0]!;
    good += counts.good;
    lead += counts.lead / Math.max(1, counts.good) / 60_000;
    line += sand < 0 ? 0 : lineArea[sand]! / counts.closed;
  }
  const seconds = process.cpuUsage(began).user / 1e6;
  return { shifts, seconds, mean: good / shifts, lead: lead / shifts, sandLine: line / shifts };
}

/**
 * CPU microseconds a shift of a one-step cell with so many units, each taking its share of the day; and of so
 * many people side by side.
 */
export function costOfUnits(units: number, shifts: number): number {
  const scenario: Scenario = {
    format: 1,
    name: 'units',
    steps: { work: { time: { mean: 400 / units, cv: 0.3 } } },
    people: { one: { covers: ['work'] } },
    intake: { kind: 'at start', units },
  };
  const { seconds } = timed(scenario, shifts);
  return (seconds / shifts) * 1e6;
}

/** The same of so many units that wait outside, before a rack of 4 that is emptied one at a time. */
export function costOfOutside(units: number, shifts: number): number {
  const scenario: Scenario = {
    format: 1,
    name: 'outside',
    steps: { work: { time: { mean: 400 / units, cv: 0.3 }, rack: 4 } },
    people: { one: { covers: ['work'] } },
    intake: { kind: 'at start', units },
  };
  return (timed(scenario, shifts).seconds / shifts) * 1e6;
}

/** Of so many steps one after another, somebody at each. */
export function costOfSteps(steps: number, shifts: number): number {
  const names = Array.from({ length: steps }, (_, i) => `s-${i + 1}`);
  const scenario: Scenario = {
    format: 1,
    name: 'steps',
    steps: Object.fromEntries(names.map((name) => [name, { time: { mean: 10, cv: 0.3 } }])),
    people: Object.fromEntries(names.map((name) => [`p-${name}`, { covers: [name] }])),
    intake: { kind: 'beat', every: 12 },
  };
  return (timed(scenario, shifts).seconds / shifts) * 1e6;
}

/** Of so many shifts one after another, what is left over carried on. */
export function costOfDays(days: number, runs: number): number {
  const scenario = applyOption(cell('cell-k'), 'third-set');
  const nextShifts = Array.from({ length: days - 1 }, () => ({}));
  return (timed({ ...scenario, nextShifts }, runs).seconds / runs) * 1e6;
}

export function costOfPeople(people: number, shifts: number): number {
  const crew: Record<string, Person> = Object.fromEntries(
    Array.from({ length: people }, (_, i) => [`p-${i + 1}`, { covers: ['work'] }]),
  );
  const scenario: Scenario = {
    format: 1,
    name: 'people',
    steps: { work: { time: { mean: 10, cv: 0.3 }, benches: people } },
    people: crew,
    intake: { kind: 'at start', units: 40 * people },
  };
  const { seconds } = timed(scenario, shifts);
  return (seconds / shifts) * 1e6;
}

/**
 * Heap in use, MB, after so many shifts, looked at ten times (collected first where the engine of the program
 * lets us).
 */
export function heapOver(shifts: number): number[] {
  const compiled = shiftsOf(applyOption(cell('cell-k'), 'third-set')).map(compile);
  const run = new CellRun(compiled);
  const day = new DayTally(compiled);
  const collect = (globalThis as { gc?: () => void }).gc;
  return Array.from({ length: 10 }, (_, part) => {
    for (let i = 0; i < shifts / 10; i++) day.run(run, (part * shifts) / 10 + i);
    collect?.();
    return process.memoryUsage().heapUsed / 1e6;
  });
}

/** Seconds on the clock for so many shifts in jobs of 200 on so many threads, warmed up. */
export async function onThreads(width: number, shifts: number, entry: URL): Promise<number> {
  const runner = threadRunner({ width, entry });
  const day = shiftsOf(applyOption(cell('cell-k'), 'third-set'));
  const jobs = Array.from({ length: shifts / 200 }, (_, i) => ({ shifts: day, from: i * 200, count: 200 }));
  // Every thread has a compiler of its own to warm up.
  await Promise.all(jobs.slice(0, 20 * width).map((job) => runner.run(job)));
  const began = performance.now();
  await Promise.all(jobs.map((job) => runner.run(job)));
  const seconds = (performance.now() - began) / 1000;
  await runner.close();
  return seconds;
}

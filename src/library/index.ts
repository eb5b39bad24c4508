/**
 * Clampwright as a library: a scenario read and checked, studies of it, the record of one shift. It touches
 * no file, no page and no clock, and runs in node and in a browser, in the thread that asks (in a worker of
 * yours, if that thread has something else to do).
 */
import { recordEvents as recordOf } from '../record/event-record.ts';
import { MEASURE_WORDS } from '../record/describe.ts';
import { VERSION as version } from '../report/version.ts';
import * as check from '../scenario/check.ts';
import { scenarioJsonSchema } from '../scenario/json-schema.ts';
import { applyOption as apply, shiftsOf } from '../scenario/options.ts';
import type { Scenario as File } from '../scenario/schema.ts';
import { comparison, settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { limitsOf } from '../study/loosened.ts';
import { oneMoreOfEach } from '../study/one-more.ts';
import { runStudy as study } from '../study/study.ts';
import { summarize, type PairSummary } from '../study/summary.ts';
import { writeXes } from '../timing/events-xes.ts';
import { inLineRunner } from '../work/in-line.ts';
import type {
  Gain,
  Limits,
  MeasureMeaning,
  Range,
  Reading,
  RecordedEvent,
  Scenario,
  Study,
  StudyAsked,
} from './types.ts';

export type * from './types.ts';

/** Of the package: the same file, seed and version give the same figures, to the last bit. */
export const VERSION: string = version;

/** What is taken at most. */
export const LIMITS: { readonly textLength: number; readonly depth: number; readonly count: number } = {
  /** Characters of a scenario's text. */
  textLength: 10 * 1024 * 1024,
  /** Levels of its JSON. */
  depth: 40,
  /** Shifts of each case of a study. */
  count: 10_000_000,
};

/** Reads a scenario's text (JSON). Never throws: what is wrong comes back as faults. */
export function readScenario(text: string): Reading {
  return check.readScenario(text);
}

/** The same for a value as JSON.parse gives it. Comes out `fine`, it is not copied: do not change it then. */
export function checkScenario(value: unknown): Reading {
  return check.checkScenario(value);
}

/** JSON Schema (2020-12) of a scenario's file. */
export function scenarioSchema(): Record<string, unknown> {
  return scenarioJsonSchema();
}

/** The scenario with one of its options in force. Throws RangeError for an option it does not have. */
export function applyOption(scenario: Scenario, option: string): Scenario {
  return apply(fileOf(scenario), option);
}

/**
 * Plays shifts of the file as it is and with options of it, on the same luck. Throws RangeError for what is
 * asked wrong, and an Error named RunawayError for a shift that never ends.
 */
export async function runStudy(scenario: Scenario, asked: StudyAsked = {}): Promise<Study> {
  const file = seeded(scenario, asked.seed);
  const request = comparison(file, [...(asked.options ?? [])]);
  const runner = inLineRunner();
  const state = await study(
    { ...request, settings: { ...settingsOf(file), ...precisionOf(asked) }, ...countOf(asked) },
    runner,
    ({ look }) => asked.onProgress?.(look.done, look.needed),
    asked.signal,
  );
  const answer = summarize(state);
  return {
    count: answer.count,
    partial: answer.kind === 'partial',
    capped: answer.capped,
    confidence: answer.confidence,
    seed: answer.seed,
    cases: answer.cases.map((one) => ({
      id: one.id,
      name: one.name,
      good: rangeOf(one.good),
      overtimeMinutes: rangeOf(one.overtime),
      cost: rangeOf(one.cost),
      nineInTen: one.spread.nineInTen,
      half: one.spread.half,
      oneInTen: one.spread.oneInTen,
      target: one.target === null ? null : { units: one.target.units, chance: rangeOf(one.target.chance) },
      measures: Object.fromEntries(
        Object.entries(one.measures).map(([name, range]) => [name, rangeOf(range)]),
      ),
    })),
    gains: answer.pairs.map(gainOf),
  };
}

/**
 * One more of each thing (gear, benches, people), or one thing loosened, alone, on the same luck: what each
 * gains, and so what holds the cell back. Throws as `runStudy` does; `options` are not heeded.
 */
export async function findLimits(scenario: Scenario, asked: StudyAsked = {}): Promise<Limits> {
  const file = seeded(scenario, asked.seed);
  const each = await oneMoreOfEach(
    file,
    inLineRunner(),
    { settings: precisionOf(asked), ...countOf(asked) },
    ({ look }) => asked.onProgress?.(look.done, look.needed),
    asked.signal,
    limitsOf(file),
  );
  return {
    count: each.study.count,
    partial: each.study.kind !== 'final',
    limits: each.rows.map(({ id, name, gain, price }) => ({ id, name, good: rangeOf(gain), price })),
    holdsBack: each.constraint,
  };
}

/** Every event of one run, in the order it was carried out in. @param replication from 0, below 2^32. */
export function recordEvents(scenario: Scenario, replication = 0): RecordedEvent[] {
  return recordOf(shiftsOf(fileOf(scenario)), wholeFrom0(replication)).flat();
}

/** The same as XES (IEEE 1849). @param date the day it is dated, "YYYY-MM-DD", since a run has none. */
export function recordXes(scenario: Scenario, date: string, replication = 0): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || Number.isNaN(Date.parse(`${date}T00:00:00Z`)))
    throw new RangeError(`date must be a day such as "2027-03-08", not ${JSON.stringify(date)}`);
  const shifts = shiftsOf(fileOf(scenario));
  const { start, seed } = shifts[0]!;
  return writeXes(recordOf(shifts, wholeFrom0(replication)).flat(), {
    name: scenario.name,
    date,
    start,
    seed,
    replication,
    version,
  });
}

/** What the names under `measures` mean. */
export function measures(): MeasureMeaning[] {
  return MEASURE_WORDS.map(({ name, unit, description }) => ({ name, unit, description }));
}

/** A scenario comes from `readScenario`, `checkScenario` or `applyOption` alone, which give checked files. */
const fileOf = (scenario: Scenario): File => scenario as File;

const seeded = (scenario: Scenario, seed: string | undefined): File =>
  seed === undefined ? fileOf(scenario) : { ...fileOf(scenario), seed };

function precisionOf({ precision }: StudyAsked): { precision?: number } {
  if (precision === undefined) return {};
  if (!(precision > 0)) throw new RangeError(`precision must be over 0, not ${precision}`);
  return { precision };
}

function countOf({ count }: StudyAsked): { count?: number } {
  if (count === undefined) return {};
  if (!Number.isInteger(count) || count < 2 || count > LIMITS.count)
    throw new RangeError(`count must be a whole number from 2 to ${LIMITS.count}, not ${count}`);
  return { count };
}

function wholeFrom0(replication: number): number {
  if (!Number.isInteger(replication) || replication < 0 || replication >= 2 ** 32)
    throw new RangeError(`replication must be a whole number from 0, below 2^32, not ${replication}`);
  return replication;
}

const rangeOf = ({ estimate, low, high, luck, inputs }: Interval): Range => ({
  estimate,
  low,
  high,
  luck,
  inputs,
});

const gainOf = ({ after, good, overtime, cost }: PairSummary): Gain => ({
  id: after,
  good: rangeOf(good),
  overtimeMinutes: rangeOf(overtime),
  cost: rangeOf(cost),
});

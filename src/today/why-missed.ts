/**
 * Why a day missed: from what was planned to what came, one cause at a time. The day is run again with the
 * plan's kits, people, times and rework replaced by the day's own, one after another in a stated order; what
 * each step changes is that cause's part. What then is left between the last run and the number that came is
 * luck. The parts add up to the whole miss by construction; what each is worth depends on the order.
 */
import { shiftsOf } from '../scenario/options.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Intake, Person, Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { settingsOf } from '../study/from-scenario.ts';
import { around, type Interval } from '../study/intervals/interval.ts';
import { runStudy } from '../study/study.ts';
import { summarize } from '../study/summary.ts';

export const CAUSES = ['late kits', 'people', 'times', 'rework', 'luck'] as const;
export type Cause = (typeof CAUSES)[number];

/** What was different that day; what is left out was as planned. */
export interface DayAsItWas {
  good: number;
  /** Arrivals as they came. */
  intake?: Intake;
  out?: string[];
  /** Minutes late, by person. */
  late?: Record<string, number>;
  /** By step: how many times the model's mean the day's mean was. */
  pace?: Record<string, number>;
  /**
   * By step, in the order of its rework in the file: pieces sent back, of so many ended; and pieces scrapped.
   */
  rework?: Record<string, { back: number[]; scrapped: number; of: number }>;
}

export interface MissPart {
  cause: Cause;
  /** Good units; negative: it cost units. */
  units: Interval;
  /** Whether anything was told of it; what nobody told is as planned. Luck is what nothing told explains. */
  told: boolean;
}

export interface WhyMissed {
  planned: Interval;
  good: number;
  parts: MissPart[];
  /** Share of shifts like this day (all causes but luck in) that make so few or fewer. */
  asFew: number;
  count: number;
}

/** Throws and stops as `runStudy`. */
export async function whyMissed(
  scenario: Scenario,
  day: DayAsItWas,
  runner: Runner,
  signal?: AbortSignal,
): Promise<WhyMissed> {
  const plain: Scenario = { ...scenario, nextShifts: [] };
  const kits = day.intake === undefined ? plain : { ...plain, intake: day.intake };
  const people = withPeople(kits, day);
  const times = withPace(people, day.pace ?? {});
  const rework = withRework(times, day.rework ?? {});
  const cases = [plain, kits, people, times, rework].map((one, i) => ({
    id: `${i}`,
    name: i === 0 ? 'as planned' : CAUSES[i - 1]!,
    shifts: shiftsOf(one),
  }));
  const pairs = [0, 1, 2, 3].map((before) => ({ before, after: before + 1 }));
  const summary = summarize(
    await runStudy({ cases, pairs, settings: settingsOf(scenario) }, runner, undefined, signal),
  );
  const last = summary.cases.at(-1)!;
  const luck = around(day.good - last.good.estimate, last.good.half, last.good.count, last.good.confidence);
  const told = toldOf(day);
  const parts = pairs.map((_, i): MissPart => ({
    cause: CAUSES[i]!,
    units: summary.pairs[i]!.good,
    told: told[i]!,
  }));
  const more = last.spread.reached.find(({ value }) => value > day.good)?.share ?? 0;
  return {
    planned: summary.cases[0]!.good,
    good: day.good,
    parts: [...parts, { cause: 'luck', units: luck, told: false }],
    asFew: 1 - more,
    count: summary.count,
  };
}

/** Of kits, people, times and rework, which the day says something of. */
function toldOf({ intake, out, late, pace, rework }: DayAsItWas): boolean[] {
  const any = (group: object | undefined): boolean => Object.keys(group ?? {}).length > 0;
  return [intake !== undefined, out !== undefined || late !== undefined, any(pace), any(rework)];
}

function withPeople(scenario: Scenario, day: DayAsItWas): Scenario {
  const people = Object.fromEntries(
    Object.entries(scenario.people).map(([id, person]): [string, Person] => {
      if (day.out?.includes(id) === true) return [id, { ...person, attendance: { percent: 0 } }];
      const late = day.late?.[id] ?? 0;
      const { attendance: _drawn, ...rest } = person;
      return [id, late > 0 ? { ...rest, attendance: { late } } : rest];
    }),
  );
  return { ...scenario, people };
}

/** The day's times: every product at the step, by the factor its mean was off. */
function withPace(scenario: Scenario, pace: Record<string, number>): Scenario {
  const products = Object.fromEntries(
    resolve(scenario).products.map(({ id, tasks }) => {
      const product = scenario.products?.[id];
      const factors = { ...product?.factors };
      for (const [step, factor] of Object.entries(pace)) factors[step] = (tasks[step]?.factor ?? 1) * factor;
      return [id, { ...product, factors }];
    }),
  );
  return Object.keys(pace).length === 0 ? scenario : { ...scenario, products };
}

function withRework(scenario: Scenario, day: NonNullable<DayAsItWas['rework']>): Scenario {
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => {
      const seen = day[id];
      if (seen === undefined || seen.of === 0) return [id, step];
      const rework =
        step.rework?.map((one, i) => ({ ...one, percent: (100 * (seen.back[i] ?? 0)) / seen.of })) ?? [];
      return [id, { ...step, rework, scrap: (100 * seen.scrapped) / seen.of }];
    }),
  );
  return { ...scenario, steps };
}

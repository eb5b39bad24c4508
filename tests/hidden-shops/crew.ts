/**
 * The crew's promise: the crew is planned on a lead's file of a hidden shop, and the planned posts are then
 * worked day after day in the true shop. Is the promised level made as often as was said?
 */
import { readScenario } from '../../src/scenario/check.ts';
import { minutesAfter } from '../../src/scenario/clock.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { planCrew, type CrewPlan } from '../../src/staffing/plan-crew.ts';
import { baseCase, settingsOf } from '../../src/study/from-scenario.ts';
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { fileOf } from './lead.ts';
import { CREW_ROW, type HiddenShop } from './rows.ts';
import { goodUnits, Luck, WORKED, type Plan, type Worked } from './simulator.ts';

/** Clamp sets of these cells, and kits in front of them: people, not gear or work, are what is short. */
const SETS = 3;
const KITS = 150;

/** What somebody at a post can do besides, for the planner to choose from. */
const CAN: Record<string, Worked[]> = {
  fitter: ['fit', 'glue', 'unclamp'],
  gluer: ['glue', 'unclamp'],
  sander: ['unclamp', 'sand', 'check'],
  checker: ['sand', 'check'],
};

export interface Promised {
  /** What was promised, and how often it was said to be made (0 to 1). */
  level: number;
  claimed: number;
  /** Share of the true days that made it with the planned posts. */
  came: number;
  kind: CrewPlan['kind'];
  /** Somebody stands otherwise than in the file. */
  moved: boolean;
  /** With a number due: what the file's own posts make half the time. */
  due: boolean;
}

/** @param shop odd ones have a number due, the others are asked for the most that can be promised. */
export async function oneCrew(shop: number, trueDays: number): Promise<Promised> {
  const luck = new Luck(7919 * (shop + 400_000) + 17);
  const hidden = CREW_ROW.shop(luck);
  const scenario = forPlanning(fileOf(hidden, 'timed', shop, luck).scenario);
  const due = shop % 2 === 1;
  const target = due ? await halfTheTime(scenario) : null;
  const plan = await planCrew({ scenario, target }, inLineRunner(), { moves: 0, oneMore: 0, absence: 0 });
  const posts = plannedPosts(plan.scenario, hidden);
  const level = plan.promise ?? 0;
  const days = Array.from({ length: trueDays }, () => goodUnits(hidden.truth, SETS, luck, posts));
  return {
    level,
    claimed: plan.promiseChance?.estimate ?? NaN,
    came: days.filter((good) => good >= level).length / trueDays,
    kind: plan.kind,
    moved: !plan.filed.isPlan,
    due,
  };
}

function forPlanning(file: Scenario): Scenario {
  const people = Object.fromEntries(
    Object.entries(file.people).map(([id, person]) => [
      id,
      { ...person, skills: Object.fromEntries(CAN[id.split('-')[0]!]!.map((step) => [step, 3])) },
    ]),
  );
  const steps = Object.fromEntries(
    Object.entries(file.steps).map(([id, step]) => [
      id,
      step.kind === 'wait' ? step : { ...step, benches: Object.keys(people).length },
    ]),
  );
  const gear = { clamp: { ...file.gear!['clamp']!, count: SETS } };
  const reading = readScenario(
    JSON.stringify({ ...file, people, steps, gear, intake: { kind: 'at start', units: KITS } }),
  );
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

async function halfTheTime(scenario: Scenario): Promise<number> {
  const request = { cases: [baseCase(scenario)], pairs: [], settings: settingsOf(scenario), count: 200 };
  return summarize(await runStudy(request, inLineRunner())).cases[0]!.spread.half;
}

/** The sheet of the wall as the true shop works it. */
function plannedPosts(scenario: Scenario, { truth, crew }: HiddenShop): Plan {
  const shift = resolve(scenario);
  const factors = new Map(
    (['fit', 'glue', 'sand', 'check'] as const).flatMap((post) =>
      crew[post].map((name, i) => [name, truth.people[post][i]!] as const),
    ),
  );
  return {
    people: shift.people.map(({ id, cover, rule }) => ({
      factor: factors.get(id)!,
      posts: cover.map(({ from, steps }) => ({ from, steps: steps as Worked[] })),
      oldest: rule === 'oldest',
    })),
    lastStart: Object.fromEntries(
      WORKED.flatMap((step) => {
        const last = scenario.steps[step]!.lastStart;
        return last === undefined ? [] : [[step, minutesAfter(shift.start, last)]];
      }),
    ),
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** The table of `npm run hidden-shops -- --crew`. True where promises are kept, but for chance (at 99 %). */
export function crewTable(all: readonly Promised[]): { lines: string[]; good: boolean } {
  const rows: [string, Promised[]][] = [
    ['the most that can be promised', all.filter(({ due }) => !due)],
    ['a number due, made half the time by the file’s own posts', all.filter(({ due }) => due)],
    ['all', [...all]],
  ];
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, one) => sum + one, 0) / values.length;
  const lines = rows.map(([name, of]) => {
    const [claimed, came] = [mean(of.map((one) => one.claimed)), mean(of.map((one) => one.came))];
    const error = Math.sqrt(mean(of.map((one) => (one.came - came) ** 2)) / Math.max(1, of.length - 1));
    const moved = of.filter((one) => one.moved).length;
    return `| ${name} (${of.length}) | ${percent(claimed)} | ${percent(came)} ± ${percent(1.96 * error)} | ${moved} |`;
  });
  const kept = all.reduce((sum, { came }) => sum + came, 0);
  return {
    lines: [
      '| asked for | promised to be made | was made | plans that move somebody |',
      '| --- | --: | --: | --: |',
      ...lines,
    ],
    good: chanceInterval(Math.round(kept), all.length, 0.99).high >= mean(all.map(({ claimed }) => claimed)),
  };
}

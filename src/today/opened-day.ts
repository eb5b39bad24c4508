/**
 * A day of the book as the pages and commands of that day take it up: the cell on that day by its calendar,
 * with what was handed over as its opening stock and the plan that was put into the book.
 */
import { dayOf, handoverBefore, type Day } from '../book/day.ts';
import type { Entry } from '../book/entry.ts';
import type { Content } from '../book/kinds.ts';
import { minutesToStart, nextWorkingDay, scenarioOn } from '../scenario/calendar.ts';
import { checkScenario } from '../scenario/check.ts';
import { diffPatch } from '../scenario/merge-patch.ts';
import { applyChanges } from '../scenario/options.ts';
import { resolve } from '../scenario/resolve.ts';
import { stampOf } from '../scenario/stamp.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { CrewPlan } from '../staffing/plan-crew.ts';
import type { TriedChange } from '../staffing/try-change.ts';
import type { Spread } from '../study/spread.ts';
import { checkOpening } from './check-now.ts';

export interface OpenedDay {
  day: string;
  /** What the book says of it. */
  view: Day;
  /** The cell on that day, opening stock in, posts as the file has them: what a plan is made of. */
  unplanned: Scenario;
  /** The same with the plan of the book, where there is one. */
  scenario: Scenario;
  /** What the opening stock is from: the day that handed over, or the file. */
  opening: { kind: 'handover'; day: string } | { kind: 'file' };
  /** The plan, and whether it was made of the cell as it is now. */
  plan: { content: Content<'plan'>; current: boolean } | null;
  /** In words: what of the book could not be used, and why. */
  unused: string[];
}

/** Plain data in, plain data out. The scenario is a checked one, with its calendar. */
export function openedDay(scenario: Scenario, entries: readonly Entry[], day: string): OpenedDay {
  const { nextShifts: _next, ...file } = scenario;
  const on = scenarioOn(file, day);
  const view = dayOf(entries, day, resolve(on).start);
  const unused: string[] = [];
  const stock = openingOf(file, entries, day, on, unused);
  const unplanned = stock === null ? on : { ...on, ...stock.opening };
  const content = view.plan?.content ?? null;
  const planned = content === null ? null : withPlan(unplanned, content, unused);
  return {
    day,
    view,
    unplanned,
    scenario: planned ?? unplanned,
    opening: stock === null ? { kind: 'file' } : { kind: 'handover', day: stock.day },
    plan:
      content === null || planned === null
        ? null
        : { content, current: content.of === undefined || content.of === stampOf(on) },
    unused,
  };
}

/** What the working day before handed over; null where it did not, or its count cannot be. */
function openingOf(
  file: Scenario,
  entries: readonly Entry[],
  day: string,
  on: Scenario,
  unused: string[],
): { day: string; opening: Pick<Scenario, 'carryOver' | 'holds' | 'outRack'> } | null {
  const before = handoverBefore(entries, day);
  // One of an earlier day is of a cell that has been worked in since.
  if (before === null || nextWorkingDay(file, before.entry.day) !== day) return null;
  const { at, good, goodByHour, inside, holds, out, broken, outRack } = before.content;
  const between = minutesToStart(at, before.entry.day, day, resolve(on).start, resolve(file).start);
  const given = { at, good, goodByHour, inside, holds, out, broken, outRack };
  const known = Object.fromEntries(Object.entries(given).filter(([, one]) => one !== undefined));
  const checked = checkOpening(scenarioOn(file, before.entry.day), known, between);
  if (checked.kind === 'wrong') {
    unused.push(`The handover of ${before.entry.day} does not fit the cell: ${checked.faults.join(' ')}`);
    return null;
  }
  const { carryOver, holds: held, outRack: racks } = checked.rest;
  return {
    day: before.entry.day,
    opening: { carryOver, holds: held, ...(racks === undefined ? {} : { outRack: racks }) },
  };
}

function withPlan(unplanned: Scenario, content: Content<'plan'>, unused: string[]): Scenario | null {
  const reading = checkScenario(applyChanges(unplanned, content.changes));
  if (reading.kind === 'fine') return reading.scenario;
  unused.push(
    `The plan of this day does not fit the cell any more: ${reading.faults.map(({ text }) => text).join(' ')}`,
  );
  return null;
}

/** A sheet and what it makes: the planner's, or one changed by hand. */
export interface Sheet {
  /** The day with the sheet in it. */
  scenario: Scenario;
  target: number | null;
  promise: { units: number; chance: number } | null;
  chance: number | null;
  /** What nine shifts in ten, half, and one in ten make. */
  spread: Pick<Spread, 'nineInTen' | 'half' | 'oneInTen'>;
}

export const plannedSheet = (plan: CrewPlan): Sheet => ({
  scenario: plan.scenario,
  target: plan.target,
  promise:
    plan.promise === null || plan.promiseChance === null
      ? null
      : { units: plan.promise, chance: plan.promiseChance.estimate },
  chance: plan.chance?.estimate ?? null,
  spread: plan.study.cases[0]!.spread,
});

/** The planner's sheet with a change by hand, as it was tried. */
export function changedSheet(
  plan: CrewPlan,
  change: Record<string, unknown>,
  tried: Extract<TriedChange, { kind: 'tried' }>,
): Sheet {
  return {
    scenario: applyChanges(plan.scenario, change),
    target: plan.target,
    promise: null,
    chance: tried.chances?.[1].estimate ?? null,
    spread: tried.study.cases[1]!.spread,
  };
}

/** What a plan says of a day: who, where, when and what is promised. `unplanned`: what it was made of. */
export function planSaid(
  unplanned: Scenario,
  { scenario, target, promise }: Sheet,
  answer: string[],
): Content<'plan'> {
  const { options: _options, ...base } = unplanned;
  const { people, steps, shift, limits } = scenario;
  const planned: Scenario = { ...base, people, steps, ...(limits === undefined ? {} : { limits }) };
  if (shift !== undefined) planned.shift = shift;
  const changes = diffPatch(base, planned) as Record<string, unknown>;
  return { changes, target, promise, answer, of: stampOf(unplanned) };
}

/** What a sheet forecasts of its day. */
export const forecastSaid = ({ scenario, target, chance, spread }: Sheet): Content<'forecast'> => ({
  forecast: { p10: spread.nineInTen, p50: spread.half, p90: spread.oneInTen, chance },
  target,
  start: resolve(scenario).start,
});

/**
 * The first page of a day, six lines: the promise, who stands elsewhere than usual, what to watch and when,
 * what is due, yesterday's forecast beside what came, what is on hold.
 */
import { dayOf } from '../book/day.ts';
import { standing } from '../book/standing.ts';
import type { Entry } from '../book/entry.ts';
import type { Block, Page } from '../document/document.ts';
import { absentOn, dayWords, ordersFrom } from '../scenario/calendar.ts';
import { clockAfter } from '../scenario/clock.ts';
import { diffPatch } from '../scenario/merge-patch.ts';
import { describeChanges } from '../scenario/options.ts';
import { nameOf, resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { OpenedDay } from '../today/opened-day.ts';
import { counted, fixed, listed, percent, plain } from '../words/words.ts';

/** Where a line leads: a page of the planner. */
export type MorningLink = 'crew' | 'now' | 'handover' | 'log' | 'cell';

export interface MorningLine {
  what: string;
  text: string;
  to: MorningLink;
}

/** `filed` is the cell with its calendar; `entries` the whole book. */
export function morningLines(filed: Scenario, entries: readonly Entry[], opened: OpenedDay): MorningLine[] {
  return [
    { what: 'Promise', text: promiseLine(opened), to: 'crew' },
    { what: 'Elsewhere', text: elsewhereLine(filed, opened), to: 'crew' },
    { what: 'Watch', text: watchLine(opened), to: 'now' },
    { what: 'Due', text: dueLine(filed, opened), to: 'cell' },
    { what: 'Last time', text: beforeLine(entries, opened.day), to: 'log' },
    { what: 'On hold', text: holdLine(opened), to: 'handover' },
  ];
}

/** The day in one sentence: "Monday 8 March 2027: 20 good are promised, with a chance of 75 %." */
export function morningAnswer({ day, plan }: OpenedDay): string {
  const promise = plan?.content.promise;
  if (plan === null) return `${dayWords(day)} has no plan yet.`;
  return promise == null
    ? `${dayWords(day)} has a plan, and nothing is promised.`
    : `${dayWords(day)}: ${plain(promise.units)} good are promised, with a chance of ${percent(promise.chance)}.`;
}

export function morningPage(filed: Scenario, entries: readonly Entry[], opened: OpenedDay): Page {
  const title = `${filed.name}, ${dayWords(opened.day)}`;
  const lines = morningLines(filed, entries, opened);
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: title },
    { kind: 'facts', facts: lines.map(({ what, text }) => ({ name: what, value: text })) },
  ];
  return { title, blocks };
}

function promiseLine({ plan, view }: OpenedDay): string {
  if (plan === null) return 'No plan was put into this day.';
  const { promise, target } = plan.content;
  const old = plan.current ? '' : ' The plan was made of an older cell: plan again.';
  const due = target == null ? '' : ` Due are ${plain(target)}${chanceWords(view)}.`;
  if (promise == null) return `Nothing was promised.${due}${old}`;
  return `${plain(promise.units)} good, with a chance of ${percent(promise.chance)}.${due}${old}`;
}

function chanceWords({ forecast }: OpenedDay['view']): string {
  const chance = forecast?.content.forecast.chance;
  return chance == null ? '' : `, with a chance of ${percent(chance)}`;
}

/** Against the posts of the file, as they are on any day. */
function elsewhereLine(filed: Scenario, { day, scenario }: OpenedDay): string {
  const { people } = resolve(filed);
  const out = [...absentOn(filed, day)].map(([id, why]) => `${nameOf(people, id)} is out (${why})`);
  const posts = (one: Scenario): Scenario => ({ ...one, people: coversOnly(one) });
  const changes = diffPatch(posts(filed), { ...posts(filed), people: coversOnly(scenario) });
  const moved = describeChanges(posts(filed), changes as Record<string, unknown>);
  const all = [...out, ...moved];
  return all.length === 0 ? 'Everybody stands where they usually do.' : `${all.join('; ')}.`;
}

/** People with nothing but their posts. */
const coversOnly = (scenario: Scenario): Scenario['people'] =>
  Object.fromEntries(
    Object.entries(scenario.people).map(([id, { name, covers, changes }]) => [
      id,
      {
        ...(name === undefined ? {} : { name }),
        ...(covers === undefined ? {} : { covers }),
        ...(changes === undefined ? {} : { changes }),
      },
    ]),
  );

function watchLine({ scenario }: OpenedDay): string {
  const shift = resolve(scenario);
  const clock = (minute: number): string => clockAfter(shift.start, minute);
  const last = shift.steps.flatMap((step) =>
    step.lastStart === null ? [] : [`no ${step.name} is begun after ${clock(step.lastStart)}`],
  );
  const out = shift.gear.flatMap((gear) =>
    gear.out.map((one) => `${one.items} ${gear.name} out from ${clock(one.from)} for ${one.minutes} min`),
  );
  const curing = shift.carryOver
    .filter((piece) => piece.state === 'curing')
    .map((piece) => `“${nameOf(shift.steps, piece.at)}” is over at ${clock(Math.ceil(piece.minutes ?? 0))}`);
  const all = [...last, ...out, ...curing];
  return all.length === 0 ? 'Nothing in particular.' : `${all.join('; ')}.`;
}

function dueLine(filed: Scenario, { day, scenario }: OpenedDay): string {
  const orders = ordersFrom(filed, day).filter((order) => order.day <= day);
  const today = orders.filter((order) => order.due === day);
  const later = orders.filter((order) => order.due > day);
  const { target } = resolve(scenario);
  const said = [
    ...(target === null ? [] : [`${plain(target)} good by the end of the shift`]),
    ...today.map((order) => `${order.name} (${counted(order.units, 'piece')}) today`),
    ...later.map((order) => `${order.name} (${counted(order.units, 'piece')}) by ${dayWords(order.due)}`),
  ];
  return said.length === 0 ? 'Nothing is due.' : `${said.join('; ')}.`;
}

function beforeLine(entries: readonly Entry[], day: string): string {
  const results = standing(entries).filter((one) => one.kind === 'result' && one.day < day);
  const last = results
    .map((one) => one.day)
    .sort()
    .at(-1);
  const before = last === undefined ? null : dayOf(entries, last);
  if (before?.result == null) return 'No result of an earlier day is in the book.';
  const { good } = before.result.content;
  const came = `${dayWords(before.day)}: ${counted(good, 'good unit')}`;
  if (before.forecast === null) return `${came}; nothing was forecast.`;
  const { p10, p50, p90 } = before.forecast.content.forecast;
  const off = good - p50;
  const side =
    off === 0
      ? 'as the middle of the forecast'
      : `${fixed(Math.abs(off), 0)} ${off < 0 ? 'under' : 'over'} the middle of the forecast`;
  const late = before.forecast.late ? ', which was made after the shift began' : '';
  return `${came}, ${side} (${plain(p10)} to ${plain(p90)})${late}.`;
}

function holdLine({ view }: OpenedDay): string {
  const held = view.holds.map(
    ({ content }) => `${content.name}${content.whose === undefined ? '' : ` (${content.whose} decides)`}`,
  );
  return held.length === 0 ? 'Nothing is on hold.' : `${listed(held)}.`;
}

/** A week on one page: each day's crew and pieces, hours by person, orders with the chance of being out. */
import type { Block, Page } from '../document/document.ts';
import { cautionPart } from './pages/foot.ts';
import { cautionsFor } from '../scenario/cautions.ts';
import { absentOn, dayWords, shortDay } from '../scenario/calendar.ts';
import { minutesOfClock, clockOfMinutes } from '../scenario/clock.ts';
import { daysOn } from '../scenario/days.ts';
import { nameOf, resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { OrderAnswer, PushedBack, WeekAnswer } from '../today/week.ts';
import type { LevelRange } from '../study/level-range.ts';
import { chanceWithRange, levelCells } from '../words/study-words.ts';
import { counted, duration, fixed, listed, percent, plain } from '../words/words.ts';

export interface WeekTold {
  /** The cell with its calendar. */
  scenario: Scenario;
  week: WeekAnswer;
}

const text = (words: string): Block => ({ kind: 'paragraph', text: words });
const part = (words: string): Block => ({ kind: 'heading', level: 2, text: words });
export function weekPage({ scenario, week }: WeekTold): Page {
  const title = `${scenario.name}: the week from ${dayWords(week.days[0]!.day)}`;
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: weekAnswer(week) },
      text(openingWords(week)),
      dayTable(scenario, week),
      ...orderBlocks(week),
      ...rushBlocks(week),
      part('Hours and overtime'),
      hoursTable(week),
      ...hoursNotes(week),
      ...cautionPart(cautionsFor(scenario)),
    ],
  };
}

/** "Nine weeks in ten make 92, half 97": the sum of the days, as they follow each other. */
export function weekAnswer({ total, days, orders }: WeekAnswer): string {
  const { nineInTen, half, oneInTen } = total.spread;
  const sum = `${counted(days.length, 'day')} make ${plain(nineInTen)} good pieces nine times in ten, half the time ${plain(half)}, one time in ten ${plain(oneInTen)}`;
  const told = orders.flatMap(({ order, chance }) => (chance === null ? [] : [{ order, chance }]));
  const worst = told.reduce<(typeof told)[number] | null>(
    (least, one) => (least === null || one.chance.estimate < least.chance.estimate ? one : least),
    null,
  );
  if (worst === null) return sum;
  return `${sum}; ${told.length === 1 ? 'the order' : 'of the orders'} ${worst.order.name} is ${told.length === 1 ? '' : 'least sure, '}out in time with a chance of ${percent(worst.chance.estimate)}`;
}

function openingWords({ opening, days, count }: WeekAnswer): string {
  const stock =
    opening.kind === 'file'
      ? 'It opens with the stock of the file'
      : `It opens with what ${dayWords(opening.day)} handed over`;
  const planned = days.some(({ crew }) => crew === 'planned')
    ? ' Crews not in the book are planned for this answer, by the rules of any day, from that stock.'
    : '';
  return `${stock}; what stands over each night is carried into the next day. ${plain(count)} weeks were run.${planned}`;
}

const CREWS = { book: 'plan of the book', planned: 'planned', file: 'as in the file' };

function dayTable(scenario: Scenario, { days, shifts }: WeekAnswer): Block {
  const rows = days.map(({ day, crew }, i) => {
    const shift = shifts[i]!;
    const out = [...absentOn(scenario, day).keys()].map((id) => nameOf(resolve(scenario).people, id));
    const due = resolve(days[i]!.scenario).target;
    return [
      shortDay(day),
      `${CREWS[crew]}${out.length === 0 ? '' : `, without ${listed(out)}`}`,
      ...levelCells(shift.goodSpread),
      due === null ? '' : `${plain(due)}: ${chanceWithRange(shift.scalars.targetMet)}`,
      fixed(shift.scalars.inside.estimate, 1),
      fixed(shift.scalars.overtime.estimate, 0),
    ];
  });
  return {
    kind: 'table',
    head: ['Day', 'Crew', 'Nine in ten', 'Half', 'One in ten', 'Chance', 'Over night', 'Overtime'],
    rows,
    align: ['left', 'left', 'right', 'right', 'right', 'right', 'right', 'right'],
    caption:
      'Good pieces, and the chance of what is due, with ranges; pieces in the cell over the night and minutes of overtime of all people, on average.',
  };
}

function orderBlocks(week: WeekAnswer): Block[] {
  const { orders } = week;
  if (orders.length === 0) return [];
  return [
    part('Orders'),
    {
      kind: 'table',
      head: ['Order', 'Pieces', 'Due', 'Out in time', 'Half out by', 'Nine in ten out by'],
      rows: orders.map((one) => orderRow(week, one)),
      align: ['left', 'right', 'left', 'right', 'left', 'left'],
    },
    ...orders
      .filter(({ scrapped }) => scrapped > 0)
      .map(({ order, scrapped }) =>
        text(
          `In ${percent(scrapped)} of the weeks a piece of ${order.name} was scrapped: it is then not out whole.`,
        ),
      ),
  ];
}

function orderRow(week: WeekAnswer, { order, chance, out }: OrderAnswer): string[] {
  return [
    `${order.name}${order.rush === true ? ' (rush)' : ''}`,
    String(order.units),
    `${shortDay(order.due)}${order.dueAt === undefined ? '' : `, ${order.dueAt}`}`,
    chance === null ? 'due after this week' : chanceWithRange(chance),
    momentBetween(week, out.half, out.ranges.half),
    momentBetween(week, out.nineInTen, out.ranges.nineInTen),
  ];
}

/** Minutes from the first day's start as a day and a clock time. */
export function momentOf({ days }: Pick<WeekAnswer, 'days'>, minutes: number): string {
  if (!Number.isFinite(minutes)) return 'not this week';
  const start = minutesOfClock(resolve(days[0]!.scenario).start);
  const at = start + Math.ceil(minutes);
  return `${shortDay(daysOn(days[0]!.day, Math.floor(at / 1440)))}, ${clockOfMinutes(at)}`;
}

/** "Tue 9 Mar, 14:20 (13:55 to 14:40)". */
function momentBetween(week: WeekAnswer, minutes: number, { low, high }: LevelRange): string {
  const [from, at, to] = [low, minutes, high].map((one) => momentOf(week, one)) as [string, string, string];
  if (from === to || Number.isNaN(low) || low === -Infinity) return at;
  const day = at.replace(/, .*/, ', ');
  const short = (moment: string): string => (moment.startsWith(day) ? moment.slice(day.length) : moment);
  return `${at} (${short(from)} to ${short(to)})`;
}

function rushBlocks(week: WeekAnswer): Block[] {
  return week.pushedBack.flatMap((one) => [
    part(`What ${one.rush} pushes back`),
    { kind: 'list' as const, items: rushSentences(week, one) },
  ]);
}

/** When a rush order is out itself, and what it costs the others. */
export function rushSentences(week: WeekAnswer, pushed: PushedBack): string[] {
  const own = week.orders.find(({ order }) => order.name === pushed.rush)!;
  const { others } = pushed;
  const itself = `${pushed.rush} itself is out by ${momentOf(week, own.out.half)} half the time, by ${momentOf(week, own.out.nineInTen)} nine times in ten.`;
  const pieces =
    others.high < 0
      ? `It costs ${fixed(-others.estimate, 1)} other good pieces over these days (${fixed(-others.high, 1)} to ${fixed(-others.low, 1)}).`
      : others.low > 0
        ? `With it ${fixed(others.estimate, 1)} more other pieces come out over these days (${fixed(others.low, 1)} to ${fixed(others.high, 1)}).`
        : `What it costs in other pieces over these days these runs cannot see (${fixed(others.low, 1)} to ${fixed(others.high, 1)}).`;
  const orders = pushed.orders.map(({ name, minutes, before, after }) => {
    const chance =
      before === null || after === null
        ? ''
        : ` Its chance goes from ${percent(before.estimate)} to ${percent(after.estimate)}.`;
    if (minutes === null) return `${name} is out too seldom to say what it is pushed back.${chance}`;
    if (minutes.low > 0)
      return `${name} is pushed back ${duration(Math.round(minutes.estimate))} on average (${fixed(minutes.low, 0)} to ${fixed(minutes.high, 0)} min).${chance}`;
    return minutes.high < 0
      ? `${name} is out ${duration(Math.round(-minutes.estimate))} earlier on average.${chance}`
      : `${name} is pushed back by nothing these runs can see (${fixed(minutes.low, 0)} to ${fixed(minutes.high, 0)} min).${chance}`;
  });
  return [itself, pieces, ...orders];
}

function hoursTable({ days, hours }: WeekAnswer): Block {
  return {
    kind: 'table',
    head: ['', ...days.map(({ day }) => shortDay(day)), 'Hours', 'Overtime, min', 'At a premium, h'],
    rows: hours.map((one) => [
      one.name,
      ...one.days.map((value) => (Number.isNaN(value) ? 'out' : fixed(value, 1))),
      fixed(one.hours, 1),
      fixed(one.overtimeMinutes, 0),
      fixed(one.premiumHours, 1),
    ]),
    align: ['left', ...days.map(() => 'right' as const), 'right', 'right', 'right'],
    caption:
      'Paid hours on average; a premium where the day’s or the week’s threshold of the file is passed.',
  };
}

function hoursNotes({ days, hours }: WeekAnswer): Block[] {
  const reached = hours.filter(({ reachedOn, threshold }) => reachedOn !== null && threshold !== null);
  if (reached.length === 0)
    return [text('Nobody reaches the hours of the week at which overtime pay begins.')];
  const byDay = new Map<string, string[]>();
  for (const { name, reachedOn, threshold } of reached) {
    const when = `${plain(threshold!)} h on ${shortDay(days[reachedOn!]!.day)}`;
    byDay.set(when, [...(byDay.get(when) ?? []), name]);
  }
  const said = [...byDay].map(([when, names]) => {
    const who = names.length === hours.length && names.length > 1 ? 'Everybody' : listed(names);
    return `${who} ${names.length === 1 || who === 'Everybody' ? 'reaches' : 'reach'} ${when}`;
  });
  return [text(`${said.join('; ')}: more is paid at a premium. Local law and agreements rule.`)];
}

/**
 * Was the forecast right? Forecast and fact side by side, how often the ranges held, which times have moved;
 * and why a day missed.
 */
import type { Scenario } from '../scenario/schema.ts';
import type { MissPart, WhyMissed } from '../today/why-missed.ts';
import type { Drift } from '../timing/drift.ts';
import { coverageOfBook, type LogBook, type LogDay } from '../timing/log-book.ts';
import type { LogCoverage } from '../timing/log-coverage.ts';
import type { Block, Page } from '../document/document.ts';
import { hasMoved } from '../timing/new-times.ts';
import { driftSentence, placeName } from '../words/times-words.ts';
import { capitalized, counted, fixed, listed, percent, plain, rangeText } from '../words/words.ts';

export interface LogTold {
  /** Null where only the log is at hand: drift cannot be told then. */
  scenario: Scenario | null;
  log: LogBook;
  drifts: Drift[];
}

const MOST_DAYS = 30;

export function logPage({ scenario, log, drifts }: LogTold): Page {
  const coverage = coverageOfBook(log);
  const days = log.days.slice(-MOST_DAYS);
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: `${coverageAnswer(coverage)}${driftAnswer(scenario, drifts)}` },
    { kind: 'list', items: coverageSentences(coverage) },
    { kind: 'heading', level: 2, text: 'Forecast and fact' },
    days.length === 0
      ? { kind: 'paragraph', text: 'Nothing is in the log yet.' }
      : dayTable(days, log.days.length),
    ...overTime(coverage),
    ...(scenario === null || drifts.length === 0 ? [] : driftBlocks(scenario, drifts)),
  ];
  return { title: `Log${log.cell === undefined ? '' : `: ${log.cell}`}`, blocks };
}

function coverageAnswer(coverage: LogCoverage): string {
  const { count, inside, verdict } = coverage;
  if (count === 0) return 'No shift has both a forecast and a number yet';
  const leans = leanAnswer(coverage);
  if (leans !== null) return leans;
  const held = `${inside} of ${counted(count, 'shift')} came within the range given before`;
  if (verdict === 'too narrow') return `${held}: the ranges are too narrow`;
  if (verdict === 'too wide') return `${held}: the ranges are wider than need be`;
  return verdict === 'holds' ? `${held}, about as many as should` : `${held}: too few to say more`;
}

/** What has moved belongs to the answer: it is what to do about the forecasts. */
function driftAnswer(scenario: Scenario | null, drifts: Drift[]): string {
  const moved = scenario === null ? [] : drifts.filter(hasMoved);
  if (scenario === null || moved.length === 0) return '';
  const names = moved
    .slice(0, 3)
    .map((one) => `${placeName(scenario, one)} takes ${fixed(one.ratio, 2)} times the file’s minutes`);
  const more = moved.length > 3 ? [`${moved.length - 3} more have moved`] : [];
  return `; ${listed([...names, ...more])}: use the new times`;
}

/** A run this long on one side of the middle is chance once in sixteen times at most. */
const LONG_RUN = 5;

/** On which side the forecasts miss, where that is sure; null where it is not. */
function leanAnswer({ lean, run, count, verdict, inside }: LogCoverage): string | null {
  if (verdict === 'too few to say' || !(lean.low > 0 || lean.high < 0)) return null;
  const { estimate } = lean;
  const size = `The forecasts run ${fixed(Math.abs(estimate), 1)} too ${estimate < 0 ? 'high' : 'low'}`;
  const side = estimate < 0 ? 'under' : 'over';
  return run !== null && run.count >= LONG_RUN && run.side === side
    ? `${size}; the last ${run.count} all came ${side}`
    : `${size}; ${inside} of ${counted(count, 'shift')} came within the range given before`;
}

/** What the forecasts were worth, in words. */
export function coverageSentences({
  count,
  share,
  claimed,
  below,
  above,
  bias,
  target,
}: LogCoverage): string[] {
  if (count === 0)
    return ['A range holds eight shifts in ten. Store a forecast before a shift and the number after it.'];
  const lean =
    Math.abs(bias) < 0.05
      ? 'On average as much came as the middle of the forecasts.'
      : `On average ${fixed(Math.abs(bias), 1)} units ${bias > 0 ? 'more' : 'fewer'} came than the middle of the forecasts.`;
  return [
    `${percent(share.estimate)} held (${percent(share.low, 'down')} to ${percent(share.high, 'up')}, by so many shifts); ${percent(claimed)} should, and whole units make it a little more. ${below} came under their range, ${above} over.`,
    lean,
    ...(target.count === 0
      ? []
      : [
          `The target was met on ${target.met} of ${counted(target.count, 'shift')}; by the chances given it was to be ${fixed(target.expected, 1)}.`,
        ]),
  ];
}

function dayTable(days: LogDay[], all: number): Block {
  const rows = days.map(({ date, forecast, late, target, good, note }) => [
    date,
    forecast === undefined ? '' : `${fixed(forecast.p10, 0)} to ${fixed(forecast.p90, 0)}`,
    forecast === undefined ? '' : fixed(forecast.p50, 0),
    forecast?.chance == null ? '' : percent(forecast.chance),
    target == null ? '' : plain(target),
    good === undefined ? '' : plain(good),
    late === true ? 'forecast made after the start' : heldWord(forecast, good),
    note ?? '',
  ]);
  return {
    kind: 'table',
    head: ['Day', 'Eight in ten', 'Half', 'Chance', 'Due', 'Good', '', 'Note'],
    rows,
    align: ['left', 'right', 'right', 'right', 'right', 'right', 'left', 'left'],
    ...(all > days.length ? { caption: `The last ${days.length} of ${all} days.` } : {}),
  };
}

function heldWord(forecast: LogDay['forecast'], good: number | undefined): string {
  if (forecast === undefined || good === undefined) return '';
  return good < forecast.p10 ? 'under' : good > forecast.p90 ? 'over' : 'within';
}

/** The share within, over the last shifts up to each of a few days. */
function overTime({ overTime: course }: LogCoverage): Block[] {
  if (course.length < 10) return [];
  const every = Math.ceil(course.length / 8);
  const rows = course
    .filter((_, i) => (course.length - 1 - i) % every === 0)
    .map((one) => [
      one.date,
      percent(one.share),
      `${percent(one.low, 'down')} to ${percent(one.high, 'up')}`,
      String(one.of),
    ]);
  return [
    { kind: 'heading', level: 2, text: 'How often the ranges held, over time' },
    {
      kind: 'table',
      head: ['Up to', 'Within', 'Range', 'Of the last'],
      rows,
      align: ['left', 'right', 'right', 'right'],
    },
  ];
}

function driftBlocks(scenario: Scenario, drifts: Drift[]): Block[] {
  const moved = drifts.filter(hasMoved);
  const first =
    moved.length === 0
      ? 'No step’s times have surely moved.'
      : `${counted(moved.length, 'time')} of the file ${moved.length === 1 ? 'has' : 'have'} moved: use the new ${moved.length === 1 ? 'time' : 'times'}.`;
  const order = [...moved, ...drifts.filter((one) => !moved.includes(one))];
  return [
    { kind: 'heading', level: 2, text: 'Which times have drifted' },
    { kind: 'paragraph', text: first },
    { kind: 'list', items: order.map((one) => driftSentence(scenario, one)) },
  ];
}

/** Why a day missed: each cause's part, then luck. */
export function whyPage({ scenario, date, why }: { scenario: Scenario; date: string; why: WhyMissed }): Page {
  const off = why.good - why.planned.estimate;
  const size = `${fixed(Math.abs(off), 1)} ${off < 0 ? 'under' : 'over'} the ${fixed(why.planned.estimate, 1)} the plan makes on average`;
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: `${capitalized(date)}: ${counted(why.good, 'good unit')}, ${size}` },
    {
      kind: 'table',
      head: ['What', 'Good units', 'Range'],
      rows: why.parts.map(partRow),
      align: ['left', 'right', 'right'],
      caption:
        'Each cause set as it was that day, one after another on the same luck; together they are the whole difference.',
    },
    { kind: 'list', items: whySentences(why) },
    {
      kind: 'paragraph',
      text: 'The parts depend a little on the order they are set in: kits, people, times, rework. What is under a range that covers zero may be nothing.',
      small: true,
    },
  ];
  return { title: `${scenario.name}, ${date}: why`, blocks };
}

const signed = (value: number): string => `${value > 0.005 ? '+' : ''}${fixed(value, 1)}`;

function partRow({ cause, units, told }: MissPart): string[] {
  if (cause === 'luck') return ['Not explained', signed(units.estimate), rangeText(units).range];
  if (!told) return [capitalized(cause), 'not told', '-'];
  return [capitalized(cause), signed(units.estimate), rangeText(units).range];
}

/** The causes that surely counted, the largest first, and how rare such a day is. */
export function whySentences({ parts, planned, good, asFew, count }: WhyMissed): string[] {
  const sure = parts
    .filter(({ cause, units }) => cause !== 'luck' && (units.high < 0 || units.low > 0))
    .sort((a, b) => Math.abs(b.units.estimate) - Math.abs(a.units.estimate));
  const said = sure.map(({ cause, units }) => {
    const { estimate, range } = rangeText({
      estimate: Math.abs(units.estimate),
      low: Math.min(Math.abs(units.low), Math.abs(units.high)),
      high: Math.max(Math.abs(units.low), Math.abs(units.high)),
    });
    return `${capitalized(cause)} ${units.estimate < 0 ? 'cost' : 'brought'} ${estimate} units${range === '' ? '' : ` (${range})`}.`;
  });
  const untold = parts.filter(({ cause, told }) => cause !== 'luck' && !told).map(({ cause }) => cause);
  const known = parts.filter(({ told }) => told).map(({ cause }) => cause);
  const none =
    known.length === 0
      ? 'Nothing was told of the day but its number.'
      : `${known.length === 1 ? 'What was told of' : 'Of'} ${listed(known)} ${known.length === 1 ? 'made no sure difference' : 'nothing surely made a difference'}.`;
  const rest = [
    ...(said.length === 0 ? [none] : said),
    ...(untold.length === 0 || known.length === 0 ? [] : [`Not told: ${listed(untold)}.`]),
  ];
  if (good >= planned.estimate) return [...rest, 'The rest is not explained by what was told.'];
  return [
    ...rest,
    `With all that as it was, ${percent(asFew)} of ${counted(count, 'shift')} make so few or fewer; what is left is not explained by what was told.`,
  ];
}

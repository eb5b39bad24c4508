/**
 * The crew plan in sentences and tables. Wording follows the ranges; the guarantee is said to be about the
 * plans it is about.
 */
import type { Absence } from '../staffing/absences.ts';
import type { CrossTraining } from '../staffing/cross-training.ts';
import { ACTION_POINTS } from '../staffing/exposure.ts';
import type { Lean } from '../staffing/leans-on.ts';
import type { CrewPlan, SearchAccount } from '../staffing/plan-crew.ts';
import type { BrokenRule } from '../staffing/rules.ts';
import type { TriedChange } from '../staffing/try-change.ts';
import type { WouldDo } from '../staffing/would-do.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { clockIn } from './crew-sheet.ts';
import { homeAt, homeBetween, OVERTIME_SAYS } from './pages/overtime-table.ts';
import type { Block } from '../document/document.ts';
import {
  chanceSentence,
  differenceSentence,
  promisesSentence,
  promiseSentence,
  sureEnoughSentence,
  type Subject,
} from '../words/sentences.ts';
import { chanceFrom, chanceWithRange, differenceCell, levelCells } from '../words/study-words.ts';
import { counted, fixed, listed, money, moneyRange, percent, plain } from '../words/words.ts';

const text = (words: string): Block => ({ kind: 'paragraph', text: words });

const chanceOf = (units: number, chance: Interval): string => chanceSentence(units, chanceFrom(chance));

/** The answer: whether the number is made, what shifts make, what can be promised. */
export function answerSentences(plan: CrewPlan): string[] {
  const { target, confidence, study, kind, promise, chance, promiseChance } = plan;
  const spread = promisesSentence(study.cases[0]!.spread);
  if (kind === 'over the limit') {
    return [
      'No plan is offered: whatever was tried, somebody goes over an exposure limit of the file in more than one shift in 100. The posts below are the file’s, for comparison only.',
    ];
  }
  const made =
    target === null || chance === null
      ? []
      : [`${chanceOf(target, chance)} ${sureEnoughSentence(chance, confidence)}`];
  if (kind === 'makes') return [...made, spread];
  if (kind === 'nothing' || promise === null)
    return [...made, spread, `Of the numbers asked about, none can be promised at ${percent(confidence)}.`];
  const promised = promiseChance === null ? '' : ` ${chanceOf(promise, promiseChance)}`;
  const short =
    target === null
      ? ''
      : `No plan found makes ${plain(target)} as often as asked, ${percent(confidence)} of shifts. `;
  // The race tells chances apart to within its zone only: just under what was asked for is not called that.
  const near = promiseChance !== null && promiseChance.estimate < confidence;
  const words = near
    ? `Promise ${plain(promise)}: of all numbers it comes nearest to ${percent(confidence)}.`
    : promiseSentence(promise, confidence);
  return [`${short}${words}${promised}`, ...made, spread];
}

/** Overtime, cost, and cost of a good unit. */
export function moneySentence(plan: CrewPlan, currency: string): string {
  const one = plan.study.cases[0]!;
  if (plan.search.economy !== 'cost')
    return 'The file has no pay, so plans were compared by their overtime minutes.';
  const { estimate, range } = moneyRange(one.cost, currency);
  return `It costs ${estimate} of labor a shift${range === '' ? '' : ` (${range})`}, ${money(one.costPerGood, currency, 2)} a good unit.`;
}

export function overtimeTable({ overtime, sheet }: CrewPlan, currency: string): Block[] {
  const rows = overtime
    .filter((one) => one.asked > 0 || one.minutes.estimate >= 0.5)
    .map((one) => [
      one.name,
      one.asked === 0 ? '-' : homeAt(sheet.start, one.to, one.asked),
      fixed(one.finishing, 1),
      fixed(Math.max(0, one.minutes.estimate - one.finishing), 1),
      chanceWithRange(one.stays),
      homeBetween(sheet.start, one.to, one.oneInTen, one.between),
      money(one.money.estimate, currency, 2),
    ]);
  if (rows.length === 0)
    return [text('Nobody is asked for overtime, and hardly anybody has a piece to finish after the end.')];
  return [
    {
      kind: 'table',
      caption: `Overtime of each, minutes a shift. ${OVERTIME_SAYS}`,
      head: ['', 'At most until', 'Finishing', 'Planned', 'Shifts with any', '1 in 10 home after', 'Costs'],
      rows,
      align: ['left', 'right', 'right', 'right', 'right', 'right', 'right'],
    },
  ];
}

/**
 * "One shift in ten: Orla home after 15:52": of those whom the last piece keeps beyond the end, or beyond the
 * cap of their overtime; empty where nobody is kept a good while.
 */
export function lateSentence({ overtime, sheet }: Pick<CrewPlan, 'overtime' | 'sheet'>): string {
  const late = overtime.filter((one) => one.oneInTen >= one.asked + A_WHILE);
  if (late.length === 0) return '';
  const each = late.map((one) => `${one.name} after ${homeAt(sheet.start, one.to, one.oneInTen)}`);
  return `The last piece and tidying up may take longer: home one day in ten ${listed(each)}.`;
}

/** Minutes that nobody calls late. */
const A_WHILE = 5;

/** What the plan leans on, a sentence each. */
export function leanSentences({ leansOn, sheet }: Pick<CrewPlan, 'leansOn' | 'sheet'>): string[] {
  const clock = clockIn(sheet);
  const singles = leansOn.filter((lean) => lean.kind === 'one person');
  return leansOn.flatMap((lean): string[] => {
    if (lean.kind === 'one person')
      return lean === singles[0] ? singles.map((one) => leanSentence(one, clock)) : [];
    return [leanSentence(lean, clock)];
  });
}

function leanSentence(lean: Lean, clock: (minutes: number) => string): string {
  switch (lean.kind) {
    case 'one person': {
      const others =
        lean.others.length === 0
          ? 'nobody else who comes can do it'
          : `${listed(lean.others, 'or')} could step in`;
      return `Only ${lean.person} stands at ${lean.step}; ${others}.`;
    }
    case 'skill':
      return lean.level === 1
        ? `${lean.person} is still in training at ${lean.step}: somebody has to be near, and clear it.`
        : `${lean.person} does ${lean.step} with help.`;
    case 'perhaps':
      return `${lean.person} comes with a chance of ${percent(lean.chance)}; the figures count both.`;
    case 'late':
      return Number.isNaN(lean.minutes)
        ? `${lean.person} may be late.`
        : `${lean.person} is ${lean.chance < 1 ? `with a chance of ${percent(lean.chance)} ` : ''}${plain(lean.minutes)} min late.`;
    case 'overtime':
      return `Somebody works past the end in ${percent(lean.share)} of the shifts.`;
    case 'change of post':
      return `${lean.person} changes posts at ${clock(lean.at)}: somebody has to call it.`;
    case 'arrivals':
      return `All ${plain(lean.units)} units come in when the file says, the last at ${lean.last}.`;
    case 'left alone':
      return `From ${clock(lean.from)} to ${clock(lean.to)} nobody who stands at ${lean.step} is in: what comes there waits.`;
    case 'nobody':
      return `Nobody who comes can do ${lean.step}: nothing gets past it.`;
  }
}

const VARIED: { key: keyof SearchAccount['vary']; words: string }[] = [
  { key: 'posts', words: 'who stands where' },
  { key: 'order', words: 'in which order' },
  { key: 'changes', words: 'changes of post in the day' },
  { key: 'breaks', words: 'later breaks' },
  { key: 'lastStart', words: 'the last start of a step that ties up gear' },
  { key: 'overtime', words: 'overtime for whom and how long' },
  { key: 'rule', words: 'what a shared person does first' },
];

/** How it was found and how sure that is. @param how names the procedures and what each took. */
export function searchSentences(plan: CrewPlan, currency: string, how = false): string[] {
  const { search, confidence, target } = plan;
  const { kind, tried, raced, shifts, guarantee, zone, capped } = search;
  const varied = VARIED.filter(({ key }) => search.vary[key]).map(({ words }) => words);
  const what = varied.length === 0 ? 'Nothing was left open to change' : `Open were ${listed(varied)}`;
  const found =
    kind === 'all'
      ? `All ${counted(tried, 'plan')} that keep the rules were raced.`
      : `${counted(tried, 'plan')} were tried on ${counted(shifts.search, 'shift')}, a few each, going on from the best: a search, which may miss a better plan. The best ${plain(raced)} were raced.`;
  const struck = [
    ...(search.overLimit > 0 ? [`${counted(search.overLimit, 'plan')} went over an exposure limit`] : []),
    ...(search.byCeiling > 0
      ? [`${counted(search.byCeiling, 'plan')} could not make the target even if nobody ever waited`]
      : []),
    ...(search.byFewer > 0
      ? [`${counted(search.byFewer, 'plan')} surely made fewer than the file’s posts`]
      : []),
  ];
  const level = target === null ? 'the number promised' : 'the number';
  const sure = capped
    ? 'The race hit its cap on shifts before it was decided: the plan is the best so far, without a guarantee.'
    : `With a probability of at least ${percent(guarantee)}, among the plans raced and no others: this one makes ${level} with a chance of no less than ${percent(confidence - zone, 'down')}, none could promise more at ${percent(Math.min(1, confidence + zone))}, and ${noneBetter(plan, currency)}.`;
  const saved =
    shifts.equal > shifts.race
      ? ` Equal numbers for every plan would have taken ${plain(shifts.equal)}.`
      : '';
  return [
    `${what}. ${found}${struck.length === 0 ? '' : ` ${listed(struck)}.`}`,
    sure,
    ...(how
      ? [
          `The race took ${counted(shifts.race, 'shift')}: a sequential test of each chance (Wald), then of the best of them (Kim and Nelson).${saved}`,
        ]
      : []),
  ];
}

/** "none that makes it with 95% is worth more by $11 or more a shift". */
function noneBetter({ search, confidence, objective }: CrewPlan, currency: string): string {
  const { zone, matters, change, economy } = search;
  const paid = economy === 'cost';
  const gap = paid ? money(matters, currency) : `${plain(matters)} min of overtime`;
  const counts = `each departure from the file’s posts counted as ${paid ? money(change, currency, 2) : `${fixed(change, 2)} min`}`;
  const able = `that makes it with ${percent(Math.min(1, confidence + zone))}`;
  switch (objective.by) {
    case 'worth':
      return `none ${able} is worth more by ${gap} or more a shift (${counts})`;
    case 'output':
      return `none ${able} makes it in ${percent(zone)} of the shifts more, or as often and cheaper by ${gap} or more a shift (${counts})`;
    case 'cost':
      return `none ${able} is cheaper by ${gap} or more a shift (${counts})`;
  }
}

export function runnerUpSentences(
  { runnerUp, promise, target, search }: CrewPlan,
  currency: string,
): string[] {
  if (runnerUp === null) return ['There is no runner-up: no other plan raced came near.'];
  const level = promise ?? target ?? 0;
  const why = {
    worth: 'It lost because it is worth less.',
    cost: 'It lost on cost.',
    chance: `It lost because it makes ${plain(level)} less often.`,
    'too seldom': `It lost because it makes ${plain(level)} too seldom.`,
    'nothing that matters':
      'It is as good as equal: the difference is less than what was asked to be found, and the plan is surer, makes more or changes less.',
  }[runnerUp.lostBy];
  const { good, cost } = runnerUp.more;
  const it: Subject = { kind: 'thing', words: 'it' };
  const dearer =
    cost.low === 0 && cost.high === 0
      ? 'It costs the same.'
      : search.economy === 'cost'
        ? differenceSentence(it, cost, { kind: 'money', currency, per: 'shift' })
        : '';
  const chance = runnerUp.promiseChance ?? runnerUp.chance;
  return [
    [why, differenceSentence(it, good), dearer, chance === null ? '' : chanceOf(level, chance)]
      .filter((words) => words !== '')
      .join(' '),
  ];
}

export function absenceTable(absences: Absence[], target: number | null): Block {
  return {
    kind: 'table',
    caption:
      'If one more calls out: with the best of the plan as it is and other posts; good units against the plan, on the same luck.',
    head: [
      'Without',
      'Then best',
      '9 in 10',
      'Half',
      '1 in 10',
      ...(target === null ? [] : [`Makes ${plain(target)}`]),
      'Units',
    ],
    rows: absences.map((one) => [
      one.name,
      one.uncovered.length > 0
        ? `nobody left for ${listed(one.uncovered)}`
        : one.best === 'nothing'
          ? 'no plan keeps the limits'
          : one.best,
      ...(one.spread === null ? ['-', '-', '-'] : levelCells(one.spread)),
      ...(target === null ? [] : [one.chance === null ? '-' : chanceWithRange(one.chance)]),
      one.loses === null ? '-' : differenceCell(one.loses),
    ]),
    align: [
      'left',
      'left',
      'right',
      'right',
      'right',
      ...(target === null ? [] : ['right' as const]),
      'right',
    ],
  };
}

/** Rows of what would have to change. */
export const CHANGES_SHOWN = 6;

export function wouldDoTable(wouldDo: WouldDo[], target: number, currency: string): Block[] {
  const rows = wouldDo
    .slice(0, CHANGES_SHOWN)
    .map((one) => [
      one.name,
      chanceWithRange(one.chance),
      { yes: 'yes', perhaps: 'perhaps', no: 'no' }[one.enough],
      one.price === null || one.price === 0 ? '-' : money(one.price, currency),
    ]);
  return [
    {
      kind: 'table',
      caption: `What would have to change to make ${plain(target)}, one thing at a time with the plan’s posts, more overtime with the last starts that go with it.`,
      head: ['With', `Makes ${plain(target)}`, 'Enough?', 'Price'],
      rows,
      align: ['left', 'right', 'left', 'right'],
    },
  ];
}

export function exposureSentences({ exposure }: Pick<CrewPlan, 'exposure'>): string[] {
  return exposure
    .filter((one) => one.high >= ACTION_POINTS)
    .map(
      (one) =>
        `${one.name}: ${fixed(one.points, 0)} vibration points a shift, ${fixed(one.high, 0)} in one shift in 20 (action at ${ACTION_POINTS}, limit at 400); ${one.over === 0 ? 'over the file’s limit in none of the shifts looked at' : `over the file’s limit in ${percent(one.over)} of the shifts`}.`,
    );
}

/** "Your change loses 0.8 units a shift (0.5 to 1.1)." and what it breaks. */
export function triedSentences(
  tried: Extract<TriedChange, { kind: 'tried' }>,
  matters: number,
  currency: string,
  names: (id: string) => string,
): string[] {
  const chances =
    tried.chances === null
      ? []
      : [
          `The chance of the target goes from ${chanceWithRange(tried.chances[0])} to ${chanceWithRange(tried.chances[1])}.`,
        ];
  return [
    differenceSentence({ kind: 'thing', words: 'your change' }, tried.good, { kind: 'units' }, matters),
    differenceSentence({ kind: 'thing', words: 'your change' }, tried.cost, {
      kind: 'money',
      currency,
      per: 'shift',
    }),
    ...chances,
    ...tried.broken.map((rule) => `It breaks a rule: ${brokenWords(rule, names, clockIn(tried.sheet))}`),
    ...tried.exposure
      .filter((one) => one.over > 0.01)
      .map((one) => `It takes ${one.name} over the exposure limit in ${percent(one.over)} of the shifts.`),
  ];
}

export function brokenWords(
  rule: BrokenRule,
  name: (id: string) => string,
  clock: (minutes: number) => string,
): string {
  switch (rule.kind) {
    case 'no skill':
      return `${name(rule.person)} cannot do ${name(rule.step)}.`;
    case 'no post':
      return `${name(rule.person)} has no post all day.`;
    case 'piece in hand':
      return `${name(rule.person)} has a piece in hand at ${name(rule.step)} from the shift before, and stands there at no time.`;
    case 'nobody there':
      return `too few people stand at ${name(rule.step)} from ${clock(rule.from)}.`;
    case 'hours changed':
      return `the hours of ${name(rule.person)} are changed.`;
    case 'break changed':
      return `a break of ${name(rule.person)} is left out, shortened, or moved where it may not go.`;
    case 'overtime not allowed':
      return `${name(rule.person)} may not be asked for overtime.`;
    case 'overtime too long':
      return `${plain(rule.minutes)} min of overtime, where ${plain(rule.most)} may be asked for.`;
    case 'hours a day':
      return `${name(rule.person)} would be here ${plain(rule.hours)} h, where the file allows ${plain(rule.most)}.`;
    case 'last start':
      return `${name(rule.step)} would be begun later than the file allows.`;
  }
}

export function trainingTable({ rows, level, count }: CrossTraining, currency: string): Block {
  return {
    kind: 'table',
    caption: `Which second skill buys most on this day, at level ${level}, with the plan’s other posts (${counted(count, 'shift')} each): units and labor cost a shift against the plan.`,
    head: ['Who', 'Learns', 'In their order', 'Units', 'Cost'],
    rows: rows.map((row) => [
      row.personName,
      row.stepName,
      row.place,
      differenceCell(row.gain),
      `${row.cost.estimate > 0 ? '+' : ''}${money(row.cost.estimate, currency, 2)}`,
    ]),
    align: ['left', 'left', 'left', 'right', 'right'],
  };
}

export const TRAINING_NOTE =
  'One second skill for each person, so that the posts hang together in a closed chain, gives most of what everybody knowing everything would (IIE Transactions 36(10)). What it takes to train somebody, and who clears them, is not in these figures.';

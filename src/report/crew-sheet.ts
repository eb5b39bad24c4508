/** The crew sheet in words and in a table, and as rows for a spreadsheet. Crew order, no ranking. */
import { lastStart } from '../scenario/step-rules/last-start.ts';
import { clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import type { CrewSheet, SheetPerson, SheetStep } from '../staffing/sheet.ts';
import type { Cell } from '../document/csv.ts';
import type { Block, TableBlock } from '../document/document.ts';
import { listed, percent } from '../words/words.ts';

/** More columns of time than this do not fit a wall sheet: the times then stand in the cells. */
const MOST_BANDS = 3;

/** The table of the sheet and the rules that go with it. */
export const sheetBlocks = (sheet: CrewSheet): Block[] => [sheetTable(sheet), sheetRules(sheet)];

/**
 * The rules that go with the sheet. `drawn`: without those that the picture of the day says; `late`: how late
 * it may get, in a sentence.
 */
export function sheetRules(sheet: CrewSheet, drawn = false, late = ''): Block {
  const clock = clockIn(sheet);
  const said = lastsOf(sheet).map(({ at, name }) => lastStart.words(clock(at), name));
  const rules = rulesOf(sheet);
  const items = drawn ? rules.filter((rule) => !said.includes(rule)) : rules;
  return { kind: 'list', items: late === '' ? items : [...items, late] };
}

/** The last starts that fall into the shift. */
export const lastsOf = ({ lastStarts, length }: CrewSheet): CrewSheet['lastStarts'] =>
  lastStarts.filter(({ at }) => at > 0 && at < length);

/** Who stands where, in words. */
export function sheetTable(sheet: CrewSheet): TableBlock {
  const here = sheet.people.filter((person) => person.chance > 0);
  const marks = [...new Set(here.flatMap((person) => person.posts.slice(1).map((post) => post.from)))].sort(
    (a, b) => a - b,
  );
  const bands = marks.length >= MOST_BANDS ? [0] : [0, ...marks];
  const clock = clockIn(sheet);
  const head =
    bands.length === 1
      ? ['Stands at, in this order']
      : bands.map((from, at) => `${clock(from)} to ${clock(bands[at + 1] ?? sheet.length)}`);
  const overtime = here.some((person) => person.overtime > 0);
  const rows = here.map((person) => [
    nameWords(person, sheet),
    ...bands.map((from) => (bands.length === 1 ? allPosts(person, clock) : postWords(postAt(person, from)))),
    breakWords(person, clock),
    ...(overtime ? [person.overtime === 0 ? '-' : `up to ${person.overtime} min`] : []),
  ]);
  return {
    kind: 'table',
    head: ['', ...head, 'Breaks', ...(overtime ? ['Overtime'] : [])],
    rows,
    align: ['left', ...head.map(() => 'left' as const), 'left', 'left'],
  };
}

/** Words that a narrow column of the sheet may not part. */
const together = (text: string): string => text.replaceAll(' ', '\u00a0');

/** Minutes from the shift's start as a clock time. */
export const clockIn =
  ({ start }: { start: string }) =>
  (minutes: number): string =>
    clockOfMinutes(minutesOfClock(start) + minutes);

const postAt = (person: SheetPerson, time: number): SheetStep[] =>
  person.posts.findLast((post) => post.from <= Math.max(time, person.from))?.steps ?? [];

export const stepWords = (step: SheetStep): string =>
  `${step.name}${step.level === 1 ? ' (in training)' : step.level === 2 ? ' (with help)' : ''}`;

export const postWords = (steps: SheetStep[]): string =>
  steps.length === 0
    ? 'no post'
    : steps.length === 1
      ? stepWords(steps[0]!)
      : steps.map((step, at) => together(`${at + 1}. `) + stepWords(step)).join(', ');

const allPosts = (person: SheetPerson, clock: (minutes: number) => string): string =>
  person.posts
    .map((post, at) => `${at === 0 ? '' : `from ${clock(post.from)}: `}${postWords(post.steps)}`)
    .join('; ');

function nameWords(person: SheetPerson, sheet: CrewSheet): string {
  const clock = clockIn(sheet);
  const [notes, away] = [comingOf(person), awayOf(person, sheet)];
  const hours =
    person.from !== 0 || person.to !== sheet.length ? [`${clock(person.from)} to ${clock(person.to)}`] : [];
  const all = [...notes, ...hours, ...away];
  return all.length === 0 ? person.name : `${person.name} (${all.join('; ')})`;
}

/** Who comes more surely than this is simply counted on: on the wall stands what is unlike other days. */
const SURELY = 0.9;

/** What is unlike other days about somebody, a few words each. */
export const exceptionsOf = (person: SheetPerson, sheet: CrewSheet): string[] => [
  ...comingOf(person.chance > SURELY ? { ...person, chance: 1 } : person),
  ...awayOf(person, sheet),
];

function comingOf(person: SheetPerson): string[] {
  return [
    ...(person.chance < 1 ? [`comes with ${percent(person.chance)} chance`] : []),
    ...(person.late === null || person.late.chance === 0
      ? []
      : [
          Number.isNaN(person.late.minutes)
            ? 'late'
            : `${person.late.chance < 1 ? 'perhaps ' : ''}${person.late.minutes} min late`,
        ]),
  ];
}

function awayOf({ away }: SheetPerson, sheet: CrewSheet): string[] {
  const clock = clockIn(sheet);
  return away.length === 0
    ? []
    : [
        `away ${away.map((one) => together(`${clock(one.from)} to ${clock(one.from + one.minutes)}`)).join(', ')}`,
      ];
}

const breakWords = (person: SheetPerson, clock: (minutes: number) => string): string =>
  person.breaks.length === 0
    ? '-'
    : person.breaks.map((one) => together(`${clock(one.from)} (${one.minutes} min)`)).join(', ');

function rulesOf(sheet: CrewSheet): string[] {
  const here = sheet.people.filter((person) => person.chance > 0);
  const out = sheet.people.filter((person) => person.chance === 0).map((person) => person.name);
  const oldest = here
    .filter((person) => person.rule === 'oldest' && person.posts.some((post) => post.steps.length > 1))
    .map((person) => person.name);
  const moved = here.filter((person) => person.breaks.some((one) => one.moved)).map((person) => person.name);
  return [
    ...(out.length === 0 ? [] : [`Out: ${listed(out)}.`]),
    'Free? Take the first step of your list that can begin; finish what is in your hands before you change.',
    ...(oldest.length === 0
      ? []
      : [`${listed(oldest)}: take the piece that has waited longest at your steps instead.`]),
    ...(moved.length === 0 ? [] : [`Breaks later than usual: ${listed(moved)}.`]),
    ...sheet.ruleSentences,
    ...(sheet.overtime === null
      ? []
      : [
          `Overtime until ${sheet.overtime.until === 'target' ? 'the target is made' : 'the cell is empty'}, ${sheet.overtime.cap} min at most: ${stayers(here)}.`,
        ]),
  ];
}

function stayers(here: readonly SheetPerson[]): string {
  const asked = here.filter((person) => person.overtime > 0);
  return asked.length === here.length ? 'everybody' : listed(asked.map((person) => person.name)) || 'nobody';
}

export const SHEET_COLUMNS = ['person', 'what', 'from', 'to', 'steps in order', 'note'] as const;

/** Rows of the sheet for a spreadsheet, the head first: one row a post, break, time away and overtime. */
export function sheetRows(sheet: CrewSheet): Cell[][] {
  const clock = clockIn(sheet);
  return [
    [...SHEET_COLUMNS],
    ...sheet.people.flatMap((person): Cell[][] => [
      ...(person.chance === 0 ? [[person.name, 'out', null, null, null, null]] : []),
      ...person.posts.map((post): Cell[] => [
        person.name,
        'post',
        clock(post.from),
        clock(post.to),
        post.steps.map(stepWords).join(', '),
        person.rule === 'oldest' && post.steps.length > 1 ? 'longest waiting first' : null,
      ]),
      ...person.breaks.map((one): Cell[] => [
        person.name,
        'break',
        clock(one.from),
        clock(one.from + one.minutes),
        null,
        `${one.name}${one.paid ? '' : ', unpaid'}${one.moved ? ', moved' : ''}`,
      ]),
      ...person.away.map((one): Cell[] => [
        person.name,
        'on another line',
        clock(one.from),
        clock(one.from + one.minutes),
        null,
        null,
      ]),
      ...(person.overtime > 0
        ? [[person.name, 'overtime', clock(person.to), clock(person.to + person.overtime), null, 'at most']]
        : []),
    ]),
  ];
}

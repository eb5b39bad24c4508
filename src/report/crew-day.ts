/** A crew sheet as the picture of its day: a lane a person, what holds for many said once. */
import type { CrewDay, CrewLane } from '../charts/index.ts';
import type { CrewSheet, SheetPerson } from '../staffing/sheet.ts';
import { counted, listed } from '../words/words.ts';
import { clockIn, exceptionsOf, lastsOf, stepWords } from './crew-sheet.ts';

type Clock = (minutes: number) => string;
type Break = SheetPerson['breaks'][number];

/** Everybody who comes, in the file's order. */
export function crewDayOf(sheet: CrewSheet): CrewDay {
  const here = sheet.people.filter((person) => person.chance > 0);
  const clock = clockIn(sheet);
  const patterns = patternsOf(here);
  const marked = patterns.length > 1;
  const lanes = here.map((person) => laneOf(person, sheet, marked ? markOf(patterns, person) : '', clock));
  return {
    title: `The day of the crew: ${sheet.cell}`,
    description: `${counted(here.length, 'lane')}, one for each person: ${lanes.map(laneWords).join('. ')}.`,
    hours: { start: sheet.start, length: sheet.length },
    once: patterns.map((breaks, at) => breakSentence(breaks, marked ? letter(at) : '', clock)),
    lasts: lastsOf(sheet).map(({ at, name }) => ({ at, words: `no ${name} after ${clock(at)}` })),
    lanes,
  };
}

const laneWords = ({ name, posts }: CrewLane): string =>
  `${name}: ${posts.map((post) => post.words).join('; ')}`;

function laneOf(person: SheetPerson, sheet: CrewSheet, mark: string, clock: Clock): CrewLane {
  const { from, to, posts, breaks, away } = person;
  const last = posts.length - 1;
  return {
    name: person.name,
    mark,
    from,
    to,
    posts: posts.map((post, at) => ({
      from: post.from,
      to: post.to,
      words: [
        ...(post.from > 0 ? [clock(post.from)] : []),
        post.steps.map(stepWords).join(', ') || 'no post',
        ...(at === last && to !== sheet.length ? [`to ${clock(to)}`] : []),
      ].join(' '),
    })),
    off: [
      ...breaks.map((one) => ({ from: one.from, to: one.from + one.minutes, kind: 'break' as const })),
      ...away.map((one) => ({ from: one.from, to: one.from + one.minutes, kind: 'away' as const })),
    ].sort((a, b) => a.from - b.from),
    until: to + person.overtime,
    notes: exceptionsOf(person, sheet),
  };
}

/**
 * The different ways to take breaks, in the order of the first who keeps each; somebody who is not there for
 * all of one keeps it all the same.
 */
function patternsOf(people: readonly SheetPerson[]): Break[][] {
  const patterns: Break[][] = [];
  const most = [...people].sort((a, b) => b.breaks.length - a.breaks.length);
  for (const person of most)
    if (!patterns.some((pattern) => keeps(person, pattern))) patterns.push(person.breaks);
  const first = (pattern: Break[]): number => people.findIndex((person) => keeps(person, pattern));
  return patterns.sort((a, b) => first(a) - first(b));
}

function keeps({ breaks, from, to, away }: SheetPerson, pattern: readonly Break[]): boolean {
  const there = pattern.filter(
    (one) =>
      one.from + one.minutes > from &&
      one.from < to &&
      !away.some((off) => off.from < one.from + one.minutes && one.from < off.from + off.minutes),
  );
  return (
    there.length === breaks.length &&
    there.every((one, at) => one.from === breaks[at]!.from && one.minutes === breaks[at]!.minutes)
  );
}

const letter = (at: number): string => (at < 26 ? String.fromCharCode(65 + at) : String(at + 1));

const markOf = (patterns: Break[][], person: SheetPerson): string =>
  letter(patterns.findIndex((pattern) => keeps(person, pattern)));

function breakSentence(breaks: readonly Break[], mark: string, clock: Clock): string {
  const who = mark === '' ? 'Breaks' : `Breaks ${mark}`;
  if (breaks.length === 0) return mark === '' ? 'No breaks.' : `${mark}: no breaks.`;
  const each = breaks.map(
    ({ from, minutes, name }) => `${clock(from)}${name === 'break' ? '' : ` ${name}`} (${minutes} min)`,
  );
  return `${who}: ${listed(each)}.`;
}

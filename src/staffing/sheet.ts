/**
 * The crew sheet as plain data: each person by time of day, in the file's crew order and no other. Minutes
 * from the shift's start.
 */
import { curveOf } from '../duration/time.ts';
import { resolve, type ResolvedPerson, type ResolvedShift } from '../scenario/resolve.ts';
import { minutesOfClock } from '../scenario/clock.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { PersonDay } from './calendar.ts';
import type { Day } from './question.ts';
import { stepsAt } from './rules.ts';

export interface SheetStep {
  id: string;
  name: string;
  /** Skill level, 1 to 4: 1 is in training, 2 works with help. */
  level: number;
}

export interface SheetPerson {
  id: string;
  name: string;
  /** Chance of coming, over 0 to 1; 0 for those who are out. */
  chance: number;
  /** Minutes late, and how likely; null where nothing is known. */
  late: { minutes: number; chance: number } | null;
  from: number;
  to: number;
  posts: { from: number; to: number; steps: SheetStep[] }[];
  breaks: { from: number; minutes: number; name: string; paid: boolean; moved: boolean }[];
  away: { from: number; minutes: number }[];
  /**
   * What a shared person does first: the first of their steps that can begin, or the piece that has waited
   * longest.
   */
  rule: 'in order' | 'oldest';
  /** Most minutes of overtime; 0: none. */
  overtime: number;
}

export interface CrewSheet {
  cell: string;
  /** Clock of the start, and of the end in minutes from it. */
  start: string;
  length: number;
  people: SheetPerson[];
  /** When steps are not begun, a sentence each. */
  ruleSentences: string[];
  /** Steps not begun after a time, in the order of the file. */
  lastStarts: { step: string; name: string; at: number }[];
  overtime: { until: 'target' | 'empty'; cap: number } | null;
}

/** The sheet of a plan for a day. */
export function sheetOf(day: Day, plan: Scenario): CrewSheet {
  const shift = resolve(plan);
  const { until, cap } = shift.overtime;
  return {
    cell: shift.name,
    start: shift.start,
    length: shift.length,
    people: shift.people.map((person) => personOf(shift, person, day)),
    ruleSentences: shift.steps.flatMap((step) => step.ruleSentences),
    lastStarts: shift.steps.flatMap(({ id, name, lastStart }) =>
      lastStart === null ? [] : [{ step: id, name, at: lastStart }],
    ),
    overtime: until === 'none' || cap === 0 ? null : { until, cap },
  };
}

function personOf(shift: ResolvedShift, person: ResolvedPerson, day: Day): SheetPerson {
  const before = day.shift.people.find((one) => one.id === person.id);
  const stays =
    shift.overtime.until !== 'none' && person.overtime && (shift.overtime.who?.includes(person.id) ?? true);
  const late = day.scenario.people[person.id]?.attendance;
  const usual = late?.late === undefined ? null : curveOf(late.late).typical(late.late);
  const out = person.chance === 0;
  return {
    id: person.id,
    name: person.name,
    chance: person.chance,
    late: usual === null || out ? null : { minutes: usual, chance: person.lateChance },
    from: person.from,
    to: person.to,
    posts: out ? [] : postsOf(shift, person),
    breaks: out
      ? []
      : person.offs
          .filter((off) => off.kind === 'break')
          .map((off) => ({
            from: off.from,
            minutes: off.minutes,
            name: off.name,
            paid: off.share > 0,
            moved: !(
              before?.offs.some((one) => one.from === off.from && one.minutes === off.minutes) ?? true
            ),
          })),
    away: out
      ? []
      : person.offs.filter((off) => off.kind === 'away').map(({ from, minutes }) => ({ from, minutes })),
    rule: person.rule,
    overtime: stays && !out ? shift.overtime.cap : 0,
  };
}

function postsOf(shift: ResolvedShift, person: ResolvedPerson): SheetPerson['posts'] {
  const times = [
    ...new Set([
      person.from,
      ...person.cover.map((one) => one.from).filter((time) => time > person.from && time < person.to),
    ]),
  ];
  return times.map((from, at) => ({
    from,
    to: times[at + 1] ?? person.to,
    steps: stepsAt(person, from).map((id) => ({
      id,
      name: shift.steps.find((step) => step.id === id)!.name,
      level: person.skills[id]?.level ?? 3,
    })),
  }));
}

/** The sheet as days for a calendar file (calendar.ts): minutes after midnight, without those who are out. */
export function personDays(sheet: CrewSheet): PersonDay[] {
  const start = minutesOfClock(sheet.start);
  return sheet.people
    .filter((person) => person.chance > 0)
    .map((person) => ({
      id: person.id,
      name: person.name,
      from: start + person.from,
      to: start + person.to,
      posts: person.posts.map((post) => ({
        from: start + post.from,
        to: start + post.to,
        steps: post.steps.map((step) => `${step.name}${HELP[step.level] ?? ''}`),
      })),
      breaks: person.breaks.map(({ from, minutes, name }) => ({ from: start + from, minutes, name })),
      away: person.away.map(({ from, minutes }) => ({ from: start + from, minutes })),
      overtime: person.overtime,
    }));
}

/** By skill level: who does not stand there alone. */
const HELP: Record<number, string> = { 1: ' (in training)', 2: ' (with help)' };

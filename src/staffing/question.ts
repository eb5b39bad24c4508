/**
 * What a lead knows the afternoon before: who is in, what is due, how much overtime may be asked for, and
 * what the planner may move. And from it the day to be planned: the scenario with who comes and what is due
 * put in, the posts still the file's.
 */
import { checkScenario } from '../scenario/check.ts';
import {
  resolve,
  type ResolvedLimits,
  type ResolvedMoney,
  type ResolvedShift,
  resolvePlant,
} from '../scenario/resolve.ts';
import type { Person, Scenario } from '../scenario/schema.ts';
import type { Objective } from '../study/selection/race.ts';

export type Attendance =
  | { kind: 'in' }
  | { kind: 'out' }
  /** Minutes after their own start; `chance` (0 to 1) of being late at all, default 1. */
  | { kind: 'late'; minutes: number; chance?: number }
  /** Comes with this chance (0 to 1). */
  | { kind: 'perhaps'; chance: number };

/** What the planner may change. Everything may, unless it is switched off. */
export interface Vary {
  /** Who stands where. */
  posts: boolean;
  /** In which order of preference. */
  order: boolean;
  /** Changes of post in the day, for each person. */
  changes: 0 | 1 | 2;
  /** Breaks, one after the other. */
  breaks: boolean;
  /** The last start of steps that tie gear up (the last glue-up). */
  lastStart: boolean;
  /** Overtime: whose and how long. */
  overtime: boolean;
  /**
   * What a shared person does first: their first step that can begin, or the piece that has waited longest.
   */
  rule: boolean;
}

export const VARY: Vary = {
  posts: true,
  order: true,
  changes: 1,
  breaks: true,
  lastStart: true,
  overtime: true,
  rule: true,
};

export interface CrewQuestion {
  /** A checked scenario; its own shift is planned, those that follow are left out. */
  scenario: Scenario;
  /** By person; whoever is not named comes as the file says. */
  attendance?: Record<string, Attendance>;
  /** Good units due. Default the file's; null: the most that can be promised. */
  target?: number | null;
  /**
   * The most overtime that may be asked for, and of whom (default: of everybody who may). Null: none. Default
   * the file's.
   */
  overtime?: { cap: number; who?: string[] } | null;
  /** Chance asked of the target, over 0 and under 1. Default the file's promise. */
  confidence?: number;
  /** Of the plans that make the target the cheapest, instead of the one that is worth most. Default false. */
  cheapest?: boolean;
  vary?: Partial<Vary>;
  /** Limits that replace the file's. */
  limits?: Scenario['limits'];
}

export interface Day {
  /**
   * Attendance, target and limits put in; no overtime, no options, no shifts that follow; posts as in the
   * file.
   */
  scenario: Scenario;
  shift: ResolvedShift;
  /** Who may come, in crew order. */
  present: string[];
  /** By person present: the hands steps they may be posted at, in the file's order. */
  usable: Record<string, string[]>;
  /** Hands steps nobody present can do. */
  uncovered: string[];
  target: number | null;
  confidence: number;
  limits: ResolvedLimits;
  /** The most that may be asked for; null: none. */
  overtime: { cap: number; until: 'target' | 'empty'; who: string[] } | null;
  /** What the file itself asks for, as far as it may be asked for. */
  filedOvertime: { cap: number; who: string[] } | null;
  objective: DayObjective;
  vary: Vary;
}

/** What plans are chosen by. */
export interface DayObjective {
  by: Objective;
  /** What one more good unit that is wanted brings in; 0 where the file does not say, or has no pay. */
  margin: number;
  /** Good units wanted: up to what is due, Infinity where all can be sold or nothing is due. */
  wanted: number;
}

/** Throws RangeError for people the file does not have, and for numbers out of range. */
export function openDay(question: CrewQuestion): Day {
  const { options: _options, nextShifts: _next, ...file } = question.scenario;
  const attendance = question.attendance ?? {};
  const filed = resolve(file);
  const target = question.target === undefined ? filed.target : question.target;
  check(question, target);
  const { until } = filed.overtime;
  const given = question.limits ?? file.limits;
  const people = Object.fromEntries(
    Object.entries(file.people).map(([id, person]) => [id, attending(person, attendance[id])]),
  );
  const scenario: Scenario = {
    ...file,
    people,
    shift: { ...file.shift, target, overtime: { until: 'none' } },
    ...(given === undefined ? {} : { limits: given }),
  };
  const shift = resolve(scenario);
  const { limits, study, money } = resolvePlant(scenario);
  const most = limits.hoursPerDay;
  const long =
    most === null
      ? undefined
      : shift.people.find((person) => person.chance > 0 && plannedMinutes(person) > most * 60);
  if (long !== undefined)
    throw new RangeError(
      `${long.name}'s own hours are over the ${most} hours a day that the file allows: no plan can keep that limit.`,
    );
  const present = shift.people.filter((person) => person.chance > 0).map((person) => person.id);
  const asked =
    question.overtime === undefined ? (until === 'none' ? null : filed.overtime) : question.overtime;
  const who = asked === null ? [] : present.filter((id) => mayStay(shift, limits, id, asked));
  const cap = asked === null || who.length === 0 ? 0 : asked.cap;
  if (until !== 'none' && cap < filed.overtime.cap)
    mustRun(scenario, file.shift?.overtime, { until, cap, who });
  return {
    scenario,
    shift,
    present,
    ...usableSkills(shift, present),
    target,
    limits,
    confidence: question.confidence ?? study.promise,
    overtime:
      asked === null || asked.cap === 0
        ? null
        : {
            cap: asked.cap,
            until: until === 'none' ? (target === null ? 'empty' : 'target') : until,
            who,
          },
    filedOvertime: asked === null || until === 'none' ? null : filedOf(filed.overtime, asked.cap, who),
    objective: objectiveOf(shift, money, target, question.cheapest === true),
    vary: { ...VARY, ...question.vary },
  };
}

function filedOf(overtime: ResolvedShift['overtime'], most: number, may: string[]): Day['filedOvertime'] {
  const who = may.filter((id) => overtime.who?.includes(id) ?? true);
  const cap = Math.min(overtime.cap, most);
  return who.length === 0 || cap === 0 ? null : { cap, who };
}

function objectiveOf(
  { people }: ResolvedShift,
  { margin, sellsMore }: ResolvedMoney,
  target: number | null,
  cheapest: boolean,
): DayObjective {
  const priced = margin !== null && people.some((person) => person.pay > 0);
  return {
    by: cheapest ? 'cost' : priced ? 'worth' : 'output',
    margin: priced ? margin : 0,
    wanted: target === null || sellsMore ? Infinity : target,
  };
}

type Overtime = NonNullable<NonNullable<Scenario['shift']>['overtime']>;

/** A piece that is finished once begun may fit into overtime only: with too little there is no plan. */
function mustRun(scenario: Scenario, filed: Overtime | undefined, asked: Overtime & { cap: number }): void {
  const none = asked.cap === 0;
  const reading = (overtime: Overtime | undefined) =>
    checkScenario({ ...scenario, shift: { ...scenario.shift, overtime } });
  if (reading(filed).kind === 'wrong') return;
  const found = reading(none ? { until: 'none' } : asked);
  if (found.kind === 'wrong')
    throw new RangeError(
      `${none ? 'Without overtime' : `With at most ${asked.cap} min of overtime`} this cell cannot run: ${found.faults[0]!.text}`,
    );
}

function check(
  { scenario, attendance = {}, confidence, overtime }: CrewQuestion,
  target: number | null,
): void {
  for (const id of [...Object.keys(attendance), ...(overtime?.who ?? [])]) {
    if (!Object.hasOwn(scenario.people, id))
      throw new RangeError(
        `There is nobody called "${id}" in this file; it has ${Object.keys(scenario.people).join(', ')}.`,
      );
  }
  if (confidence !== undefined && !(confidence > 0 && confidence < 1))
    throw new RangeError(`The chance asked for must be over 0 and under 1, not ${confidence}.`);
  if (target !== null && !(Number.isInteger(target) && target >= 0))
    throw new RangeError(`The target must be a whole number of good units, not ${target}.`);
  if (overtime && !(overtime.cap >= 0 && overtime.cap <= 1440))
    throw new RangeError(`Overtime must be 0 to 1440 minutes, not ${overtime.cap}.`);
  if (Object.keys(scenario.people).every((id) => attendance[id]?.kind === 'out'))
    throw new RangeError('Everybody is out: there is no crew to plan.');
  for (const one of Object.values(attendance)) {
    if ('chance' in one && one.chance !== undefined && !(one.chance >= 0 && one.chance <= 1))
      throw new RangeError(`A chance must be 0 to 1, not ${one.chance}.`);
    if (one.kind === 'late' && !(one.minutes >= 0 && one.minutes <= 1440))
      throw new RangeError(`A lateness must be 0 to 1440 minutes, not ${one.minutes}.`);
  }
}

function attending(person: Person, given: Attendance | undefined): Person {
  switch (given?.kind) {
    case undefined:
      return person;
    case 'in':
      return { ...person, attendance: { percent: 100 } };
    case 'out':
      return { ...person, attendance: { percent: 0 } };
    case 'late':
      return {
        ...person,
        attendance: { percent: 100, late: given.minutes, latePercent: (given.chance ?? 1) * 100 },
      };
    case 'perhaps':
      return { ...person, attendance: { ...person.attendance, percent: given.chance * 100 } };
  }
}

/**
 * Whether a person may be asked to stay: permission, the question's and the file's lists, the file's hours a
 * day.
 */
function mayStay(
  shift: ResolvedShift,
  limits: ResolvedLimits,
  id: string,
  asked: { cap: number; who?: string[] | null | undefined },
): boolean {
  const person = shift.people.find((one) => one.id === id)!;
  if (!person.overtime || !(asked.who?.includes(id) ?? true)) return false;
  const most = limits.hoursPerDay;
  return most === null || plannedMinutes(person) < most * 60;
}

/**
 * Minutes of a person's own day, unpaid breaks off: what the file's hours a day are held against, overtime
 * added.
 */
export function plannedMinutes(person: ResolvedShift['people'][number]): number {
  const unpaid = person.offs
    .filter((off) => off.kind === 'break' && off.share === 0)
    .reduce((sum, off) => sum + off.minutes, 0);
  return person.to - person.from - unpaid;
}

/**
 * Who may be posted where. In training (level 1) only where the file itself posts them, or where nobody else
 * who comes can do the step.
 */
function usableSkills(shift: ResolvedShift, present: string[]): Pick<Day, 'usable' | 'uncovered'> {
  const people = shift.people.filter((person) => present.includes(person.id));
  const usable: Day['usable'] = Object.fromEntries(present.map((id) => [id, []]));
  const uncovered: string[] = [];
  for (const step of shift.steps.filter((one) => one.kind === 'hands')) {
    const able = people.filter((person) => person.skills[step.id] !== undefined);
    const ready = able.filter((person) => person.skills[step.id]!.level >= 2);
    const posted = able.filter(
      (person) => ready.includes(person) || person.cover.some((one) => one.steps.includes(step.id)),
    );
    const chosen = ready.length >= step.people ? posted : able;
    if (chosen.length < step.people) uncovered.push(step.id);
    for (const person of chosen) usable[person.id]!.push(step.id);
  }
  return { usable, uncovered };
}

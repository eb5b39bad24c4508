/** People: what they can do, where they stand, when they are there. */
import { minutesAfter } from '../clock.ts';
import { DEFAULTS } from '../defaults.ts';
import type { ResolvedBreak, ResolvedOff, ResolvedPerson } from '../resolved.ts';
import type { Person, Scenario, Shift } from '../schema.ts';

type After = (clock: string) => number;

export function resolvePeople(
  scenario: Scenario,
  breaks: ResolvedBreak[],
  length: number,
  after: After,
): ResolvedPerson[] {
  const stepIds = Object.keys(scenario.steps);
  return Object.entries(scenario.people).map(([id, person]) => {
    const skills = skillsOf(person, scenario);
    const own = person.breaks === undefined ? breaks : resolveBreaks(person.breaks, after);
    const covers = person.covers ?? stepIds.filter((step) => step in skills);
    const changes = (person.changes ?? []).map((change) => ({
      from: after(change.from),
      steps: change.covers,
    }));
    const away = resolveAway(person, after);
    const { attendance = {} } = person;
    const latePercent = attendance.latePercent ?? DEFAULTS.person.latePercent;
    return {
      id,
      name: person.name ?? id,
      cover: [{ from: 0, steps: covers }, ...changes].sort((a, b) => a.from - b.from),
      skills,
      rule: person.rule ?? DEFAULTS.person.rule,
      from: person.from === undefined ? 0 : after(person.from),
      to: person.to === undefined ? length : after(person.to) || 1440,
      breaks: own,
      away,
      offs: offsOf(away, own),
      chance: (attendance.percent ?? DEFAULTS.person.attendance) / 100,
      lateChance: attendance.late === undefined ? 0 : latePercent / 100,
      late: attendance.late ?? null,
      pay: person.pay ?? DEFAULTS.person.pay,
      overtime: person.overtime ?? DEFAULTS.person.overtime,
      hoursThisWeek: person.hoursThisWeek ?? DEFAULTS.person.hoursThisWeek,
      daysThisWeek: person.daysThisWeek ?? DEFAULTS.person.daysThisWeek,
    };
  });
}

/** Without skills in the file: everything they cover at some time of the day, alone. */
function skillsOf(person: Person, scenario: Scenario): ResolvedPerson['skills'] {
  const factors = scenario.skillLevels?.factors ?? DEFAULTS.skillLevels.factors;
  const rework = scenario.skillLevels?.rework ?? DEFAULTS.skillLevels.rework;
  const skills: ResolvedPerson['skills'] = {};
  for (const [step, skill] of Object.entries(person.skills ?? {})) {
    const given = typeof skill === 'number' ? { level: skill } : skill;
    const level = given.level ?? DEFAULTS.person.level;
    if (level === 0) continue;
    skills[step] = {
      level,
      factor: given.factor ?? factors[level - 1]!,
      rework: given.rework ?? rework[level - 1]!,
    };
  }
  if (person.skills === undefined) {
    const all = [...(person.covers ?? []), ...(person.changes ?? []).flatMap((change) => change.covers)];
    for (const step of all) skills[step] = { level: DEFAULTS.person.level, factor: 1, rework: 1 };
  }
  return skills;
}

export const resolveBreaks = (breaks: NonNullable<Shift['breaks']>, after: After): ResolvedBreak[] =>
  breaks.map((one) => ({
    from: after(one.from),
    minutes: one.minutes,
    name: one.name ?? DEFAULTS.break.name,
    paid: one.paid ?? DEFAULTS.break.paid,
  }));

const resolveAway = (person: Person, after: After): ResolvedOff[] =>
  (person.away ?? []).map((one) => ({
    kind: 'away',
    from: after(one.from),
    minutes: minutesAfter(one.from, one.to),
    share: (one.payShare ?? DEFAULTS.person.awayPayShare) / 100,
    name: 'away',
  }));

/**
 * Breaks and times away as disjoint stretches: a time away swallows the break inside it; where they overlap,
 * the first runs out first.
 */
export function offsOf(away: ResolvedOff[], breaks: ResolvedBreak[]): ResolvedOff[] {
  const resting = breaks.map(({ from, minutes, name, paid }): ResolvedOff => ({
    kind: 'break',
    from,
    minutes,
    share: paid ? 1 : 0,
    name,
  }));
  const all = [...away, ...resting].sort((a, b) => a.from - b.from || (a.kind === 'away' ? -1 : 1));
  const offs: ResolvedOff[] = [];
  let until = 0;
  for (const one of all) {
    const end = one.from + one.minutes;
    const from = Math.max(one.from, until);
    if (end <= from) continue;
    offs.push({ ...one, from, minutes: end - from });
    until = end;
  }
  return offs;
}

import { compileTime } from '../../duration/compile.ts';
import type { ResolvedPerson, ResolvedShift } from '../../scenario/resolve.ts';

/** Minutes of the shift during which the same people are on duty with the same cover. */
export interface Stretch {
  minutes: number;
  /** By person: the steps they may begin; null while off. */
  covers: (string[] | null)[];
}

/**
 * From when, and until when, a person may begin a piece, minutes from the start; and their own end, overtime
 * included.
 */
export interface Window {
  from: number;
  lastStart: number;
  to: number;
  /**
   * May be kept for overtime; the piece in hand at its cap is then finished, whatever the rule of the end.
   */
  stays: boolean;
}

const mayStay = (shift: ResolvedShift, person: ResolvedPerson): boolean =>
  shift.overtime.until !== 'none' &&
  person.overtime &&
  (shift.overtime.who === null || shift.overtime.who.includes(person.id));

/**
 * Overtime to its cap where it is allowed; a lateness is out where it is certain and always the same,
 * otherwise left out.
 */
export function windowOf(shift: ResolvedShift, person: ResolvedPerson): Window {
  const stays = mayStay(shift, person);
  const late = person.late === null || person.lateChance < 1 ? null : compileTime(person.late);
  const to = person.to + (stays ? shift.overtime.cap : 0);
  return {
    from: person.from + (late !== null && late.variance === 0 ? late.mean : 0),
    lastStart: stays ? to : to - shift.tidyUp,
    to,
    stays,
  };
}

/** @param anySkill everything they can do instead of what they are set to cover. */
export function stretchesOf(shift: ResolvedShift, anySkill = false): Stretch[] {
  const windows = shift.people.map((person) => windowOf(shift, person));
  // Where a piece in hand is put down at the end, the tidy-up minutes may still go into it.
  const ends = windows.map((window) => (shift.atEnd === 'put down' ? window.to : window.lastStart));
  const marks = new Set<number>();
  shift.people.forEach((person, at) => {
    marks.add(windows[at]!.from).add(ends[at]!);
    for (const off of person.offs) marks.add(off.from).add(off.from + off.minutes);
    for (const change of person.cover) marks.add(change.from);
  });
  const times = [...marks].sort((a, b) => a - b);
  const stretches = new Map<string, Stretch>();
  for (let at = 0; at + 1 < times.length; at++) {
    const [from, to] = [times[at]!, times[at + 1]!];
    const covers = shift.people.map((person, who) => {
      const off =
        from < windows[who]!.from ||
        to > ends[who]! ||
        person.offs.some((one) => from < one.from + one.minutes && to > one.from);
      if (off) return null;
      return anySkill ? Object.keys(person.skills) : coverAt(person, from);
    });
    if (covers.every((cover) => cover === null)) continue;
    const key = JSON.stringify(covers);
    const known = stretches.get(key);
    if (known === undefined) stretches.set(key, { minutes: to - from, covers });
    else known.minutes += to - from;
  }
  return [...stretches.values()];
}

const coverAt = (person: ResolvedPerson, time: number): string[] =>
  person.cover.findLast((change) => change.from <= time)?.steps ?? [];

/** Everything a person may be set to at some time of the shift. */
export function coveredBy(person: ResolvedPerson, anySkill = false): string[] {
  return anySkill ? Object.keys(person.skills) : [...new Set(person.cover.flatMap((change) => change.steps))];
}

/** Time factor of a person at a step; 1 where the file says nothing. */
export const factorOf = (person: ResolvedPerson, step: string): number => person.skills[step]?.factor ?? 1;

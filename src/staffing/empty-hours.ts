/** Steps that are left alone for long because whoever stands there comes late or goes home early. */
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import { stepsAt } from './rules.ts';

/** Minutes without anybody that are worth a word. */
const LONG = 60;

export interface EmptyHours {
  step: string;
  name: string;
  /** Minutes from the start. */
  from: number;
  to: number;
}

/** The longest such stretch of each step that somebody stands at some of the day; breaks aside. */
export function emptyHours({ steps, people, length }: ResolvedShift): EmptyHours[] {
  const present = people.filter(({ chance }) => chance > 0);
  const cuts = [
    0,
    length,
    ...present.flatMap(({ from, to, cover }) => [from, to, ...cover.map((one) => one.from)]),
  ]
    .filter((time) => time >= 0 && time <= length)
    .sort((a, b) => a - b);
  const at = (person: ResolvedPerson, step: string, time: number): boolean =>
    person.from <= time && time < person.to && stepsAt(person, time).includes(step);
  return steps.flatMap(({ id, name, kind }): EmptyHours[] => {
    if (kind !== 'hands') return [];
    const alone: EmptyHours[] = [];
    for (const [i, from] of cuts.slice(0, -1).entries()) {
      const to = cuts[i + 1]!;
      if (from === to || present.some((person) => at(person, id, from))) continue;
      const last = alone.at(-1);
      if (last?.to === from) last.to = to;
      else alone.push({ step: id, name, from, to });
    }
    const longest = alone.sort((a, b) => b.to - b.from - (a.to - a.from))[0];
    const never = longest !== undefined && longest.to - longest.from === length;
    return longest === undefined || never || longest.to - longest.from < LONG ? [] : [longest];
  });
}

/**
 * The choices there are at each point of a draft. The search and the listing of all plans both draw on these
 * and on nothing else.
 */
import { isMovable } from './draft.ts';
import { plannedMinutes, type Day } from './question.ts';

/** Minutes by which somebody's breaks may come later. */
const LATER = [15, 30];
/** Minutes before the end at which the last piece that ties gear up may be begun. */
const BEFORE_END = [30, 60, 90];
const MOST_TIMES = 4;

/**
 * Times at which posts may change: ends of breaks, when people come back anyway; without breaks, the thirds
 * of the shift.
 */
export function changeTimes(day: Day): number[] {
  const { breaks, length } = day.shift;
  const ends = [...new Set(breaks.map((one) => one.from + one.minutes))].filter(
    (time) => time >= 60 && time <= length - 60,
  );
  const times =
    ends.length > 0
      ? ends
      : [1, 2]
          .map((third) => Math.round((third * length) / 3 / 15) * 15)
          .filter((time) => time > 0 && time < length);
  times.sort((a, b) => a - b);
  const every = Math.ceil(times.length / MOST_TIMES);
  return times.filter((_, at) => at % every === 0);
}

/**
 * Minutes by which a person's breaks may come later, 0 first; only 0 for those with times away, whose breaks
 * fall to another line.
 */
export function breakChoices(day: Day, id: string): number[] {
  const person = day.shift.people.find((one) => one.id === id)!;
  const movable = person.breaks.filter((one) => isMovable(one, person));
  const still = person.breaks.filter((one) => !movable.includes(one));
  if (!day.vary.breaks || movable.length === 0 || person.away.length > 0) return [0];
  const fits = (later: number): boolean =>
    movable.every((one) => {
      const from = one.from + later;
      const clear = still.every(
        (other) => from >= other.from + other.minutes || from + one.minutes <= other.from,
      );
      return clear && from + one.minutes <= person.to - day.shift.tidyUp;
    });
  return [0, ...LATER.filter(fits)];
}

/** Steps that tie gear up, with the times after which they may no longer be begun; null is as in the file. */
export function lastStartChoices(day: Day): Record<string, (number | null)[]> {
  if (!day.vary.lastStart) return {};
  const taking = day.shift.steps.filter((step) => step.kind === 'hands' && step.takes.length > 0);
  // A day's last glue-up belongs in its second half, after everybody has come.
  const earliest = Math.max(day.shift.length / 2, ...day.shift.people.map((person) => person.from + 30));
  return Object.fromEntries(
    taking.map((step) => {
      const latest = step.lastStart ?? day.shift.length;
      return [
        step.id,
        [
          null,
          ...BEFORE_END.map((minutes) => day.shift.length - minutes).filter(
            (time) => time >= earliest && time < latest,
          ),
        ],
      ];
    }),
  );
}

/** Caps in quarter hours, at most four of them, the largest being what may be asked for. */
export function overtimeCaps(day: Day): number[] {
  if (day.overtime === null || day.overtime.who.length === 0) return [];
  const { cap } = day.overtime;
  const step = Math.max(15, Math.ceil(cap / 4 / 5) * 5);
  const caps: number[] = [];
  for (let minutes = step; minutes < cap; minutes += step) caps.push(minutes);
  return [...caps, cap];
}

/** Whether a person may stay so long: the file's hours a day, unpaid breaks off. */
export function mayStayFor(day: Day, id: string, cap: number): boolean {
  const most = day.limits.hoursPerDay;
  if (day.overtime === null || !day.overtime.who.includes(id)) return false;
  return most === null || plannedMinutes(day.shift.people.find((one) => one.id === id)!) + cap <= most * 60;
}

/** More steps than this make too many lists. */
const MOST_LISTED = 7;

/**
 * The lists of steps a person may be given, in the orders the question leaves open; null where there are too
 * many to list.
 */
export function postLists(day: Day, id: string): string[][] | null {
  const usable = day.usable[id]!;
  if (usable.length > MOST_LISTED) return null;
  const file = day.shift.people.find((one) => one.id === id)!.cover[0]!.steps;
  const sets = day.vary.posts ? subsets(usable) : [usable.filter((step) => file.includes(step))];
  return sets
    .filter((set) => set.length > 0)
    .flatMap((set) => (day.vary.order ? orders(set) : [inOrderOf(set, file)]));
}

export const subsets = <T>(items: T[]): T[][] =>
  items.reduce<T[][]>((sets, item) => [...sets, ...sets.map((set) => [...set, item])], [[]]);

const orders = (steps: string[]): string[][] =>
  steps.length < 2
    ? [steps]
    : steps.flatMap((step, at) => orders(steps.filter((_, i) => i !== at)).map((rest) => [step, ...rest]));

/** In the order the file prefers, the rest behind. */
const inOrderOf = (set: string[], preferred: string[]): string[] => [
  ...preferred.filter((step) => set.includes(step)),
  ...set.filter((step) => !preferred.includes(step)),
];

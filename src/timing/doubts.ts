/**
 * What a range made from these times cannot know: whether the people who were not timed are as quick, whether
 * the rest of the day is like the hours that were, whether other days are like this one. A range is only as
 * good as what was looked at is like the rest, so each is said where the list gives reason to.
 */
import { log } from '../random/exact.ts';
import { resolve, type ResolvedShift } from '../scenario/resolve.ts';
import { minutesOfClock } from '../scenario/clock.ts';
import type { Scenario } from '../scenario/schema.ts';
import { shared } from '../study/intervals/interval.ts';
import { studentQuantile } from '../study/intervals/student-quantile.ts';
import { effectsOf } from './effects.ts';
import { luckOf } from './luck.ts';
import type { Group } from './groups.ts';
import type { Observation } from './observation.ts';

export type Doubt =
  /** Somebody's pieces take longer than somebody else's. `people`: their ids. */
  | { kind: 'people differ'; people: string[] }
  /** Several people stand at the step (their ids), and the list does not say whose pieces these are. */
  | { kind: 'whose'; people: string[]; untold: number }
  /** All begun in one part of the day: clock minutes of the first and the last, and of the shift's ends. */
  | { kind: 'part of the day'; from: number; to: number; start: number; end: number }
  /** Pieces take so many times as long an hour later. */
  | { kind: 'the hour matters'; anHour: number }
  /** The days of the list differ by more than its times do within a day. */
  | { kind: 'days differ'; days: number }
  | { kind: 'one day'; day: string };

const FEWEST = 5;
/** Times that lie within less than this share of the shift say little about the rest of it. */
const A_PART = 0.5;

/**
 * Of base minutes: what the file's paces and products explain is no reason to doubt.
 *
 * @param several places are looked at together: each finding holds for all of them (Bonferroni).
 */
export function doubtsOf(scenario: Scenario, group: Group, confidence = 0.95, several = 1): Doubt[] {
  if (group.observations.length < FEWEST) return [];
  const shift = resolve(scenario);
  const each = shared(confidence, several);
  const observations = group.observations.map((one, i) => ({ ...one, minutes: group.minutes[i]! }));
  const based = { ...group, observations };
  return [
    ...peopleDoubts(shift, based, confidence),
    ...hourDoubts(shift, observations, each),
    ...dayDoubts(shift, based, each),
  ];
}

function peopleDoubts(shift: ResolvedShift, { step, observations }: Group, confidence: number): Doubt[] {
  const { effects } = effectsOf(observations, confidence);
  const differ = effects.filter(({ kind, verdict }) => kind === 'person' && verdict !== 'cannot tell');
  if (differ.length > 0)
    return [
      { kind: 'people differ', people: [...new Set(differ.flatMap(({ id, against }) => [against, id]))] },
    ];
  const there = shift.people.filter(
    ({ cover, chance }) => chance > 0 && cover.some(({ steps }) => steps.includes(step)),
  );
  const untold = observations.filter(({ person }) => person === null).length;
  return there.length < 2 || untold * 2 < observations.length
    ? []
    : [{ kind: 'whose', people: there.map(({ id }) => id), untold }];
}

/** Whether they were taken in one part of the day, and whether the hour matters within it. */
function hourDoubts(shift: ResolvedShift, observations: readonly Observation[], confidence: number): Doubt[] {
  const told = observations.flatMap(({ at, minutes }) => (at === undefined ? [] : [{ at, minutes }]));
  if (told.length < FEWEST || told.length * 2 < observations.length) return [];
  const start = minutesOfClock(shift.start);
  const [from, to] = [Math.min(...told.map(({ at }) => at)), Math.max(...told.map(({ at }) => at))];
  const part: Doubt[] =
    to - from < A_PART * shift.length
      ? [{ kind: 'part of the day', from, to, start, end: start + shift.length }]
      : [];
  const slope = slopeOf(
    told.map(({ at }) => at / 60),
    told.map(({ minutes }) => log(minutes)),
    confidence,
  );
  return slope === null ? part : [...part, { kind: 'the hour matters', anHour: Math.exp(slope) }];
}

/** Least squares slope where it is surely not 0 (Student's t), else null. */
function slopeOf(x: readonly number[], y: readonly number[], confidence: number): number | null {
  const count = x.length;
  const [meanX, meanY] = [x, y].map((list) => list.reduce((sum, one) => sum + one, 0) / count) as [
    number,
    number,
  ];
  const squares = x.reduce((sum, one) => sum + (one - meanX) ** 2, 0);
  if (!(squares > 0)) return null;
  const slope = x.reduce((sum, one, i) => sum + (one - meanX) * (y[i]! - meanY), 0) / squares;
  const left = y.reduce((sum, one, i) => sum + (one - meanY - slope * (x[i]! - meanX)) ** 2, 0);
  const error = Math.sqrt(left / (count - 2) / squares);
  return Math.abs(slope) > studentQuantile(confidence, count - 2) * error ? slope : null;
}

/** So many dealings of the times to the days; the days differ where hardly any is as far apart. */
const DEALINGS = 999;

/**
 * Pitman's permutation test of the spread between days (1938, from memory): exact for any curve, as days that
 * are alike could have had each other's times.
 */
function dayDoubts({ seed }: ResolvedShift, { step, observations }: Group, confidence: number): Doubt[] {
  const dated = observations.flatMap(({ date, minutes }) =>
    date === null ? [] : [{ date, y: log(minutes) }],
  );
  const days = [...new Set(dated.map(({ date }) => date))];
  if (dated.length < FEWEST || dated.length * 2 < observations.length) return [];
  if (days.length === 1) return [{ kind: 'one day', day: days[0]! }];
  const dayOf = dated.map(({ date }) => days.indexOf(date));
  const values = dated.map(({ y }) => y);
  const apart = betweenDays(dayOf, values, days.length);
  let asFar = 1;
  for (let dealing = 0; dealing < DEALINGS; dealing++) {
    const luck = luckOf(`days of ${step} ${seed}`, dealing, 0);
    for (let i = values.length - 1; i > 0; i--) {
      const j = Math.floor(luck(i) * (i + 1));
      [values[i], values[j]] = [values[j]!, values[i]!];
    }
    if (betweenDays(dayOf, values, days.length) >= apart - 1e-12) asFar += 1;
  }
  return asFar / (DEALINGS + 1) <= 1 - confidence ? [{ kind: 'days differ', days: days.length }] : [];
}

/** Squares of the days' sums over their counts: all of the spread between days that dealing can change. */
function betweenDays(dayOf: readonly number[], values: readonly number[], days: number): number {
  const [sums, counts] = [new Float64Array(days), new Float64Array(days)];
  values.forEach((value, i) => {
    sums[dayOf[i]!]! += value;
    counts[dayOf[i]!]! += 1;
  });
  return sums.reduce((sum, one, day) => sum + (one * one) / counts[day]!, 0);
}

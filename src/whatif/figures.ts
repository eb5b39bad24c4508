/** Numbers, clock times and times of a step as they are typed. */
import { curveOf, type Time } from '../duration/time.ts';
import { clockOfMinutes } from '../scenario/clock.ts';
import { NotSo } from './what-if.ts';

/** A number as it stands in a label: all of its figures, so that two that differ are seen to. */
export const shown = (value: number): string => String(Math.round(value * 1e6) / 1e6).replace('-', '−');

/**
 * "so many" or, with a sign, "so many more or fewer".
 * @returns the number it comes to
 */
export function numberOf(given: string, now: number, least: number, most: number, whole = false): number {
  const text = given.trim();
  const value = /^[+-]?\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
  const to = /^[+-]/.test(text) ? now + value : value;
  if (Number.isNaN(to)) throw new NotSo(`“${given}” is no number`);
  if (whole && !Number.isInteger(to)) throw new NotSo(`“${given}” is no whole number`);
  if (to < least || to > most)
    throw new NotSo(
      text === shown(to)
        ? `${shown(to)} is not between ${least} and ${most}`
        : `it comes to ${shown(to)}, which is not between ${least} and ${most}`,
    );
  return Math.round(to * 1e6) / 1e6;
}

/** A number without a sign in front. */
export function plainNumber(given: string, least: number, most: number, whole = false): number {
  if (/^\s*[+-]/.test(given)) throw new NotSo(`“${given}” is no plain number`);
  return numberOf(given, 0, least, most, whole);
}

/** Minutes with a sign in front: so much later or earlier. */
export function shiftOfMinutes(given: string, most = 720): number {
  if (!/^[+-]\d+$/.test(given.trim()))
    throw new NotSo(`“${given}” is no +15 or -15 (minutes later or earlier)`);
  const minutes = Number(given);
  if (Math.abs(minutes) > most) throw new NotSo(`“${given}” is more than ${most} minutes`);
  return minutes;
}

/** "9:30" and "09:30" are "09:30". */
export function clockTyped(given: string): string {
  const [, hours, minutes] = /^(\d{1,2}):(\d\d)$/.exec(given.trim()) ?? [];
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59)
    throw new NotSo(`“${given}” is no time of day such as 09:30`);
  return clockOfMinutes(Number(hours) * 60 + Number(minutes));
}

/** The two parts of "THING=VALUE"; `null` for the thing where there is no "=". */
export function parted(given: string, at = '='): [thing: string | null, value: string] {
  const place = given.indexOf(at);
  return place < 0
    ? [null, given.trim()]
    : [given.slice(0, place).trim(), given.slice(place + at.length).trim()];
}

/** The same with the thing asked for. */
export function bothParts(given: string, at = '='): [thing: string, value: string] {
  const [thing, value] = parted(given, at);
  if (thing === null || thing === '' || value === '')
    throw new NotSo(`“${given}” does not have both parts around “${at}”`);
  return [thing, value];
}

/** A time whose usual minutes are then `given` ("35"), or moved by it ("+5"); the whole curve moves. */
export function timeMoved(time: Time, given: string): { by: number; usual: number } {
  const now = curveOf(time).typical(time);
  const usual = numberOf(given, now, 0, 100_000);
  const by = usual - now;
  if (laterBy(time, by) === null)
    throw new NotSo(`a time that is “${curveOf(time).words.short(time)}” cannot be moved so`);
  return { by, usual };
}

/** The whole curve so many minutes later; null where that is no time. */
export function laterBy(time: Time, by: number): Time | null {
  if (typeof time === 'number') return rounded(time + by);
  const curve = curveOf(time);
  const timings = curve.timings(time);
  // Timings stay as they were measured; what would be moves each of them.
  if (timings.length > 0 && Math.min(...timings) + by >= 0)
    return curve.mapMinutes(time, (minutes) => minutes + by);
  const usual = curve.typical(time);
  // A curve that begins at 0 cannot begin later; all of it takes so many times as long.
  return (
    curve.later(time, by) ??
    (usual > 0 && usual + by > 0
      ? curve.mapMinutes(time, (minutes) => (minutes * (usual + by)) / usual)
      : null)
  );
}

const rounded = (minutes: number): number | null => (minutes < 0 ? null : Math.round(minutes * 1e6) / 1e6);

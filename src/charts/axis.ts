/** Axes: a clock along the shift, and plain numbers. */
import { scaleLinear, type ScaleLinear } from 'd3';
import { clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import { rule } from './frame.ts';
import type { Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';

export type Scale = ScaleLinear<number, number>;

/** Decimals that tell these ticks apart. */
const decimalsOf = (ticks: number[]): number => (ticks.every((tick) => Number.isInteger(tick)) ? 0 : 1);

/** From data to px, ends rounded outward; no empty stretch where all values are one. */
export function along(values: number[], from: number, to: number): Scale {
  const known = values.filter((value) => Number.isFinite(value));
  const [least, most] = known.length === 0 ? [0, 1] : [Math.min(...known), Math.max(...known)];
  const [low, high] = least === most ? [least - 1, most + 1] : [least, most];
  return scaleLinear().domain([low, high]).range([from, to]).nice(6);
}

/** The figures that are written along it. */
export const ticksOf = (scale: Scale): number[] => {
  const [from, to] = scale.range() as [number, number];
  return scale.ticks(Math.max(2, Math.min(10, Math.floor((to - from) / 64))));
};

/** Figures above y. */
export function numbersAbove(scale: Scale, y: number): Markup[] {
  const ticks = ticksOf(scale);
  return ticks.map((tick) =>
    words(scale(tick), y - 6, figure(tick, decimalsOf(ticks)), {
      size: SMALL,
      ink: 'muted',
      anchor: 'middle',
    }),
  );
}

/** Figures below y, with a hairline up to `top` at each. */
export function numbersBelow(scale: Scale, y: number, top: number, decimals?: number): Markup[] {
  const ticks = ticksOf(scale);
  return ticks.flatMap((tick) => [
    rule(scale(tick), top, scale(tick), y),
    words(scale(tick), y + SMALL + 5, figure(tick, decimals ?? decimalsOf(ticks)), {
      size: SMALL,
      ink: 'muted',
      anchor: 'middle',
    }),
  ]);
}

export interface Hours {
  /** Clock of the start, "HH:MM". */
  start: string;
  /** Minutes drawn. */
  length: number;
  breaks: { from: number; minutes: number; name: string }[];
  /** Clock times by the half-day. Default false: 24 h. */
  twelve?: boolean;
}

/** A clock time so many minutes after the start, as 13:30 or 1:30 pm. */
export function clockAt({ start, twelve = false }: Hours, minutes: number): string {
  const clock = clockOfMinutes(minutesOfClock(start) + minutes);
  if (!twelve) return clock;
  const hour = Number(clock.slice(0, 2));
  return `${hour % 12 === 0 ? 12 : hour % 12}:${clock.slice(3)} ${hour < 12 ? 'am' : 'pm'}`;
}

/** Full hours of the clock inside the stretch, as minutes from its start, no closer than fits. */
export function hourMarks(hours: Hours, width: number): number[] {
  const first = (60 - (minutesOfClock(hours.start) % 60)) % 60;
  // A clock time is about 34 px wide, by the half-day 54; the first and the last stand inside the ends, half
  // a width nearer to the next.
  const room = hours.twelve === true ? 90 : 62;
  const step = [60, 120, 180, 240, 360].find((one) => (width * one) / hours.length >= room) ?? 480;
  const marks: number[] = [];
  for (let minute = first; minute <= hours.length; minute += step) marks.push(minute);
  return marks;
}

/** The hours below y, with a hairline up to `top` at each. */
export function hoursBelow(hours: Hours, scale: Scale, y: number, top: number): Markup[] {
  const [from, to] = scale.range() as [number, number];
  return hourMarks(hours, to - from).flatMap((minute) => [
    rule(scale(minute), top, scale(minute), y),
    words(scale(minute), y + SMALL + 5, clockAt(hours, minute), {
      size: SMALL,
      ink: 'muted',
      anchor: scale(minute) - from < 16 ? 'start' : to - scale(minute) < 16 ? 'end' : 'middle',
    }),
  ]);
}

/**
 * One choice's good units along a scale that all choices share: twenty dots for twenty shifts as they fall,
 * the bar where the mean lies, and the way from today's mean to it.
 */
import type { Scale } from './axis.ts';
import { rule } from './frame.ts';
import { element, inked, place, type Markup } from './svg.ts';

export interface Strip {
  /** Twenty shifts that stand for all, see `twentyShifts`. */
  twenty: number[];
  mean: number;
  low: number;
  high: number;
}

/** The same for all rows. */
export interface Look {
  target: number | null;
  scale: Scale;
  /** Px that the dots of one value may take side by side. */
  wide: number;
  dot: number;
}

const BAR = 6;
const LARGEST_DOT = 3.4;
const SMALLEST_DOT = 1.3;

const counted = (values: number[]): Map<number, number> => {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
};

/** Px between two values next to each other, over all rows: so wide may the dots of one value stand. */
export function roomBetween(strips: readonly Strip[], scale: Scale): number {
  const values = [...new Set(strips.flatMap(({ twenty }) => twenty))].sort((a, b) => a - b);
  const gaps = values.slice(1).map((value, i) => value - values[i]!);
  return Math.abs(scale(gaps.length === 0 ? 1 : Math.min(...gaps)) - scale(0));
}

/** The largest dots with which the tallest heap of all rows still fits; the same for all rows. */
export function dotSize(strips: readonly Strip[], wide: number, height: number): number {
  const most = Math.max(1, ...strips.flatMap(({ twenty }) => [...counted(twenty).values()]));
  for (let dot = LARGEST_DOT; dot > SMALLEST_DOT; dot -= 0.1)
    if (Math.ceil(most / abreast(wide, dot)) * dot * 2 <= height) return dot;
  return SMALLEST_DOT;
}

const abreast = (wide: number, dot: number): number => Math.max(1, Math.floor((wide - 2) / (2 * dot)));

/** `bar`: the height of the bar of the mean, px; the dots stand above it. */
export function dotsOf({ twenty }: Strip, { target, scale, wide, dot }: Look, bar: number): Markup[] {
  const columns = abreast(wide, dot);
  const base = bar - BAR / 2 - 3;
  return [...counted(twenty)].flatMap(([value, count]) =>
    Array.from({ length: count }, (_, i) => {
      const row = Math.floor(i / columns);
      const inRow = Math.min(columns, count - row * columns);
      return element('circle', {
        cx: scale(value) + ((i % columns) - (inRow - 1) / 2) * dot * 2,
        cy: base - dot - row * dot * 2,
        r: dot - 0.5,
        ...inked({ fill: target === null || value >= target ? 'muted' : 'paper', stroke: 'muted' }),
        'stroke-width': 1,
      });
    }),
  );
}

export function barOf({ mean, low, high }: Strip, scale: Scale, bar: number): Markup[] {
  if (!Number.isFinite(mean)) return [];
  const from = Math.min(scale(low), scale(mean) - 1.5);
  return [
    element('rect', {
      x: from,
      y: bar - BAR / 2,
      width: Math.max(3, scale(high) - from),
      height: BAR,
      ...inked({ fill: 'ink' }),
    }),
    rule(scale(mean), bar - 7, scale(mean), bar + 7, 'ink', 2),
  ];
}

/** An arrow from today's mean to this one, under the bar; none where they are too close to draw one. */
export function wayOf(today: number, { mean }: Strip, scale: Scale, bar: number): Markup[] {
  const [from, to] = [scale(today), scale(mean)];
  if (!Number.isFinite(from) || !Number.isFinite(to) || Math.abs(to - from) < 8) return [];
  const y = bar + 9;
  const back = to > from ? -5 : 5;
  return [
    rule(from, y, to, y, 'ink', 1.4),
    element('path', {
      d: `M${place(to + back)} ${place(y - 3)}L${place(to)} ${place(y)}L${place(to + back)} ${place(y + 3)}`,
      ...inked({ fill: 'none', stroke: 'ink' }),
      'stroke-width': 1.4,
    }),
  ];
}

/** What both forms of choices side by side share. */
import { ticksOf, type Scale } from './axis.ts';
import { rule, type Foot } from './frame.ts';
import type { Strip } from './good-strip.ts';
import { element, inked, type Child, type Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';
import { counted } from '../words/words.ts';

export interface Ranged {
  estimate: number;
  low: number;
  high: number;
}

export interface Choice {
  /** Carried by the row as data-row, for those who touch it. */
  id: string;
  name: string;
  /** Good units of single shifts, any order, any number; empty while none has been run. */
  values: ArrayLike<number>;
  /** Of good units, with the interval of the mean, along the axis. */
  mean: Ranged;
  /** As it is written beside the row, decimals alike in all rows: "23.3". */
  meanWords: string;
  /** Against the first row: "+3.5 (2.4 to 4.6)"; of the first row, what the figure above it is. */
  differenceWords: string;
  /** Good units a shift against the first row; null of the first. */
  difference: Ranged | null;
  /** By step of `steps` and person of `people`, means of a shift; null while it is not known. */
  waiting: (number | null)[] | null;
  after: (number | null)[] | null;
}

export interface SideBySide {
  title: string;
  description: string;
  /** The first is today's set-up. */
  rows: Choice[];
  target: number | null;
  steps: string[];
  people: string[];
  /** The row that is looked at; null: none. */
  looked: string | null;
  foot: Foot;
}

export interface DrawnRow extends Strip {
  row: Choice;
}

export const DOTS_WORDS = ({ target, foot }: SideBySide): string =>
  [
    `Each dot is ${foot.inARow === undefined || foot.inARow === 1 ? 'one shift' : `${counted(foot.inARow, 'shift')} in a row, one run`} in twenty${target === null ? '' : ', filled where it makes what is due'}; the bar is where the mean lies, the arrow the way from today’s.`,
    'Waiting: pieces before each step, on average through the shift.',
    ...(foot.note === undefined ? [] : [foot.note]),
  ].join(' ');

/** "22 due", kept inside the ends of the scale. */
export function dueWords(target: number, scale: Scale, y: number): Markup {
  const [left, right] = scale.range() as [number, number];
  const x = scale(target);
  return words(x, y, `${figure(target, 0)} due`, {
    size: SMALL,
    weight: 600,
    anchor: x - left < 24 ? 'start' : right - x < 24 ? 'end' : 'middle',
  });
}

/** The scale, the target (dashed) and today's mean, in the strip of one row: none runs through words. */
export function uprights(
  { target }: SideBySide,
  today: number | null,
  scale: Scale,
  { top, bottom }: { top: number; bottom: number },
): Child[] {
  return [
    ticksOf(scale).map((tick) => rule(scale(tick), top, scale(tick), bottom)),
    today === null || !Number.isFinite(today)
      ? null
      : rule(scale(today), top, scale(today), bottom, 'muted', 1.2),
    target === null ? null : rule(scale(target), top, scale(target), bottom, 'ink', 1.4, '5 3'),
  ];
}

/** An upright bar at the edge of the row that is looked at: no ground, so that halos of words stay unseen. */
export const lookedAt = (
  { id }: Choice,
  looked: string | null,
  { y, height }: { y: number; height: number },
): Child =>
  id === looked ? element('rect', { x: 0, y, width: 4, height, ...inked({ fill: 'ink' }) }) : null;

/** Over everything else, so that a touch anywhere in the row is one of the row. */
export const touchable = (
  { id }: Choice,
  place: { x: number; y: number; width: number; height: number },
): Markup => element('rect', { ...place, fill: 'none', 'pointer-events': 'all', 'data-row': id });

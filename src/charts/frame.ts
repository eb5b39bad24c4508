/**
 * What every picture has: a title and a description for those who hear it, hatches, and a foot that says what
 * it rests on.
 */
import { MEANINGS, type Meaning } from './palette.ts';
import { element, inked, type Child, type Markup } from './svg.ts';
import { runsOf } from '../words/words.ts';
import { lines, SMALL, wrapped } from './words.ts';

/**
 * Width in px (340 to 1100 make sense); `id` sets the picture's inner names apart from those of others on the
 * page.
 */
export interface Size {
  width: number;
  id: string;
}

/** What a picture rests on. */
export interface Foot {
  /** Replications run, each option. Left out where nothing was run. */
  shifts?: number;
  /** Shifts in a row that each of them is; left out: one. */
  inARow?: number;
  seed?: string;
  /** What the axis counts, "good units a shift". */
  unit: string;
  /** One more sentence. */
  note?: string;
}

/** The figures of a picture as a table, the first column the row's name. */
export interface Table {
  head: string[];
  rows: string[][];
}

export function footWords({ shifts, inARow, seed, unit, note }: Foot): string {
  const from =
    shifts === undefined
      ? ''
      : ` From ${runsOf(shifts, inARow)}${seed === undefined ? '' : `, seed “${seed}”`}.`;
  return `${unit[0]!.toUpperCase()}${unit.slice(1)}.${from}${note === undefined ? '' : ` ${note}`}`;
}

export const SIDE = 2;
const FOOT_LINE = 1.4;

/** The whole picture. `height` is that of the body; the foot comes below it. */
export function picture(
  { width, id }: Size,
  {
    title,
    description,
    foot,
    height,
    hatched = false,
    text,
  }: {
    title: string;
    description: string;
    /** Null: none. */
    foot: Foot | null;
    height: number;
    hatched?: boolean;
    /** Size of the foot's words, px, where they are to be read as well as the picture's. */
    text?: number;
  },
  ...body: Child[]
): string {
  const size = text ?? SMALL;
  const footLines = foot === null ? [] : wrapped(footWords(foot), width - 2 * SIDE, size);
  const full = Math.ceil(height + 14 + footLines.length * size * FOOT_LINE);
  const { svg } = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${Math.round(width)} ${full}`,
      width: Math.round(width),
      height: full,
      role: 'img',
      'aria-labelledby': `${id}-title ${id}-desc`,
      class: 'picture',
      'font-family': "'Public Sans', 'Segoe UI', Verdana, sans-serif",
    },
    element('title', { id: `${id}-title` }, title),
    element('desc', { id: `${id}-desc` }, description),
    hatched && hatches(id),
    ...body,
    lines(SIDE, height + 12 + size, footLines, { size, ink: text === undefined ? 'muted' : 'ink' }),
  );
  return svg;
}

/** The fill of a meaning: its colour under its own hatch. Needs `hatched: true` in the picture. */
export const hatchOf = (id: string, meaning: Meaning): string => `url(#${id}-${meaning})`;

/**
 * One pattern a meaning, different without any colour: glue-up leans, unclamping stands, cure is dotted,
 * waiting for hands is crossed, other work lies flat, a break is a light upright line, free is bare paper.
 */
function hatches(id: string): Markup {
  const line = (d: string, ink: 'paper' | 'muted' = 'paper', width = 1.4): Markup =>
    element('path', { d, ...inked({ fill: 'none', stroke: ink }, 'hatch'), 'stroke-width': width });
  const marks: Record<Meaning, Child> = {
    'glue-up': line('M-2 2L2 -2M0 8L8 0M6 10L10 6'),
    unclamping: line('M2 0V8M6 0V8', 'paper', 1.8),
    cure: element('circle', { cx: 4, cy: 4, r: 1.3, ...inked({ fill: 'paper' }, 'hatch') }),
    waiting: line('M0 0L8 8M0 8L8 0', 'paper', 1),
    other: line('M0 4H8'),
    // No thinner than 1: WebKit draws nothing of a thinner line that is let through in part.
    off: line('M4 0V8', 'muted', 1),
    free: null,
  };
  const ground = (meaning: Meaning): Markup =>
    element('rect', {
      width: 8,
      height: 8,
      ...inked({ fill: meaning === 'free' || meaning === 'off' ? 'paper' : meaning }, 'ground'),
    });
  return element(
    'defs',
    {},
    MEANINGS.map((meaning) =>
      element(
        'pattern',
        { id: `${id}-${meaning}`, width: 8, height: 8, patternUnits: 'userSpaceOnUse' },
        ground(meaning),
        marks[meaning],
      ),
    ),
  );
}

/** A straight line. */
export const rule = (
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  ink: 'hairline' | 'ink' | 'muted' = 'hairline',
  width = 1,
  dash?: string,
): Markup =>
  element('line', {
    x1,
    y1,
    x2,
    y2,
    ...inked({ stroke: ink }),
    'stroke-width': width,
    'stroke-dasharray': dash,
  });

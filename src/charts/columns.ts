/**
 * Small upright marks, one a thing, on a scale that all rows share, under slanted names: what waits before
 * each step, minutes of each person.
 */
import { scaleLinear, ticks } from 'd3';
import { rule } from './frame.ts';
import { element, inked, place, type Child, type Ink, type Markup } from './svg.ts';
import { cut, figure, SMALL, widthOf, words } from './words.ts';

export interface Columns {
  names: string[];
  /** By row, by name; null where a thing is not there in that row. */
  values: ((number | null)[] | null)[];
}

/** So much is nothing: neither a mark nor a figure is worth its ink. */
const NOTHING = 0.05;
const FIGURE = 12;
/** A column no narrower than its figure. */
export const PITCH = 25;
const SLANT = 48;

/** The largest first, so many at the most, in their own order; nothing that is nowhere of any size. */
export function kept({ names, values }: Columns, most: number): { columns: Columns; left: number } {
  const largest = names.map((_, i) => Math.max(0, ...values.map((row) => row?.[i] ?? 0)));
  const worth = names.map((_, i) => i).filter((i) => largest[i]! >= NOTHING);
  const taken = [...worth].sort((a, b) => largest[b]! - largest[a]!).slice(0, most);
  const shown = worth.filter((i) => taken.includes(i));
  return {
    columns: {
      names: shown.map((i) => names[i]!),
      values: values.map((row) => (row === null ? null : shown.map((i) => row[i] ?? null))),
    },
    left: worth.length - shown.length,
  };
}

export const mostOf = ({ values }: Columns): number =>
  Math.max(0, ...values.flatMap((row) => row ?? []).map((value) => value ?? 0));

/** Figures of one panel are written alike: tenths while all are small. */
export const decimalsOf = (columns: Columns): number => (mostOf(columns) < 9.95 ? 1 : 0);

/** A round figure that the scale reaches up to. */
export function roundTop(most: number): number {
  const step = ticks(0, Math.max(most, 1), 2);
  const last = step.at(-1)!;
  return last >= most ? last : last + (step[1]! - step[0]!);
}

export interface Frame {
  /** Left edge and width, px. */
  x: number;
  width: number;
}

/** So high are the slanted names, px; 0 where there are none. */
export const slantHeight = (names: string[]): number =>
  names.length === 0 ? 0 : Math.min(96, Math.max(...names.map((name) => widthOf(name, SMALL))) * SINE + 12);

const SINE = Math.sin((SLANT * Math.PI) / 180);

/** The names, each rising from above its column; `room` px from its foot to its head. */
export const slantedNames = (names: string[], { x }: Frame, y: number, room: number): Markup[] =>
  names.map((name, i) => {
    const [at, foot] = [x + (i + 0.5) * PITCH + 3, y - 4];
    return element(
      'text',
      {
        transform: `translate(${place(at)} ${place(foot)}) rotate(-${SLANT})`,
        ...inked({ fill: 'muted' }),
        'font-size': SMALL,
      },
      cut(name, (room - 8) / SINE, SMALL),
    );
  });

/** The marks of one row between `top` and `bottom`, the figure over each. */
export function marks(
  row: (number | null)[] | null,
  {
    frame,
    top,
    bottom,
    most,
    decimals,
    ink,
  }: { frame: Frame; top: number; bottom: number; most: number; decimals: number; ink: Ink },
): Child[] {
  if (row === null) return [];
  const height = scaleLinear([0, roundTop(most)], [0, bottom - top - FIGURE - 2]);
  return [
    rule(frame.x, bottom, frame.x + frame.width, bottom, 'muted'),
    row.map((value, i): Child[] => {
      if (value === null || value < NOTHING) return [];
      const [x, tall] = [frame.x + (i + 0.5) * PITCH, height(value)];
      const text = figure(value, decimals);
      return [
        element('rect', {
          x: x - 5,
          y: bottom - tall,
          width: 10,
          height: Math.max(1, tall),
          ...inked({ fill: ink }),
        }),
        Number(text) === 0
          ? null
          : words(x, bottom - tall - 3, text, { size: FIGURE, anchor: 'middle', halo: true }),
      ];
    }),
  ];
}

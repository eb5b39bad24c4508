/**
 * Options side by side, one row each: twenty dots are twenty shifts as they fall (filled where the target is
 * made), the firm bar below is where the mean lies, and the difference to the base stands beside it in words.
 */
import { quantileSorted } from 'd3';
import { along, numbersBelow, type Scale } from './axis.ts';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { counted } from '../words/words.ts';
import { figure, lines, SMALL, TEXT, words, wrapped } from './words.ts';

export interface ComparisonRow {
  name: string;
  /** Good units of single shifts, any order, any number; empty while none has been run. */
  values: ArrayLike<number>;
  mean: number;
  /** Interval of the mean. */
  low: number;
  high: number;
  /** Against the base, or what is to be said of the row: "3.1 more (2.8 to 3.4)". */
  words: string;
}

export interface Comparison {
  title: string;
  description: string;
  rows: ComparisonRow[];
  target: number | null;
  foot: Foot;
}

const ascending = (values: ArrayLike<number>): number[] => Array.from(values).sort((a, b) => a - b);

export const DOTS = 20;
const DOT = 3.6;

/** Twenty shifts that stand for all: the values at one fortieth, three fortieths … of the way through. */
export function twentyShifts(values: ArrayLike<number>): number[] {
  const sorted = ascending(values);
  if (sorted.length === 0) return [];
  return Array.from(
    { length: DOTS },
    (_, i) => Math.round(quantileSorted(sorted, (i + 0.5) / DOTS)! * 2) / 2,
  );
}

export function comparisonPicture(data: Comparison, size: Size): string {
  const { width } = size;
  const wide = width >= 700;
  const [nameWidth, wordWidth] = wide ? [Math.min(220, width * 0.22), Math.min(240, width * 0.24)] : [0, 0];
  const rows = data.rows.map((row) => ({ ...row, twenty: twentyShifts(row.values) }));
  const scale = along(
    [
      ...rows.flatMap((row) => [...row.twenty, row.low, row.high]),
      ...(data.target === null ? [] : [data.target]),
    ],
    SIDE + nameWidth + 14,
    width - SIDE - wordWidth - 14,
  );
  const stack = Math.max(2, ...rows.map((row) => tallest(row.twenty)));
  const dot = Math.min(DOT, 40 / stack, Math.max(2, (Math.abs(scale(1) - scale(0)) - 2) / 2 / 1.1));
  const head = data.target === null ? 4 : 26;
  const plot = stack * dot * 2 + 22;
  const named = (row: ComparisonRow): string[] => wrapped(row.name, wide ? nameWidth : width - 2 * SIDE);
  const said = (row: ComparisonRow): string[] =>
    wrapped(row.words, wide ? wordWidth : width - 2 * SIDE, wide ? TEXT : SMALL + 1);
  const height = (row: ComparisonRow): number =>
    wide
      ? Math.max(plot, named(row).length * 20 + 8, said(row).length * 20 + 8) + 14
      : named(row).length * 20 + plot + said(row).length * 19 + 16;

  const body: Markup[] = [];
  let y = head;
  for (const row of rows) {
    const top = y + (wide ? 0 : named(row).length * 20);
    const base = top + plot - 18;
    body.push(...lines(SIDE, wide ? base + 2 : y + 15, named(row), { weight: 600, halo: true }));
    body.push(...dots(row.twenty, data.target, scale, base - 4, dot), ...bar(row, scale, base + 6));
    body.push(
      ...lines(
        wide ? width - SIDE - wordWidth : SIDE,
        wide ? base + 2 : top + plot + 10,
        said(row),
        wide ? {} : { size: SMALL + 1, ink: 'muted', halo: true },
      ),
    );
    y += height(row);
  }
  const axis = numbersBelow(scale, y, head);
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      foot: {
        ...data.foot,
        note: `${footOf(data)}${data.foot.note === undefined ? '' : ` ${data.foot.note}`}`,
      },
      height: y + 24,
    },
    axis,
    targetLine(data.target, scale, head, y),
    body,
  );
}

function footOf({ target, foot: { inARow = 1 } }: Pick<Comparison, 'target' | 'foot'>): string {
  const dot = inARow === 1 ? 'one shift' : `${counted(inARow, 'shift')} in a row, one run`;
  const filled = target === null ? '' : ', filled where it makes what is due';
  return `Each dot is ${dot} in twenty${filled}; the bar is where the mean lies.`;
}

const tally = (values: number[]): Map<number, number> => {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
};
const tallest = (values: number[]): number => Math.max(0, ...tally(values).values());

function dots(values: number[], target: number | null, scale: Scale, base: number, dot: number): Markup[] {
  return [...tally(values)].flatMap(([value, count]) =>
    Array.from({ length: count }, (_, i) =>
      element('circle', {
        cx: scale(value),
        cy: base - dot - i * dot * 2,
        r: dot - 0.6,
        ...inked(
          target === null || value >= target
            ? { fill: 'muted', stroke: 'muted' }
            : { fill: 'paper', stroke: 'muted' },
        ),
        'stroke-width': 1.1,
      }),
    ),
  );
}

function bar({ mean, low, high }: ComparisonRow, scale: Scale, y: number): Markup[] {
  if (!Number.isFinite(mean)) return [];
  const [from, to] = [scale(low), scale(high)];
  return [
    element('rect', {
      x: Math.min(from, scale(mean) - 1.5),
      y: y - 3.5,
      width: Math.max(3, to - from),
      height: 7,
      ...inked({ fill: 'ink' }),
    }),
    rule(scale(mean), y - 8, scale(mean), y + 8, 'ink', 2),
  ];
}

function targetLine(target: number | null, scale: Scale, top: number, bottom: number): Markup[] {
  if (target === null) return [];
  const [from, to] = scale.range() as [number, number];
  const x = scale(target);
  const label = `${figure(target, 0)} due`;
  return [
    rule(x, top - 4, x, bottom, 'ink', 1.4, '5 3'),
    words(x, top - 10, label, {
      size: SMALL,
      weight: 600,
      anchor: x - from < 30 ? 'start' : to - x < 30 ? 'end' : 'middle',
    }),
  ];
}

export function comparisonTable({ rows, target }: Comparison): Table {
  return {
    head: [
      'Option',
      'Mean',
      'Mean lies between',
      'Nine shifts in ten make',
      'Half make',
      'One in ten makes',
      ...(target === null ? [] : [`Makes ${target}`]),
      'Against the base',
    ],
    rows: rows.map((row) => {
      const sorted = ascending(row.values);
      const at = (share: number): string =>
        sorted.length === 0 ? '–' : figure(quantileSorted(sorted, share)!, 0);
      const made =
        target === null
          ? []
          : [`${figure((100 * sorted.filter((value) => value >= target).length) / sorted.length, 0)} %`];
      return [
        row.name,
        figure(row.mean),
        `${figure(row.low)} to ${figure(row.high)}`,
        at(0.1),
        at(0.5),
        at(0.9),
        ...made,
        row.words,
      ];
    }),
  };
}

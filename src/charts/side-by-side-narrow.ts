/** Side by side on a phone: the pictures of a row one under another, every mark with its name beside it. */
import { along, numbersAbove, numbersBelow } from './axis.ts';
import { decimalsOf, kept, mostOf, roundTop, type Columns } from './columns.ts';
import { picture, rule, SIDE, type Size } from './frame.ts';
import { barOf, dotSize, dotsOf, roomBetween, wayOf, type Look } from './good-strip.ts';
import {
  DOTS_WORDS,
  dueWords,
  lookedAt,
  touchable,
  uprights,
  type DrawnRow,
  type SideBySide,
} from './side-by-side-parts.ts';
import { element, inked, type Child } from './svg.ts';
import { cut, figure, lines, SMALL, widthOf, words, wrapped } from './words.ts';

const LINE = 19;
const STRIP = 22;
const GAP = 16;
/** A scale is repeated after so many rows: it would be out of sight by then. */
const MOST = 8;
const FIGURE = 36;
const SHORTEST = 24;
/** Right of the bar that marks a row. */
const LEFT = SIDE + 8;

export function narrowPicture(data: SideBySide, rows: DrawnRow[], size: Size): string {
  const { width } = size;
  const scale = along(
    [
      ...rows.flatMap(({ twenty, low, high }) => [...twenty, low, high]),
      ...(data.target === null ? [] : [data.target]),
    ],
    SIDE + 12,
    width - SIDE - 12,
  );
  const wide = roomBetween(rows, scale);
  const look: Look = { target: data.target, scale, wide, dot: dotSize(rows, wide, STRIP) };
  const lists = [
    {
      title: 'pieces waiting',
      empty: 'nothing waits',
      names: data.steps,
      values: data.rows.map((row) => row.waiting),
    },
    {
      title: 'min after the bell',
      empty: 'nobody stays',
      names: data.people,
      values: data.rows.map((row) => row.after),
    },
  ].map(({ title, empty, ...columns }) => ({ title, empty, columns: kept(columns, MOST).columns }));
  const places = placesOf(lists, width);
  const longest = Math.max(1, ...lists.map(({ columns }) => columns.names.length));
  const top = 44;
  let bottom = top;
  const laid = rows.map((row) => {
    const names = wrapped(row.row.name, width - LEFT - SIDE);
    const strip = bottom + names.length * LINE + LINE + 4;
    const list = strip + STRIP + 34;
    const unknown = row.row.waiting === null;
    const height = list + (unknown ? 0 : (1 + longest) * LINE) + 10 - bottom;
    const y = bottom;
    bottom += height;
    return { ...row, names, strip, list, y, height };
  });

  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      foot: { ...data.foot, note: DOTS_WORDS(data) },
      height: bottom + 24,
    },
    laid.map((one) => lookedAt(one.row, data.looked, one)),
    words(SIDE, 13, data.foot.unit, { size: SMALL, weight: 600 }),
    numbersAbove(scale, top),
    data.target === null ? null : dueWords(data.target, scale, top - 22),
    numbersBelow(scale, bottom, bottom),
    laid.map(({ strip, y }, i) => [
      rule(SIDE, y, width - SIDE, y),
      uprights(data, i === 0 ? null : rows[0]!.mean, scale, { top: strip - 2, bottom: strip + STRIP + 18 }),
    ]),
    laid.map((row, i): Child[] => {
      const bar = row.strip + STRIP + 5;
      return [
        lines(LEFT, row.y + 16, row.names, { weight: 600, halo: true }),
        words(
          SIDE,
          row.y + row.names.length * LINE + 16,
          [row.row.meanWords, row.row.differenceWords].filter((one) => one !== '').join(i === 0 ? ' ' : ', '),
          { size: SMALL + 1, halo: true },
        ),
        dotsOf(row, look, bar),
        barOf(row, scale, bar),
        i === 0 ? null : wayOf(rows[0]!.mean, row, scale, bar),
        row.row.waiting === null
          ? null
          : lists.map((list, side) => listOf(list, i, { ...places[side]!, y: row.list })),
      ];
    }),
    laid.map(({ row, y, height }) => touchable(row, { x: 0, y, width, height })),
  );
}

interface List {
  title: string;
  empty: string;
  columns: Columns;
}

interface Place {
  x: number;
  /** Of the names, and of the longest bar, px. */
  named: number;
  bar: number;
}

/** Side by side; the names have what they need, the bars of both are equally long. */
function placesOf(lists: List[], width: number): Place[] {
  const wanted = lists.map(({ columns }) =>
    Math.max(40, ...columns.names.map((name) => widthOf(name, SMALL) + 6)),
  );
  const free = width - LEFT - SIDE - GAP - 2 * FIGURE;
  const most = (free - 2 * SHORTEST) / Math.max(free - 2 * SHORTEST, wanted[0]! + wanted[1]!);
  const [first, second] = wanted.map((one) => one * most);
  const bar = (free - first! - second!) / 2;
  return [
    { x: LEFT, named: first!, bar },
    { x: LEFT + first! + bar + FIGURE + GAP, named: second!, bar },
  ];
}

/** Names with a bar and a figure each, one under another. */
function listOf(
  { title, empty, columns }: List,
  row: number,
  { x, y, named, bar }: Place & { y: number },
): Child[] {
  const values = columns.values[row] ?? [];
  const head = words(x, y, title, { size: SMALL, ink: 'muted' });
  if (columns.names.length === 0) return [head, words(x, y + LINE, empty, { size: SMALL })];
  const top = roundTop(mostOf(columns));
  return [
    head,
    columns.names.map((name, i): Child[] => {
      const at = y + (i + 1) * LINE;
      const value = values[i] ?? null;
      const long = value === null ? 0 : Math.max(1, (bar * value) / top);
      return [
        words(x, at, cut(name, named, SMALL), { size: SMALL }),
        element('rect', { x: x + named, y: at - 9, width: long, height: 9, ...inked({ fill: 'muted' }) }),
        words(x + named + long + 5, at, value === null ? '–' : figure(value, decimalsOf(columns)), {
          size: SMALL,
        }),
      ];
    }),
  ];
}

/** Side by side on a desk: about 60 px a row, the three pictures of a row beside each other. */
import { along, numbersAbove, numbersBelow } from './axis.ts';
import {
  decimalsOf,
  kept,
  marks,
  mostOf,
  PITCH,
  roundTop,
  slantedNames,
  slantHeight,
  type Columns,
} from './columns.ts';
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
import { type Child } from './svg.ts';
import { figure, lines, SMALL, widthOf, words, wrapped } from './words.ts';

const ROW = 60;
const NAME_LINE = 19;
const STRIP = 18;
const GAP = 24;
/** For the figures beside a strip, at the least. */
const FIGURES = 90;
/** So wide a strip has to be to be read. */
const LEAST_STRIP = 210;
/** So many columns a panel at least, so that what it says where nothing waits has room. */
const LEAST_COLUMNS = 5;

interface Panel {
  columns: Columns;
  x: number;
  width: number;
  title: string;
  /** Instead of marks. */
  empty: string;
  /** Below, where not everything is shown. */
  note: string;
}

export function widePicture(data: SideBySide, rows: DrawnRow[], size: Size): string {
  const { width } = size;
  const figures = Math.max(FIGURES, ...data.rows.map((row) => widthOf(row.differenceWords, SMALL) + 6));
  const [waiting, after] = panelsOf(data, width, figures);
  const goodWidth = waiting.x - GAP - figures;
  const scale = along(
    [
      ...rows.flatMap(({ twenty, low, high }) => [...twenty, low, high]),
      ...(data.target === null ? [] : [data.target]),
    ],
    SIDE + 12,
    goodWidth - 12,
  );
  const wide = roomBetween(rows, scale);
  const look: Look = { target: data.target, scale, wide, dot: dotSize(rows, wide, STRIP) };
  const heads = Math.max(slantHeight(waiting.columns.names), slantHeight(after.columns.names));
  const top = Math.max(58, heads + 26);
  let bottom = top;
  const laid = rows.map((row) => {
    const names = wrapped(row.row.name, goodWidth + figures - 12);
    const height = ROW + (names.length - 1) * NAME_LINE;
    const y = bottom;
    bottom += height;
    return { ...row, names, y, height };
  });

  const marksOf = (row: (typeof laid)[number], i: number): Child[] => {
    const bar = row.y + row.height - 16;
    return [
      lines(SIDE + 8, row.y + 16, row.names, { weight: 600, halo: true }),
      dotsOf(row, look, bar),
      barOf(row, scale, bar),
      i === 0 ? null : wayOf(rows[0]!.mean, row, scale, bar),
      words(goodWidth + 6, bar - 6, row.row.meanWords, { weight: 600, halo: true }),
      words(goodWidth + 6, bar + 10, row.row.differenceWords, { size: SMALL, ink: 'muted', halo: true }),
      panelRow(waiting, i, row.y, row.height, 'muted'),
      panelRow(after, i, row.y, row.height, 'other'),
    ];
  };
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      foot: { ...data.foot, note: DOTS_WORDS(data) },
      height: bottom + 7 + 17 * Math.max(1, noteLines(waiting).length, noteLines(after).length),
    },
    laid.map((one) => lookedAt(one.row, data.looked, one)),
    numbersAbove(scale, top),
    numbersBelow(scale, bottom, bottom),
    laid.map(({ y }) => rule(SIDE, y, width - SIDE, y)),
    rule(SIDE, bottom, width - SIDE, bottom),
    data.target === null ? null : dueWords(data.target, scale, top - 24),
    laid.map(({ y, height }, i) =>
      uprights(data, i === 0 ? null : rows[0]!.mean, scale, { top: y + height - 40, bottom: y + height }),
    ),
    words(SIDE + 8, 13, `${data.foot.unit}`, { size: SMALL, weight: 600 }),
    [waiting, after].map((panel) => [
      words(panel.x, 13, panel.title, { size: SMALL, weight: 600 }),
      slantedNames(panel.columns.names, panel, top, heads),
      lines(panel.x, bottom + SMALL + 5, noteLines(panel), { size: SMALL, ink: 'muted' }),
    ]),
    laid.map(marksOf),
    laid.map(({ row, y, height }) => touchable(row, { x: 0, y, width, height })),
  );
}

const noteLines = ({ note, width }: Panel): string[] => wrapped(note, width, SMALL);

/** What waits and who stays: as many columns as there is room for, the largest before the others. */
function panelsOf(data: SideBySide, width: number, figures: number): [Panel, Panel] {
  const room = Math.floor((width - LEAST_STRIP - figures - 2 * GAP) / PITCH);
  const all = [
    { names: data.steps, values: data.rows.map(({ waiting }) => waiting) },
    { names: data.people, values: data.rows.map(({ after }) => after) },
  ].map((columns) => kept(columns, Infinity).columns);
  const wanted = all.map(({ names }) => Math.max(LEAST_COLUMNS, names.length));
  const half = Math.floor(room / 2);
  const steps = Math.min(wanted[0]!, Math.max(half, room - wanted[1]!));
  const people = Math.min(wanted[1]!, room - steps);
  const [waiting, after] = [kept(all[0]!, steps), kept(all[1]!, people)];
  const afterX = width - SIDE - people * PITCH;
  const note = ({ columns, left }: typeof waiting, unit: string): string =>
    [
      columns.names.length === 0 ? '' : `full height ${figure(roundTop(mostOf(columns)), 0)}${unit}`,
      left === 0 ? '' : `${left} smaller left out`,
    ]
      .filter((words) => words !== '')
      .join('; ');
  const unknown = data.rows.every((row) => row.waiting === null);
  return [
    {
      columns: waiting.columns,
      x: afterX - GAP - steps * PITCH,
      width: steps * PITCH,
      title: 'pieces waiting',
      empty: unknown ? '' : 'nothing waits',
      note: note(waiting, ''),
    },
    {
      columns: after.columns,
      x: afterX,
      width: people * PITCH,
      title: 'min after the bell',
      empty: unknown ? '' : 'nobody stays',
      note: note(after, ' min'),
    },
  ];
}

function panelRow(panel: Panel, row: number, y: number, height: number, ink: 'muted' | 'other'): Child {
  const { columns, x, width, empty } = panel;
  if (columns.names.length === 0)
    return words(x, y + height / 2 + 5, empty, { size: SMALL, ink: 'muted', halo: true });
  return marks(columns.values[row]!, {
    frame: { x, width },
    top: y + 4,
    bottom: y + height - 7,
    most: mostOf(columns),
    decimals: decimalsOf(columns),
    ink,
  });
}

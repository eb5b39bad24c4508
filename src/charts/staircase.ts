/** The loss picture: a staircase from the spreadsheet's number down to ours, a word on each tread. */
import { scaleLinear } from 'd3';
import { hatchOf, picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, place, type Markup } from './svg.ts';
import { figure, lines, signed, SMALL, words, wrapped } from './words.ts';

/**
 * One tread: what is left, and what was taken off to get here ("waiting for hands"). The first has nothing
 * taken off.
 */
export interface Tread {
  value: number;
  word: string;
  /** What was taken off is waiting for hands: the hot colour. */
  meaning?: 'waiting';
  /** Where the eye is to rest: the first and the last always are. */
  firm?: boolean;
  /** How far it is from the tread before, where that is known better than from two rounded levels. */
  change?: number;
}

export interface Staircase {
  title: string;
  description: string;
  treads: Tread[];
  foot: Foot;
}

export function staircasePicture(data: Staircase, size: Size): string {
  const wide = size.width >= Math.max(480, data.treads.length * 112);
  const { marks, height, from } = wide ? across(data.treads, size) : down(data.treads, size);
  const note = [
    ...(from > 0 ? [`The scale begins at ${figure(from, 0)}.`] : []),
    ...(data.foot.note === undefined ? [] : [data.foot.note]),
  ].join(' ');
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      foot: { ...data.foot, ...(note === '' ? {} : { note }) },
      height,
      hatched: data.treads.some((tread) => tread.meaning !== undefined),
    },
    marks,
  );
}

const [TOP, FLOOR] = [34, 196];

function across(treads: Tread[], { width, id }: Size): { marks: Markup[]; height: number; from: number } {
  const run = (width - 2 * SIDE) / treads.length;
  const [from, to] = bounds(treads);
  const y = scaleLinear()
    .domain([from, to])
    .range([from > 0 ? FLOOR - 18 : FLOOR, TOP]);
  const marks: Markup[] = [];
  let deepest = 0;
  treads.forEach((tread, i) => {
    const [x, level, before] = [SIDE + i * run, y(tread.value), treads[i - 1]];
    const firm = i === treads.length - 1 || i === 0 || tread.firm === true;
    marks.push(element('path', { d: ground(x, level, run, from > 0), ...inked({ fill: 'shade' }) }));
    if (before !== undefined) marks.push(...changed(x, run, y(before.value), level, tread, id));
    marks.push(rule(x, level, x + run, level, 'ink', firm ? 4 : 2.4));
    const above = before === undefined ? level : Math.min(level, y(before.value));
    marks.push(
      words(x + 8, above - 10, figure(tread.value), { size: firm ? 22 : 17, weight: firm ? 700 : 600 }),
    );
    const said = wrapped(tread.word, run - 14, SMALL + 1);
    const taken = before === undefined ? [] : [signed(tread.change ?? tread.value - before.value)];
    marks.push(
      ...lines(x + 8, FLOOR + 20, [...taken, ...said], { size: SMALL + 1, ink: tread.meaning ?? 'muted' }),
    );
    deepest = Math.max(deepest, said.length + taken.length);
  });
  return {
    marks: [...marks, ...(from > 0 ? [] : [rule(SIDE, FLOOR, width - SIDE, FLOOR, 'muted')])],
    height: FLOOR + 12 + deepest * (SMALL + 1) * 1.3,
    from,
  };
}

/**
 * From zero where the treads differ by a good part of their height; otherwise from where they can be told
 * apart, the ground torn off below and the foot saying where the scale begins.
 */
function bounds(treads: Tread[]): [number, number] {
  const values = treads.map((tread) => tread.value);
  const [least, most] = [Math.min(...values), Math.max(1e-9, ...values)];
  const span = most - least;
  return least > 0 && span < 0.5 * most
    ? [Math.max(0, Math.floor(least - 0.35 * Math.max(span, 0.05 * most))), most]
    : [0, most];
}

/** The ground under a tread; torn, its lower edge is a zigzag. */
function ground(x: number, level: number, run: number, torn: boolean): string {
  if (!torn) return `M${place(x)} ${place(level)}H${place(x + run)}V${FLOOR}H${place(x)}Z`;
  const teeth = Math.max(2, 2 * Math.round(run / 16));
  const edge = Array.from(
    { length: teeth + 1 },
    (_, i) => `L${place(x + run - (i * run) / teeth)} ${FLOOR - (i % 2 === 0 ? 0 : 6)}`,
  );
  return `M${place(x)} ${place(level)}H${place(x + run)}${edge.join('')}Z`;
}

/**
 * What was lost (or won) to get here: a block between the two levels, the hot colour where it is waiting for
 * hands.
 */
function changed(x: number, run: number, from: number, to: number, { meaning }: Tread, id: string): Markup[] {
  const block = { x, y: Math.min(from, to), width: run, height: Math.abs(to - from) };
  return [
    element('rect', {
      ...block,
      ...(meaning === undefined ? inked({ fill: 'hairline' }) : { fill: hatchOf(id, meaning) }),
    }),
    rule(x, from, x + run, from, 'muted', 1, '3 3'),
    element('line', {
      x1: x,
      x2: x,
      y1: from,
      y2: to,
      ...inked({ stroke: meaning ?? 'ink' }),
      'stroke-width': 1.4,
    }),
  ];
}

function down(treads: Tread[], { width }: Size): { marks: Markup[]; height: number; from: number } {
  const x = scaleLinear()
    .domain([0, Math.max(1e-9, ...treads.map((tread) => tread.value))])
    .range([SIDE, width - SIDE - 56]);
  const pitch = 54;
  const marks = treads.flatMap((tread, i): Markup[] => {
    const [y, end, before] = [i * pitch, x(tread.value), treads[i - 1]];
    const taken = before === undefined ? '' : `: ${signed(tread.change ?? tread.value - before.value)}`;
    return [
      ...lines(SIDE, y + 14, wrapped(`${tread.word}${taken}`, width - 2 * SIDE, SMALL + 1).slice(0, 1), {
        size: SMALL + 1,
        ink: tread.meaning ?? 'muted',
      }),
      element('rect', { x: SIDE, y: y + 20, width: end - SIDE, height: 20, ...inked({ fill: 'shade' }) }),
      rule(end, y + 18, end, y + (i === treads.length - 1 ? 42 : pitch + 18), 'ink', 2.4),
      words(end + 8, y + 36, figure(tread.value), { weight: 600 }),
    ];
  });
  return { marks, height: treads.length * pitch, from: 0 };
}

export function staircaseTable({ treads, foot }: Staircase): Table {
  return {
    head: ['', foot.unit, 'taken off'],
    rows: treads.map((tread, i) => [
      tread.word,
      figure(tread.value),
      i === 0 ? '' : figure(tread.change === undefined ? treads[i - 1]!.value - tread.value : -tread.change),
    ]),
  };
}

/** The loss picture: a staircase from the spreadsheet's number down to ours, a word on each tread. */
import { scaleLinear } from 'd3-scale';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, lines, SMALL, words, wrapped } from './words.ts';

/** One tread: what is left, and what was taken off to get here ("waiting for hands"). The first has nothing taken off. */
export interface Tread {
  value: number;
  word: string;
  /** What was taken off is waiting for hands: the hot colour. */
  meaning?: 'waiting';
}

export interface Staircase {
  title: string;
  description: string;
  treads: Tread[];
  foot: Foot;
}

export function staircasePicture(data: Staircase, size: Size): string {
  const wide = size.width >= Math.max(480, data.treads.length * 112);
  const { marks, height } = wide ? across(data.treads, size) : down(data.treads, size);
  return picture(size, { title: data.title, description: data.description, foot: data.foot, height }, marks);
}

function across(treads: Tread[], { width }: Size): { marks: Markup[]; height: number } {
  const [top, floor] = [30, 250];
  const run = (width - 2 * SIDE) / treads.length;
  const y = scaleLinear().domain([0, Math.max(1e-9, ...treads.map((tread) => tread.value))]).range([floor, top]);
  const marks: Markup[] = [];
  let deepest = 0;
  treads.forEach((tread, i) => {
    const [x, level, before] = [SIDE + i * run, y(tread.value), treads[i - 1]];
    const last = i === treads.length - 1;
    marks.push(element('rect', { x, y: level, width: run, height: floor - level, ...inked({ fill: 'shade' }) }));
    marks.push(rule(x, level, x + run, level, 'ink', last || i === 0 ? 4 : 2.4));
    if (before !== undefined) marks.push(riser(x, y(before.value), level, tread));
    marks.push(words(x + 8, level - 10, figure(tread.value), { size: last || i === 0 ? 22 : 17, weight: last || i === 0 ? 700 : 600 }));
    const said = wrapped(tread.word, run - 14, SMALL + 1);
    const taken = before === undefined ? [] : [`${figure(tread.value - before.value)}`];
    marks.push(...lines(x + 8, floor + 20, [...said, ...taken], { size: SMALL + 1, ink: tread.meaning ?? 'muted' }));
    deepest = Math.max(deepest, said.length + taken.length);
  });
  return { marks: [...marks, rule(SIDE, floor, width - SIDE, floor, 'muted')], height: floor + 12 + deepest * (SMALL + 1) * 1.3 };
}

/** What is lost from one tread to the next: a thin line, a firm hot one where it is waiting for hands. */
const riser = (x: number, from: number, to: number, { meaning }: Tread): Markup =>
  element('line', { x1: x, x2: x, y1: from, y2: to, ...inked({ stroke: meaning ?? 'ink' }), 'stroke-width': meaning === undefined ? 1.4 : 6 });

function down(treads: Tread[], { width }: Size): { marks: Markup[]; height: number } {
  const x = scaleLinear().domain([0, Math.max(1e-9, ...treads.map((tread) => tread.value))]).range([SIDE, width - SIDE - 56]);
  const pitch = 54;
  const marks = treads.flatMap((tread, i): Markup[] => {
    const [y, end, before] = [i * pitch, x(tread.value), treads[i - 1]];
    const taken = before === undefined ? '' : `: ${figure(tread.value - before.value)}`;
    return [
      ...lines(SIDE, y + 14, wrapped(`${tread.word}${taken}`, width - 2 * SIDE, SMALL + 1).slice(0, 1), { size: SMALL + 1, ink: tread.meaning ?? 'muted' }),
      element('rect', { x: SIDE, y: y + 20, width: end - SIDE, height: 20, ...inked({ fill: 'shade' }) }),
      rule(end, y + 18, end, y + (i === treads.length - 1 ? 42 : pitch + 18), 'ink', 2.4),
      words(end + 8, y + 36, figure(tread.value), { weight: 600 }),
    ];
  });
  return { marks, height: treads.length * pitch };
}

export function staircaseTable({ treads, foot }: Staircase): Table {
  return {
    head: ['', foot.unit, 'taken off'],
    rows: treads.map((tread, i) => [tread.word, figure(tread.value), i === 0 ? '' : figure(treads[i - 1]!.value - tread.value)]),
  };
}

/**
 * The day of one shift on one time axis: clamp sets, people, and how full each rack was; any stretch of it,
 * drawn wide.
 */
import { scaleLinear } from 'd3';
import { hoursBelow, type Hours, type Scale } from '../../../src/charts/axis.ts';
import { hatchOf, picture, rule, SIDE, type Size, type Table } from '../../../src/charts/frame.ts';
import { MEANING_WORDS, MEANINGS } from '../../../src/charts/index.ts';
import { key } from '../../../src/charts/key.ts';
import { element, inked, type Child, type Markup } from '../../../src/charts/svg.ts';
import { cut, SMALL, widthOf, words } from '../../../src/charts/words.ts';
import { inSentence } from '../../../src/words/words.ts';
import { clockAt, type Told, type ToldBlock, type ToldLine } from './told.ts';

/** Minutes shown. */
export interface Span {
  from: number;
  to: number;
}

const LANE = 26;
/** Where fingers come down on lanes: with the gap between two of them 44 px. */
const TOUCH_LANE = 36;
const RACK = 34;

export interface Geometry {
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** Tops of the lanes, then of the lines. */
  lanes: number[];
  lines: number[];
  laneHeight: number;
  /**
   * From one lane to the next: what may be touched of each. Where names stand above the lanes, they are of
   * it.
   */
  pitch: number;
  lineHeight: number;
}

const keyed = (told: Told, size: Size): { marks: Child; height: number } => {
  const present = MEANINGS.filter((meaning) =>
    told.lanes.some(({ blocks }) => blocks.some((block) => block.meaning === meaning)),
  );
  return key(
    present.map((meaning) => ({ meaning, word: MEANING_WORDS[meaning] })),
    size,
  );
};

export function geometryOf(told: Told, width: number, touch: boolean): Geometry {
  const wide = width >= 620;
  const high = touch && wide ? TOUCH_LANE : LANE;
  const left = SIDE + (wide ? Math.min(172, width * 0.22) : 0);
  const top = keyed(told, { width, id: 'x' }).height + 8;
  const pitch = high + (wide ? 8 : 24);
  const inset = wide ? 0 : 18;
  const lanes: number[] = [];
  let y = top;
  for (const [i, lane] of told.lanes.entries()) {
    if (i > 0 && lane.kind !== told.lanes[i - 1]!.kind) y += 12;
    lanes.push(y + inset);
    y += pitch;
  }
  y += 16;
  const lines = told.lines.map((_, i) => y + inset + i * (RACK + (wide ? 8 : 24)));
  const bottom = y + told.lines.length * (RACK + (wide ? 8 : 24));
  return { left, right: width - SIDE, top, bottom, lanes, lines, laneHeight: high, pitch, lineHeight: RACK };
}

export const scaleOf = ({ left, right }: Geometry, { from, to }: Span): Scale =>
  scaleLinear().domain([from, to]).range([left, right]);

export function dayPicture(
  told: Told,
  span: Span,
  size: Size & { touch: boolean },
  about: { title: string; description: string; seed: string },
): string {
  const { shift } = told;
  const at = geometryOf(told, size.width, size.touch);
  const x = scaleOf(at, span);
  const marks = keyed(told, size);
  const hours: Hours = { start: clockAt(shift, span.from), length: span.to - span.from, breaks: [] };
  const fromStart = scaleLinear()
    .domain([0, span.to - span.from])
    .range([at.left, at.right]);
  return picture(
    size,
    {
      title: about.title,
      description: about.description,
      height: at.bottom + 26,
      hatched: true,
      foot: {
        unit: `one shift, minute by minute, seed “${about.seed}”`,
        note: 'Numbers in the lanes are pieces. Racks: how many pieces stand there; the dashed line is how many fit.',
      },
    },
    marks.marks,
    breaks(told, span, x, at),
    hoursBelow(hours, fromStart, at.bottom, at.top),
    told.lanes.map((lane, i) => [
      nameOf(lane.name, at, at.lanes[i]!, at.laneHeight, size.width),
      lane.blocks.map((block, j) =>
        blockOf(block, span, x, { y: at.lanes[i]!, high: at.laneHeight }, size.id, [i, j]),
      ),
    ]),
    told.lines.map((line, i) => [
      nameOf(`before ${inSentence(line.name)}`, at, at.lines[i]!, RACK, size.width),
      lineOf(line, span, x, at.lines[i]!),
    ]),
  );
}

const nameOf = (name: string, { left }: Geometry, y: number, high: number, width: number): Markup =>
  left > SIDE
    ? words(SIDE, y + high / 2 + 5, cut(name, left - 12, SMALL + 1), { size: SMALL + 1, weight: 600 })
    : words(SIDE, y - 5, cut(name, width, SMALL), { size: SMALL, weight: 600 });

const breaks = ({ shift }: Told, span: Span, x: Scale, { top, bottom }: Geometry): Child[] =>
  shift.breaks.map(({ from, minutes }) => {
    const [start, end] = [Math.max(span.from, from), Math.min(span.to, from + minutes)];
    return (
      start < end &&
      element('rect', {
        x: x(start),
        y: top,
        width: x(end) - x(start),
        height: bottom - top,
        ...inked({ fill: 'shade' }),
      })
    );
  });

function blockOf(
  block: ToldBlock,
  span: Span,
  x: Scale,
  { y, high }: { y: number; high: number },
  id: string,
  [lane, place]: [number, number],
): Child {
  const [from, to] = [Math.max(span.from, block.from), Math.min(span.to, block.to)];
  if (from >= to) return null;
  const free = block.meaning === 'free';
  const rect = element('rect', {
    x: x(from),
    y: free ? y + high - 1.5 : y,
    width: Math.max(0.5, x(to) - x(from) - (free ? 0 : 0.8)),
    height: free ? 1.5 : high,
    ...(free ? inked({ fill: 'muted' }, 'block') : { class: 'block', fill: hatchOf(id, block.meaning) }),
    'data-lane': lane,
    'data-block': place,
  });
  return [rect, labelOf(block.labels, [x(from), x(to)], y + high / 2 + (free ? 3 : 4), free)];
}

/** The first label there is room for; stretches without work are written muted, on paper. */
function labelOf(labels: string[], [left, right]: [number, number], y: number, free: boolean): Child {
  const text = labels.find((label) => widthOf(label, LABEL) + 8 <= right - left);
  return (
    text !== undefined &&
    words((left + right) / 2, y, text, {
      size: LABEL,
      anchor: 'middle',
      ...(free ? { ink: 'muted' as const } : { halo: true, weight: 600 }),
    })
  );
}

/** Px. */
const LABEL = 12;

/** Steps up and down; the scale goes to what fits, or to the most there were. */
function lineOf(line: ToldLine, span: Span, x: Scale, y: number): Child[] {
  const top = Math.max(1, line.most, line.rack ?? 0);
  const high = (length: number): number => y + RACK - (length / top) * (RACK - 4);
  let before = 0;
  let d = '';
  for (const { at, length } of line.changes) {
    if (at <= span.from) before = length;
    else if (at <= span.to) d += `H${tenth(x(at))}V${tenth(high(length))}`;
  }
  const area = `M${tenth(x(span.from))} ${y + RACK}V${tenth(high(before))}${d}H${tenth(x(span.to))}V${y + RACK}Z`;
  return [
    element('path', { d: area, ...inked({ fill: 'hairline' }) }),
    rule(x(span.from), y + RACK, x(span.to), y + RACK, 'muted'),
    line.rack !== null && [
      rule(x(span.from), high(line.rack), x(span.to), high(line.rack), 'muted', 1, '3 3'),
      words(x(span.to) - 2, high(line.rack) + 11, String(line.rack), {
        size: SMALL - 2,
        anchor: 'end',
        ink: 'muted',
        halo: true,
      }),
    ],
  ];
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Minutes of each lane by what they went on. */
export function dayTable({ lanes }: Told): Table {
  const present = MEANINGS.filter((meaning) =>
    lanes.some(({ blocks }) => blocks.some((block) => block.meaning === meaning)),
  );
  return {
    head: ['', ...present.map((meaning) => `${MEANING_WORDS[meaning]}, min`)],
    rows: lanes.map(({ name, blocks }) => [
      name,
      ...present.map((meaning) =>
        String(
          Math.round(
            blocks
              .filter((block) => block.meaning === meaning)
              .reduce((sum, { from, to }) => sum + to - from, 0),
          ),
        ),
      ),
    ]),
  };
}

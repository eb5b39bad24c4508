/**
 * Lanes a day wide: what each clamp set, person or rack is doing, as blocks that can be read across a room.
 */
import { scaleLinear } from 'd3';
import { clockAt, hoursBelow, type Hours, type Scale } from './axis.ts';
import { hatchOf, picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { key } from './key.ts';
import { MEANING_WORDS, MEANINGS, type Meaning } from './palette.ts';
import { element, inked, type Markup } from './svg.ts';
import { cut, figure, SMALL, words } from './words.ts';

/** Minutes from the start of the shift. */
export interface Block {
  from: number;
  to: number;
  meaning: Meaning;
  /** "fitting, kit 12": what a pointer resting on it is told. */
  says: string;
}

export interface Lane {
  name: string;
  blocks: Block[];
}

export interface Lanes {
  title: string;
  description: string;
  hours: Hours;
  lanes: Lane[];
  /** A line at this minute. */
  now?: number;
  foot: Foot;
}

const LANE = 34;

/**
 * Blocks carry `data-lane` and `data-block` (their places in the lists), so that a page can tell which one
 * was touched.
 */
export function lanesPicture(data: Lanes, size: Size): string {
  const { width, id } = size;
  const wide = width >= 620;
  const left = wide ? Math.min(170, width * 0.18) : 0;
  const pitch = wide ? LANE + 10 : LANE + 28;
  const x = scaleLinear()
    .domain([0, data.hours.length])
    .range([SIDE + left, width - SIDE]);
  const present = MEANINGS.filter((meaning) =>
    data.lanes.some((lane) => lane.blocks.some((block) => block.meaning === meaning)),
  );
  const keyed = key(
    present.map((meaning) => ({ meaning, word: MEANING_WORDS[meaning] })),
    size,
  );
  const top = keyed.height + (data.now === undefined ? 10 : 28);
  const bottom = top + data.lanes.length * pitch;
  const lanes = data.lanes.map((lane, i) => {
    const y = top + i * pitch + (wide ? 0 : 20);
    const name = wide
      ? words(SIDE, y + LANE / 2 + 5, cut(lane.name, left - 12), { weight: 600 })
      : words(SIDE, y - 6, cut(lane.name, width), { weight: 600 });
    return [name, ...lane.blocks.map((block, j) => blockOf(block, x, y, id, [i, j]))];
  });
  return picture(
    size,
    { title: data.title, description: data.description, foot: data.foot, height: bottom + 24, hatched: true },
    keyed.marks,
    breaksOf(data.hours, x, top, bottom),
    hoursBelow(data.hours, x, bottom, top),
    lanes,
    data.now !== undefined && nowLine(data, x, top, bottom),
  );
}

function blockOf(block: Block, x: Scale, y: number, id: string, [lane, place]: [number, number]): Markup {
  const free = block.meaning === 'free';
  return element(
    'rect',
    {
      x: x(block.from),
      y: free ? y + LANE - 1 : y,
      width: Math.max(0.5, x(block.to) - x(block.from) - (free ? 0 : 0.8)),
      height: free ? 1 : LANE,
      ...(free ? inked({ fill: 'muted' }, 'block') : { class: 'block', fill: hatchOf(id, block.meaning) }),
      'data-lane': lane,
      'data-block': place,
    },
    element('title', {}, block.says),
  );
}

export function breaksOf(hours: Hours, x: Scale, top: number, bottom: number): Markup[] {
  return hours.breaks.map(({ from, minutes }) =>
    element('rect', {
      x: x(from),
      y: top,
      width: x(from + minutes) - x(from),
      height: bottom - top,
      ...inked({ fill: 'shade' }),
    }),
  );
}

const nowLine = ({ hours, now }: Lanes, x: Scale, top: number, bottom: number): Markup[] => [
  rule(x(now!), top - 6, x(now!), bottom, 'ink', 2),
  words(x(now!), top - 10, clockAt(hours, now!), { size: SMALL, weight: 600, anchor: 'middle', halo: true }),
];

/** Minutes in each state, a row a lane. */
export function lanesTable({ lanes }: Lanes): Table {
  const present = MEANINGS.filter((meaning) =>
    lanes.some((lane) => lane.blocks.some((block) => block.meaning === meaning)),
  );
  return {
    head: ['', ...present.map((meaning) => `${MEANING_WORDS[meaning]}, min`)],
    rows: lanes.map((lane) => [
      lane.name,
      ...present.map((meaning) => {
        const mine = lane.blocks.filter((block) => block.meaning === meaning);
        return figure(
          mine.reduce((sum, block) => sum + block.to - block.from, 0),
          0,
        );
      }),
    ]),
  };
}

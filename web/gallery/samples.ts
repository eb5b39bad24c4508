/** Made-up data for the gallery and for tests of the pictures: no run stands behind any of it. */
import type {
  Block,
  Comparison,
  DayLines,
  Fan,
  Histogram,
  Hours,
  Lanes,
  Limits,
  Meaning,
  Minutes,
  Staircase,
  Weeks,
} from '../../src/charts/index.ts';

/** Evenly spread numbers in 0 to 1, the same every time. */
function* spread(): Generator<number, never> {
  let at = 0.5;
  for (;;) {
    at = (at + 0.6180339887498949) % 1;
    yield at;
  }
}
const numbers = spread();
const bell = (): number =>
  [0, 0, 0, 0].reduce((sum: number) => sum + (numbers.next().value * 2 - 1), 0) * 0.87;
const shifts = (mean: number, deviation: number, count = 400): number[] =>
  Array.from({ length: count }, () => Math.round(mean + deviation * bell()));

const foot = { shifts: 1204, seed: 'clampwright', unit: 'good units a shift' };

export const hours: Hours = {
  start: '06:00',
  length: 510,
  breaks: [
    { from: 120, minutes: 10, name: 'break' },
    { from: 240, minutes: 30, name: 'lunch' },
    { from: 390, minutes: 10, name: 'break' },
  ],
};

export const comparison: Comparison = {
  title: 'Good units a shift with two, three and four clamp sets',
  description: 'Two sets make about 20 and seldom 22; three make about 23; a fourth adds almost nothing.',
  target: 22,
  rows: [
    {
      name: 'As it is: two clamp sets',
      values: shifts(19.9, 1.1),
      mean: 19.9,
      low: 19.7,
      high: 20.1,
      words: 'makes 22 in about one shift in twenty',
    },
    {
      name: 'One more clamp set',
      values: shifts(23, 1.3),
      mean: 23,
      low: 22.8,
      high: 23.2,
      words: 'adds 3.1 units a shift (2.8 to 3.4)',
    },
    {
      name: 'Two more clamp sets',
      values: shifts(23.2, 1.3),
      mean: 23.2,
      low: 23,
      high: 23.4,
      words: 'adds 3.3 units a shift (3.0 to 3.6)',
    },
    {
      name: 'Wren out',
      values: shifts(17.4, 1.6),
      mean: 17.4,
      low: 17,
      high: 17.8,
      words: 'takes away 2.5 units a shift (2.1 to 2.9)',
    },
  ],
  foot,
};

const bins = Array.from({ length: 34 }, (_, i) => i);
const hump = (top: number, at: number, wide: number): number[] =>
  bins.map((bin) => top * Math.exp(-(((bin - at) / wide) ** 2)));
export const dayLines: DayLines = {
  title: 'Lines through the day',
  description: 'The line before gluing grows until lunch, then shrinks; the others stay short.',
  hours,
  binMinutes: 15,
  lines: [
    ['to fit', hump(5.4, 9, 9), null],
    ['to glue', hump(3.2, 16, 8), 4],
    ['cured, in clamps', hump(1.1, 18, 12), null],
    ['to sand', hump(2.4, 22, 7), 8],
  ].map(([name, middle, rack]) => ({
    name: name as string,
    rack: rack as number | null,
    median: middle as number[],
    low: (middle as number[]).map((one) => one * 0.45),
    high: (middle as number[]).map((one) => one * 1.5 + 0.3),
  })),
  foot: { ...foot, unit: 'pieces in line' },
};

function cycle(
  from: number,
  load: number,
  cure: number,
  wait: number,
  unclamp: number,
  free: number,
): [Block[], number] {
  const blocks: Block[] = [];
  let at = from;
  const add = (meaning: Meaning, minutes: number, says: string): void => {
    if (minutes > 0) blocks.push({ from: at, to: at + minutes, meaning, says });
    at += minutes;
  };
  add('glue-up', load, 'glue-up');
  add('cure', cure, 'cure');
  add('waiting', wait, 'cured, waiting for hands');
  add('unclamping', unclamp, 'unclamping');
  add('free', free, 'free');
  return [blocks, at];
}
function lane(name: string, from: number): Lanes['lanes'][number] {
  let at = from;
  const blocks: Block[] = from > 0 ? [{ from: 0, to: from, meaning: 'free', says: 'free' }] : [];
  for (let i = 0; at < 455; i += 1) {
    const [more, end] = cycle(at, 9 + (i % 3), 30, (i * 7 + name.length) % 17, 4.5, (i * 5) % 6);
    blocks.push(...more);
    at = end;
  }
  return { name, blocks };
}
export const lanes: Lanes = {
  title: 'Three clamp sets through one shift',
  description: 'Each set is glued up, cures, waits for hands and is unclamped, about nine times.',
  hours,
  now: 280,
  lanes: [lane('set 1', 0), lane('set 2', 12), lane('set 3', 25)],
  foot: { unit: 'one shift of many, the typical one', seed: 'clampwright' },
};

export const minutes: Minutes = {
  title: 'Where the minutes went',
  description: 'The fitter is busy all day; the clamp sets wait for hands a tenth of it.',
  strips: [
    {
      name: 'Orla',
      parts: [
        { meaning: 'other', word: 'fitting', minutes: 402 },
        { meaning: 'free', word: 'nothing to work on', minutes: 31 },
        { meaning: 'free', word: 'nowhere to put it', minutes: 17 },
        { meaning: 'off', word: 'break', minutes: 60 },
      ],
    },
    {
      name: 'Tova',
      parts: [
        { meaning: 'unclamping', word: 'unclamping', minutes: 88 },
        { meaning: 'glue-up', word: 'gluing', minutes: 204 },
        { meaning: 'other', word: 'cleaning', minutes: 74 },
        { meaning: 'free', word: 'no clamp set free', minutes: 84 },
        { meaning: 'off', word: 'break', minutes: 60 },
      ],
    },
    {
      name: 'Clamp sets (two)',
      parts: [
        { meaning: 'glue-up', word: 'glue-up', minutes: 204 },
        { meaning: 'cure', word: 'cure', minutes: 582 },
        { meaning: 'waiting', word: 'waiting for hands', minutes: 118 },
        { meaning: 'unclamping', word: 'unclamping', minutes: 92 },
        { meaning: 'free', word: 'free', minutes: 24 },
      ],
    },
  ],
  foot: { ...foot, unit: 'share of the shift' },
};

export const staircase: Staircase = {
  title: 'From the most there could be to our number',
  description: 'Cure only says 32; handling, waiting, breaks and variation bring it to 19.9.',
  treads: [
    { value: 32, word: 'cure only' },
    { value: 24.4, word: 'gluing and unclamping' },
    { value: 22.1, word: 'waiting for hands', meaning: 'waiting' },
    { value: 21, word: 'first and last hour' },
    { value: 20.4, word: 'rework and scrap' },
    { value: 19.9, word: 'our number' },
  ],
  foot,
};

export const fan: Fan = {
  title: 'Where the shift may end',
  description: 'Eleven are off at 10:40; half of the shifts that stand so end at 21 or more.',
  hours,
  target: 22,
  plan: [0, 60, 120, 180, 240, 300, 360, 420, 480, 510].map((at) => ({
    at,
    good: Math.max(0, ((at - 50) * 22) / 460),
  })),
  fact: [
    [0, 0],
    [60, 1],
    [120, 4],
    [180, 7],
    [240, 9],
    [280, 11],
  ].map(([at, good]) => ({ at: at!, good: good! })),
  ahead: [280, 330, 390, 450, 510].map((at) => ({
    at,
    low: 11 + (at - 280) * 0.031,
    median: 11 + (at - 280) * 0.0435,
    high: 11 + (at - 280) * 0.054,
  })),
  foot,
};

export const limits: Limits = {
  title: 'What one more of each thing buys',
  description: 'A third clamp set buys most; everything else little or nothing.',
  matters: 0.5,
  rows: [
    { name: 'one more clamp set', gain: 3.1, low: 2.8, high: 3.4, words: 'adds 3.1 units (2.8 to 3.4)' },
    {
      name: 'one more person at fitting, with a bench',
      gain: 0.7,
      low: 0.4,
      high: 1,
      words: 'adds 0.7 units (0.4 to 1.0)',
    },
    {
      name: 'one more glue bench',
      gain: 0.1,
      low: -0.1,
      high: 0.3,
      words: 'no difference that this many runs can see (under 0.3)',
    },
    {
      name: 'four more rack slots before sanding',
      gain: -0.05,
      low: -0.2,
      high: 0.1,
      words: 'no difference that this many runs can see (under 0.2)',
    },
  ],
  foot,
};

const times = Array.from({ length: 60 }, () => Math.max(6, 13.5 * Math.exp(0.28 * bell())));
const density = (mean: number, deviation: number): { x: number; y: number }[] =>
  Array.from({ length: 60 }, (_, i) => 4 + i * 0.5).map((x) => ({
    x,
    y: Math.exp(-((Math.log(x / mean) / deviation) ** 2) / 2) / (x * deviation * Math.sqrt(2 * Math.PI)),
  }));
export const histogram: Histogram = {
  title: 'Times taken for fitting',
  description: 'Sixty times between 7 and 25 minutes, most near 13, with a tail to the right.',
  values: times,
  curves: [
    { name: 'lognormal', density: density(13.5, 0.28) },
    { name: 'what the cell uses now', density: density(14.5, 0.36) },
  ],
  foot: { unit: 'minutes a piece, 60 times taken at the bench' },
};

export const weeks: Weeks = {
  title: 'Forecast against fact',
  description: 'Seventeen of twenty shifts came in where they were expected.',
  days: Array.from({ length: 20 }, (_, i) => ({
    date: `${(i % 28) + 1} Oct`,
    low: 18,
    median: 20 + (i % 3) - 1,
    high: 23,
    fact: i === 19 ? null : Math.round(20 + 2.4 * bell() - (i === 7 ? 4 : 0)),
  })),
  foot: { unit: 'good units a shift' },
};

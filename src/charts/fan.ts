/** The rest of the shift as a fan: plan, what has come off so far, and where it may end. */
import { area, line, scaleLinear } from 'd3';
import { clockAt, hoursBelow, type Hours, type Scale } from './axis.ts';
import { rounded } from './day-lines.ts';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { breaksOf } from './lanes.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';

/** Good units so far at a minute of the shift. */
export interface SoFar {
  at: number;
  good: number;
}

export interface Fan {
  title: string;
  description: string;
  hours: Hours;
  plan: SoFar[];
  fact: SoFar[];
  /**
   * From now on: nine shifts in ten make at least `low`, half make `median`, one in ten makes `high`. The
   * first is now.
   */
  ahead: { at: number; low: number; median: number; high: number }[];
  target: number | null;
  foot: Foot;
}

const HEIGHT = 300;

export function fanPicture(data: Fan, size: Size): string {
  const right = size.width >= 560 ? 148 : 84;
  const end = data.ahead.at(-1);
  const length = Math.max(data.hours.length, end?.at ?? 0);
  const x = scaleLinear()
    .domain([0, length])
    .range([SIDE + 26, size.width - SIDE - right]);
  const most = Math.max(
    data.target ?? 0,
    end?.high ?? 0,
    ...data.plan.map((one) => one.good),
    ...data.fact.map((one) => one.good),
    1,
  );
  const y = scaleLinear().domain([0, most]).range([HEIGHT, 22]).nice();
  const hours = { ...data.hours, length };
  return picture(
    size,
    { title: data.title, description: data.description, foot: data.foot, height: HEIGHT + 24 },
    breaksOf(data.hours, x, 10, HEIGHT),
    hoursBelow(hours, x, HEIGHT, HEIGHT - 5),
    levels(y, x),
    ahead(data, x, y),
    path(data.plan, x, y, { ink: 'muted', width: 1.6, dash: '5 4' }),
    planWord(data, x, y),
    fact(data, x, y),
    labels(data, x, y, size.width >= 560),
  );
}

function levels(y: Scale, x: Scale): Markup[] {
  const [from, to] = x.range() as [number, number];
  return y
    .ticks(5)
    .flatMap((tick) => [
      rule(from, y(tick), to, y(tick), tick === 0 ? 'muted' : 'hairline'),
      words(from - 6, y(tick) + 4, figure(tick, 0), { size: SMALL, ink: 'muted', anchor: 'end' }),
    ]);
}

function path(
  points: SoFar[],
  x: Scale,
  y: Scale,
  { ink, width, dash }: { ink: 'ink' | 'muted'; width: number; dash?: string },
): Markup {
  const d = rounded(
    line<SoFar>(
      (one) => x(one.at),
      (one) => y(one.good),
    )(points),
  );
  return element('path', {
    d,
    ...inked({ fill: 'none', stroke: ink }),
    'stroke-width': width,
    'stroke-dasharray': dash,
    'stroke-linejoin': 'round',
  });
}

/** The word on the plan's line, below it, where the day is young and nothing else is drawn. */
function planWord({ plan, hours }: Fan, x: Scale, y: Scale): Markup[] {
  const early = plan.find((one) => one.at >= hours.length * 0.25);
  return early === undefined
    ? []
    : [words(x(early.at) + 8, y(early.good) + 16, 'plan', { size: SMALL, ink: 'muted', halo: true })];
}

function ahead({ ahead: points }: Fan, x: Scale, y: Scale): Markup[] {
  type Point = Fan['ahead'][number];
  const band = rounded(
    area<Point>(
      (one) => x(one.at),
      (one) => y(one.low),
      (one) => y(one.high),
    )(points),
  );
  const edge = (of: 'low' | 'high'): Markup =>
    element('path', {
      d: rounded(
        line<Point>(
          (one) => x(one.at),
          (one) => y(one[of]),
        )(points),
      ),
      ...inked({ fill: 'none', stroke: 'muted' }),
      'stroke-width': 1,
    });
  return [
    element('path', { d: band, ...inked({ fill: 'hairline' }) }),
    edge('low'),
    edge('high'),
    path(
      points.map((one) => ({ at: one.at, good: one.median })),
      x,
      y,
      { ink: 'ink', width: 1.6 },
    ),
  ];
}

function fact({ fact: points, hours }: Fan, x: Scale, y: Scale): Markup[] {
  const last = points.at(-1);
  return [
    path(points, x, y, { ink: 'ink', width: 3 }),
    ...points.slice(1, -1).map((one) =>
      element('circle', {
        cx: x(one.at),
        cy: y(one.good),
        r: 3.5,
        ...inked({ fill: 'ink', stroke: 'paper' }),
        'stroke-width': 1.5,
      }),
    ),
    ...(last === undefined
      ? []
      : [
          element('circle', {
            cx: x(last.at),
            cy: y(last.good),
            r: 5,
            ...inked({ fill: 'ink', stroke: 'paper' }),
            'stroke-width': 2,
          }),
          words(x(last.at) - 8, y(last.good) - 10, `${figure(last.good, 0)} at ${clockAt(hours, last.at)}`, {
            weight: 600,
            anchor: 'end',
            halo: true,
          }),
        ]),
  ];
}

function labels({ ahead: points, target, plan }: Fan, x: Scale, y: Scale, wide: boolean): Markup[] {
  const end = points.at(-1);
  const planned = plan.at(-1);
  const edge = (x.range() as [number, number])[1];
  const wanted: { good: number; text: string; strong?: boolean }[] = [
    ...(end === undefined
      ? []
      : [
          {
            good: end.high,
            text: wide ? `one in ten makes ${figure(end.high, 0)}` : `1 in 10: ${figure(end.high, 0)}`,
          },
          {
            good: end.median,
            text: wide ? `half make ${figure(end.median, 0)}` : `half: ${figure(end.median, 0)}`,
            strong: true,
          },
          {
            good: end.low,
            text: wide ? `nine in ten make ${figure(end.low, 0)}` : `9 in 10: ${figure(end.low, 0)}`,
          },
        ]),
    ...(target === null
      ? planned === undefined
        ? []
        : [{ good: planned.good, text: `plan ${figure(planned.good, 0)}` }]
      : [{ good: target, text: `${figure(target, 0)} due`, strong: true }]),
  ];
  // From the top down, each at least a line below the one before.
  let free = -Infinity;
  const set = wanted
    .sort((a, b) => b.good - a.good)
    .map((one) => {
      const at = Math.max(y(one.good) + 4, free);
      free = at + SMALL + 4;
      return words(edge + 8, at, one.text, { size: SMALL, weight: one.strong === true ? 600 : undefined });
    });
  return target === null ? set : [rule(x(0), y(target), edge, y(target), 'ink', 1.4, '5 3'), ...set];
}

export function fanTable({ hours, plan, fact: facts, ahead: points }: Fan): Table {
  const times = [...new Set([...plan, ...facts, ...points].map((one) => one.at))].sort((a, b) => a - b);
  return {
    head: ['', 'Plan', 'Fact', 'Nine in ten make', 'Half make', 'One in ten makes'],
    rows: times.map((at) => {
      const find = (list: SoFar[]): string => figure(list.find((one) => one.at === at)?.good ?? NaN, 0);
      const fan = points.find((one) => one.at === at);
      return [
        clockAt(hours, at),
        find(plan),
        find(facts),
        ...[fan?.low, fan?.median, fan?.high].map((value) => figure(value ?? NaN, 0)),
      ];
    }),
  };
}

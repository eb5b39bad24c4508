/** Forecast against fact over the weeks: what each shift was given, and what came in. */
import { scaleLinear } from 'd3';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';

/**
 * `date` as it is to be written; nine in ten were to make `low`, half `median`, one in ten `high`; `fact`
 * null while it is not in.
 */
export interface ForecastDay {
  date: string;
  low: number;
  median: number;
  high: number;
  fact: number | null;
}

export interface Weeks {
  title: string;
  description: string;
  days: ForecastDay[];
  foot: Foot;
}

const HEIGHT = 240;

export const missed = (day: ForecastDay): boolean =>
  day.fact !== null && (day.fact < day.low || day.fact > day.high);

export function weeksPicture(data: Weeks, size: Size): string {
  const all = data.days.flatMap((day) => [day.low, day.high, ...(day.fact === null ? [] : [day.fact])]);
  const y = scaleLinear()
    .domain(all.length === 0 ? [0, 1] : [Math.min(...all) - 1, Math.max(...all) + 1])
    .range([HEIGHT, 10])
    .nice();
  const [left, right] = [SIDE + 34, size.width - SIDE - 8];
  const pitch = (right - left) / Math.max(1, data.days.length);
  const step = Math.max(1, Math.ceil(58 / pitch));
  const levels = y
    .ticks(5)
    .flatMap((tick) => [
      rule(left, y(tick), right, y(tick)),
      words(left - 6, y(tick) + 4, figure(tick, 0), { size: SMALL, ink: 'muted', anchor: 'end' }),
    ]);
  const days = data.days.flatMap((day, i) => {
    const x = left + (i + 0.5) * pitch;
    return [
      ...dayOf(day, x, y, Math.min(9, Math.max(2, pitch * 0.3))),
      ...(i % step === 0
        ? [words(x, HEIGHT + SMALL + 6, day.date, { size: SMALL, ink: 'muted', anchor: 'middle' })]
        : []),
    ];
  });
  const note =
    'The bar is where eight shifts in ten were to fall, the tick its middle; a full dot came in inside, a ring outside.';
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      height: HEIGHT + 24,
      foot: { ...data.foot, note: `${note}${data.foot.note === undefined ? '' : ` ${data.foot.note}`}` },
    },
    levels,
    days,
  );
}

function dayOf(day: ForecastDay, x: number, y: (value: number) => number, half: number): Markup[] {
  const outside = missed(day);
  return [
    element('rect', {
      x: x - half,
      y: y(day.high),
      width: half * 2,
      height: Math.max(1, y(day.low) - y(day.high)),
      ...inked({ fill: 'hairline' }),
    }),
    rule(x - half, y(day.median), x + half, y(day.median), 'muted', 1.6),
    ...(day.fact === null
      ? []
      : [
          element(
            'circle',
            {
              cx: x,
              cy: y(day.fact),
              r: outside ? 5 : 4.2,
              ...inked(outside ? { fill: 'paper', stroke: 'ink' } : { fill: 'ink', stroke: 'paper' }),
              'stroke-width': outside ? 2.4 : 1.2,
            },
            element('title', {}, `${day.date}: ${figure(day.fact, 0)}`),
          ),
        ]),
  ];
}

export const weeksTable = ({ days }: Weeks): Table => ({
  head: ['Shift', 'Nine in ten make', 'Half make', 'One in ten makes', 'Came in', ''],
  rows: days.map((day) => [
    day.date,
    figure(day.low, 0),
    figure(day.median, 0),
    figure(day.high, 0),
    day.fact === null ? 'not in yet' : figure(day.fact, 0),
    missed(day) ? 'outside' : '',
  ]),
});

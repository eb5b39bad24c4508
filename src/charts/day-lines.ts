/**
 * Lines through the day: one small picture a step on one time axis, breaks shaded, the band eight shifts in
 * ten keep to, the median.
 */
import { area, curveMonotoneX, line, scaleLinear } from 'd3';
import { clockAt, hoursBelow, type Hours, type Scale } from './axis.ts';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';

export interface DayLine {
  name: string;
  /**
   * Length of the line in each bin of the shift: half the shifts are under it; one in ten under `low`, one in
   * ten over `high`.
   */
  median: ArrayLike<number>;
  low: ArrayLike<number>;
  high: ArrayLike<number>;
  /** Slots of the rack; null is no limit. */
  rack: number | null;
  /** The axis goes up to this at least, so that two pictures can be held side by side. */
  upTo?: number;
}

export interface DayLines {
  title: string;
  description: string;
  hours: Hours;
  binMinutes: number;
  lines: DayLine[];
  foot: Foot;
}

const PANEL = 58;
const GAP = 30;

export function dayLinesPicture(data: DayLines, size: Size): string {
  const { width } = size;
  const x = scaleLinear()
    .domain([0, data.hours.length])
    .range([SIDE, width - SIDE - 44]);
  const bottom = 18 + data.lines.length * (PANEL + GAP) - GAP + 4;
  const breaks = data.hours.breaks.map(({ from, minutes }) =>
    element('rect', {
      x: x(from),
      y: 0,
      width: x(from + minutes) - x(from),
      height: bottom,
      ...inked({ fill: 'shade' }),
    }),
  );
  const panels = data.lines.map((one, i) => panel(one, 22 + i * (PANEL + GAP), x, data.binMinutes));
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      height: bottom + 24,
      foot: {
        ...data.foot,
        note: `The line is the middle shift; eight shifts in ten stay in the band; breaks are shaded.${data.foot.note === undefined ? '' : ` ${data.foot.note}`}`,
      },
    },
    breaks,
    hoursBelow(data.hours, x, bottom, 0),
    panels,
  );
}

function panel(one: DayLine, top: number, x: Scale, binMinutes: number): Markup[] {
  const bins = Array.from(one.median, (median, i) => ({
    at: (i + 0.5) * binMinutes,
    median,
    low: one.low[i]!,
    high: one.high[i]!,
  }));
  const most = Math.max(1, one.upTo ?? 0, ...bins.map((bin) => bin.high));
  const y = scaleLinear()
    .domain([0, Math.max(most, one.rack !== null && one.rack <= most * 1.6 ? one.rack : 0)])
    .range([top + PANEL, top + 4]);
  const [from, to] = x.range() as [number, number];
  const band = area<(typeof bins)[number]>(
    (bin) => x(bin.at),
    (bin) => y(bin.low),
    (bin) => y(bin.high),
  ).curve(curveMonotoneX)(bins);
  const middle = line<(typeof bins)[number]>(
    (bin) => x(bin.at),
    (bin) => y(bin.median),
  ).curve(curveMonotoneX)(bins);
  const rackShown = one.rack !== null && one.rack <= y.domain()[1]!;
  const last = bins.at(-1);
  return [
    element('path', { d: rounded(band), ...inked({ fill: 'hairline' }) }),
    rule(from, top + PANEL, to, top + PANEL, 'muted', 1),
    ...(rackShown
      ? [
          rule(from, y(one.rack!), to, y(one.rack!), 'muted', 1, '2 3'),
          words(to + 6, y(one.rack!) + 4, `rack ${one.rack}`, { size: SMALL - 1, ink: 'muted' }),
        ]
      : []),
    element('path', {
      d: rounded(middle),
      ...inked({ fill: 'none', stroke: 'ink' }),
      'stroke-width': 1.8,
      'stroke-linejoin': 'round',
    }),
    words(from, top - 4, one.name, { weight: 600, halo: true }),
    ...(last === undefined || (rackShown && Math.abs(y(last.median) - y(one.rack!)) < 14)
      ? []
      : [
          words(to + 6, y(last.median) + 4, figure(last.median, last.median < 10 ? 1 : 0), {
            size: SMALL,
            weight: 600,
          }),
        ]),
  ];
}

/** Path numbers to a tenth of a pixel. */
export const rounded = (path: string | null): string =>
  (path ?? '').replace(/-?\d+\.\d+(e-?\d+)?/g, (text) => String(Math.round(Number(text) * 10) / 10));

/** The lines at each full hour. */
export function dayLinesTable({ hours, binMinutes, lines }: DayLines): Table {
  const bins = lines[0] === undefined ? 0 : lines[0].median.length;
  const step = Math.max(1, Math.round(60 / binMinutes));
  const rows: string[][] = [];
  for (let bin = 0; bin < bins; bin += step) {
    rows.push([
      clockAt(hours, bin * binMinutes),
      ...lines.map(
        (one) => `${figure(one.median[bin]!)} (${figure(one.low[bin]!)} to ${figure(one.high[bin]!)})`,
      ),
    ]);
  }
  return { head: ['From', ...lines.map((one) => one.name)], rows };
}

/** Times taken at the bench as columns, with the curves laid over them. */
import { bin, extent, line, max, scaleLinear, type Bin } from 'd3';
import { numbersBelow } from './axis.ts';
import { rounded } from './day-lines.ts';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, SMALL, words } from './words.ts';

export interface Histogram {
  title: string;
  description: string;
  /** Minutes. */
  values: number[];
  /** Each as points of its density, one a minute of x; the first is the one in use and drawn firm. */
  curves: { name: string; density: { x: number; y: number }[] }[];
  foot: Foot;
}

const HEIGHT = 220;
const DASHES = [undefined, '7 4', '2 3', '9 3 2 3'];

export function histogramPicture(data: Histogram, size: Size): string {
  const x = scaleLinear()
    .domain(reach(data))
    .range([SIDE, size.width - SIDE])
    .nice();
  const bins = binsOf(data.values, x.domain() as [number, number]);
  const density = bins.map((one) => one.length / data.values.length / Math.max(1e-9, one.x1! - one.x0!));
  const y = scaleLinear()
    .domain([
      0,
      max([...density, ...data.curves.flatMap((curve) => curve.density.map((point) => point.y))]) ?? 1,
    ])
    .range([HEIGHT, 12]);
  const columns = bins.map((one, i) =>
    element(
      'rect',
      {
        x: x(one.x0!) + 0.5,
        y: y(density[i]!),
        width: Math.max(0, x(one.x1!) - x(one.x0!) - 1),
        height: HEIGHT - y(density[i]!),
        ...inked({ fill: 'hairline' }),
      },
      element('title', {}, `${one.length} from ${figure(one.x0!)} to ${figure(one.x1!)} min`),
    ),
  );
  return picture(
    size,
    { title: data.title, description: data.description, foot: data.foot, height: HEIGHT + 24 },
    numbersBelow(x, HEIGHT, HEIGHT - 4),
    columns,
    rule(SIDE, HEIGHT, size.width - SIDE, HEIGHT, 'muted'),
    data.curves.map((curve, i) =>
      curveOf(
        curve,
        i,
        (point) => x(point.x),
        (point) => y(point.y),
      ),
    ),
    labels(data, size),
  );
}

const reach = ({ values, curves }: Histogram): [number, number] => {
  // A list may have more times than a call takes arguments.
  const ends = [extent(values), ...curves.map((curve) => extent(curve.density, (point) => point.x))]
    .flat()
    .filter((end) => end !== undefined);
  return ends.length === 0 ? [0, 1] : [Math.min(...ends), Math.max(...ends)];
};

function binsOf(values: number[], domain: [number, number]): Bin<number, number>[] {
  return bin()
    .domain(domain)
    .thresholds(Math.max(6, Math.min(30, Math.ceil(Math.sqrt(values.length)) * 2)))(values);
}

type Point = { x: number; y: number };
function curveOf(
  curve: Histogram['curves'][number],
  i: number,
  x: (point: Point) => number,
  y: (point: Point) => number,
): Markup {
  return element('path', {
    d: rounded(line<Point>(x, y)(curve.density)),
    ...inked({ fill: 'none', stroke: i === 0 ? 'ink' : 'muted' }),
    'stroke-width': i === 0 ? 2.4 : 1.6,
    'stroke-dasharray': DASHES[i % DASHES.length],
  });
}

/**
 * Curves lie close together, so their names stand with a piece of their line in the corner that long tails
 * leave empty.
 */
function labels({ curves }: Histogram, { width }: Size): Markup[] {
  return curves.flatMap((curve, i) => [
    element('line', {
      x1: width - SIDE - 30,
      x2: width - SIDE,
      y1: 16 + i * 20,
      y2: 16 + i * 20,
      ...inked({ stroke: i === 0 ? 'ink' : 'muted' }),
      'stroke-width': i === 0 ? 2.4 : 1.6,
      'stroke-dasharray': DASHES[i % DASHES.length],
    }),
    words(width - SIDE - 38, 20 + i * 20, curve.name, {
      size: SMALL,
      anchor: 'end',
      weight: i === 0 ? 600 : undefined,
      halo: true,
    }),
  ]);
}

export function histogramTable(data: Histogram): Table {
  const x = scaleLinear().domain(reach(data)).nice();
  return {
    head: ['Minutes', 'Times'],
    rows: binsOf(data.values, x.domain() as [number, number]).map((one) => [
      `${figure(one.x0!)} to ${figure(one.x1!)}`,
      String(one.length),
    ]),
  };
}

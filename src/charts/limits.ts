/** What one more of each thing buys: the gain, its interval, and the difference that matters. */
import { along, numbersBelow } from './axis.ts';
import { picture, rule, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { figure, lines, signed, SMALL, TEXT, words, wrapped } from './words.ts';

export interface LimitsRow {
  /** "one more clamp set". */
  name: string;
  gain: number;
  low: number;
  high: number;
  /** "3.1 more (2.8 to 3.4)", "no difference that this many runs can see (under 0.3)". */
  words: string;
}

export interface Limits {
  title: string;
  description: string;
  rows: LimitsRow[];
  /** The difference that matters, units a shift. */
  matters: number;
  foot: Foot;
}

export function limitsPicture(data: Limits, size: Size): string {
  const { width } = size;
  const wide = width >= 640;
  const left = wide ? Math.min(230, width * 0.28) : 0;
  const right = wide ? Math.min(250, width * 0.27) : 0;
  const pitch = wide ? 54 : 76;
  const top = 26;
  const scale = along(
    [0, data.matters, -data.matters, ...data.rows.flatMap((row) => [row.low, row.high])],
    SIDE + left + 12,
    width - SIDE - right - 12,
  );
  const bottom = top + data.rows.length * pitch;
  const rows = data.rows.flatMap((row, i): Markup[] => {
    const y = top + i * pitch + (wide ? pitch / 2 : 38);
    const from = scale(Math.min(0, row.gain));
    return [
      ...beside(
        SIDE,
        wide ? y : y - 21,
        wrapped(row.name, wide ? left : width).slice(0, wide ? 2 : 1),
        TEXT,
        600,
      ),
      element('rect', {
        x: from,
        y: y - 7,
        width: Math.abs(scale(row.gain) - scale(0)),
        height: 14,
        ...inked({ fill: 'hairline' }),
      }),
      element('rect', {
        x: scale(row.low),
        y: y - 3,
        width: Math.max(3, scale(row.high) - scale(row.low)),
        height: 6,
        ...inked({ fill: 'ink' }),
      }),
      rule(scale(row.gain), y - 9, scale(row.gain), y + 9, 'ink', 2),
      ...beside(
        wide ? width - SIDE - right : SIDE,
        wide ? y : y + 22,
        wrapped(row.words, wide ? right : width - 2 * SIDE, SMALL + 1).slice(0, wide ? 3 : 2),
        SMALL + 1,
      ),
    ];
  });
  const [near, far] = [scale(-data.matters), scale(data.matters)];
  return picture(
    size,
    { title: data.title, description: data.description, foot: data.foot, height: bottom + 24 },
    element('rect', {
      x: near,
      y: top,
      width: far - near,
      height: bottom - top,
      ...inked({ fill: 'shade' }),
    }),
    words(scale(0), top - 10, `under ${figure(data.matters)} makes no odds`, {
      size: SMALL,
      ink: 'muted',
      anchor: scale(0) - scale.range()[0]! < 80 ? 'start' : 'middle',
    }),
    numbersBelow(scale, bottom, top),
    rule(scale(0), top, scale(0), bottom, 'ink', 1.4),
    rows,
  );
}

/** Lines with their middle at y. */
const beside = (x: number, y: number, texts: string[], size: number, weight?: number): Markup[] =>
  lines(x, y + size * 0.35 - ((texts.length - 1) * size * 1.3) / 2, texts, { size, weight });

export const limitsTable = ({ rows }: Limits): Table => ({
  head: ['One more', 'Buys, units a shift', 'Lies between', 'In words'],
  rows: rows.map((row) => [
    row.name,
    signed(row.gain),
    `${signed(row.low)} and ${signed(row.high)}`,
    row.words,
  ]),
});

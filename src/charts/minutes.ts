/** Where the minutes went: one hundred-percent strip a person, a clamp set, a bench. */
import { hatchOf, picture, SIDE, type Foot, type Size, type Table } from './frame.ts';
import { key } from './key.ts';
import type { Meaning } from './palette.ts';
import { element, inked, type Markup } from './svg.ts';
import { cut, figure, SMALL, widthOf, words } from './words.ts';

/** `word`: "fitting", "nothing to work on". */
export interface MinutesPart {
  meaning: Meaning;
  word: string;
  minutes: number;
}

export interface MinutesStrip {
  name: string;
  parts: MinutesPart[];
}

export interface Minutes {
  title: string;
  description: string;
  strips: MinutesStrip[];
  foot: Foot;
}

const STRIP = 24;
/** Parts under this share of the strip need not be named in the picture; the table has them all. */
const NAMED = 0.025;

export function minutesPicture(data: Minutes, size: Size): string {
  let top = 0;
  const strips = data.strips.map((strip) => {
    const { marks, height } = stripOf(strip, size);
    const moved = element('g', { transform: `translate(0 ${top})` }, marks);
    top += height;
    return moved;
  });
  return picture(
    size,
    {
      title: data.title,
      description: data.description,
      foot: data.foot,
      height: Math.max(0, top - 14),
      hatched: true,
    },
    strips,
  );
}

function stripOf({ name, parts: all }: MinutesStrip, size: Size): { marks: Markup[]; height: number } {
  const parts = all.filter((part) => part.minutes > 0);
  const total = parts.reduce((sum, part) => sum + part.minutes, 0);
  const full = size.width - 2 * SIDE;
  const share = (part: MinutesPart): number => part.minutes / total;
  const label = (part: MinutesPart): string => `${part.word} ${figure(100 * share(part), 0)} %`;
  const placed: { part: MinutesPart; x: number; width: number }[] = [];
  let x = SIDE;
  for (const part of parts) {
    placed.push({ part, x, width: full * share(part) });
    x += full * share(part);
  }
  const marks = [
    words(SIDE, 15, cut(name, full), { weight: 600 }),
    ...placed.map((one) => partOf(one.part, one.x, 22, one.width, size.id)),
  ];
  const named = placed.filter(({ part }) => share(part) >= NAMED);
  const under = labelsUnder(
    named.map(({ part, x: at }) => ({ x: at, text: label(part), meaning: part.meaning })),
    full,
  );
  if (under !== null) return { marks: [...marks, ...under], height: 78 };
  // Too tight to write each under its part: the words flow in lines, each with its swatch.
  const flowing = key(
    named.map(({ part }) => ({ meaning: part.meaning, word: label(part) })),
    size,
  );
  return {
    marks: [...marks, element('g', { transform: `translate(0 ${22 + STRIP + 6})` }, flowing.marks)],
    height: 22 + STRIP + 6 + flowing.height + 12,
  };
}

/**
 * Each label where its part begins, or null where two would touch. A label may run past its part, and left of
 * it at the end.
 */
function labelsUnder(labels: { x: number; text: string; meaning: Meaning }[], full: number): Markup[] | null {
  let end = -Infinity;
  const marks: Markup[] = [];
  for (const { x, text, meaning } of labels) {
    const needed = widthOf(text, SMALL);
    const at = Math.min(x, SIDE + full - needed);
    if (at < end + 10) return null;
    const hot = meaning === 'waiting';
    marks.push(
      words(at, 22 + STRIP + 15, text, {
        size: SMALL,
        ink: hot ? 'waiting' : 'muted',
        weight: hot ? 600 : undefined,
      }),
    );
    end = at + needed;
  }
  return marks;
}

function partOf(
  { meaning, word, minutes }: MinutesPart,
  x: number,
  y: number,
  width: number,
  id: string,
): Markup {
  const bare = meaning === 'free' || meaning === 'off';
  const edge = bare ? inked({ stroke: 'muted' }) : {};
  return element(
    'rect',
    {
      x: x + 0.5,
      y: bare ? y + 0.5 : y,
      width: Math.max(0.6, width - 1),
      height: bare ? STRIP - 1 : STRIP,
      fill: hatchOf(id, meaning),
      class: edge.class,
      stroke: edge.stroke,
      'stroke-width': bare ? 0.8 : undefined,
    },
    element('title', {}, `${word}: ${figure(minutes)} min`),
  );
}

export function minutesTable({ strips }: Minutes): Table {
  const wordsUsed = [...new Set(strips.flatMap((strip) => strip.parts.map((part) => part.word)))];
  return {
    head: ['', ...wordsUsed.map((word) => `${word}, min`)],
    rows: strips.map((strip) => [
      strip.name,
      ...wordsUsed.map((word) => {
        const mine = strip.parts.filter((part) => part.word === word);
        return mine.length === 0 ? '' : figure(mine.reduce((sum, part) => sum + part.minutes, 0));
      }),
    ]),
  };
}

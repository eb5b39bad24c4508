/** Where the minutes went: one hundred-percent strip a person, a clamp set, a bench. */
import { hatchOf, picture, SIDE, type Foot, type Size, type Table } from './frame.ts';
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
const PITCH = 78;

export function minutesPicture(data: Minutes, size: Size): string {
  const strips = data.strips.map((strip, i) => stripOf(strip, i * PITCH, size));
  return picture(size, { title: data.title, description: data.description, foot: data.foot, height: data.strips.length * PITCH - 10, hatched: true }, strips);
}

function stripOf({ name, parts }: MinutesStrip, top: number, { width, id }: Size): Markup[] {
  const total = parts.reduce((sum, part) => sum + part.minutes, 0);
  const full = width - 2 * SIDE;
  const marks: Markup[] = [words(SIDE, top + 15, cut(name, full), { weight: 600 })];
  let x = SIDE;
  let labelEnd = -Infinity;
  for (const part of parts) {
    const wide = total === 0 ? 0 : (full * part.minutes) / total;
    if (wide > 0) marks.push(partOf(part, x, top + 22, wide, id));
    const label = `${part.word} ${figure((100 * part.minutes) / total, 0)} %`;
    // A label may run past its part where nothing is said beside it; it is left out where it would touch the one before.
    const needed = widthOf(label, SMALL);
    if (wide >= 14 && x >= labelEnd + 10 && x + needed <= SIDE + full) {
      marks.push(words(x, top + 22 + STRIP + 15, label, { size: SMALL, ink: part.meaning === 'waiting' ? 'waiting' : 'muted', weight: part.meaning === 'waiting' ? 600 : undefined }));
      labelEnd = x + needed;
    }
    x += wide;
  }
  return marks;
}

function partOf({ meaning, word, minutes }: MinutesPart, x: number, y: number, width: number, id: string): Markup {
  const bare = meaning === 'free' || meaning === 'off';
  const edge = bare ? inked({ stroke: 'muted' }) : {};
  return element(
    'rect',
    { x: x + 0.5, y: bare ? y + 0.5 : y, width: Math.max(0.6, width - 1), height: bare ? STRIP - 1 : STRIP, fill: hatchOf(id, meaning), class: edge.class, stroke: edge.stroke, 'stroke-width': bare ? 0.8 : undefined },
    element('title', {}, `${word}: ${figure(minutes)} min`),
  );
}

export function minutesTable({ strips }: Minutes): Table {
  const wordsUsed = [...new Set(strips.flatMap((strip) => strip.parts.map((part) => part.word)))];
  return {
    head: ['', ...wordsUsed.map((word) => `${word}, min`)],
    rows: strips.map((strip) => [strip.name, ...wordsUsed.map((word) => {
      const mine = strip.parts.filter((part) => part.word === word);
      return mine.length === 0 ? '' : figure(mine.reduce((sum, part) => sum + part.minutes, 0));
    })]),
  };
}

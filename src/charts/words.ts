/** Words and figures in pictures: how they are written, about how wide they are, and where lines break. */
import { digits } from '../words/digits.ts';
import { element, inked, type Ink, type Markup } from './svg.ts';

/** Text sizes in pictures, px. */
export const TEXT = 15;
export const SMALL = 13;

/** A figure with so many decimals, thousands set apart, a true minus sign; "–" where there is none. */
export function figure(value: number, decimals = 1): string {
  if (!Number.isFinite(value)) return '–';
  const text = digits(decimals).format(Math.abs(value));
  return value < 0 && Number(text.replaceAll(',', '')) !== 0 ? `−${text}` : text;
}

/** The same with its sign always written. */
export const signed = (value: number, decimals = 1): string =>
  value > 0 ? `+${figure(value, decimals)}` : figure(value, decimals);

const NARROW = /[ijltfrI.,:;'’|!()[\] ]/;
const WIDE = /[mwMW@%—]/;

/**
 * About how wide a text is, px, in the typeface of the pictures: a little too wide rather than too narrow.
 */
export function widthOf(text: string, size = TEXT): number {
  let ems = 0;
  for (const letter of text)
    ems += NARROW.test(letter) ? 0.32 : WIDE.test(letter) ? 0.92 : /[A-Z0-9]/.test(letter) ? 0.65 : 0.57;
  return ems * size;
}

/**
 * The text in lines no wider than `width` px where words allow; a word too long for a line is cut with an
 * ellipsis.
 */
export function wrapped(text: string, width: number, size = TEXT): string[] {
  const lines: string[] = [];
  let line = '';
  // A range in brackets stays together: "(2.8 to 3.4)".
  const bound = text.replace(/\([^()]{1,18}\)/g, (part) => part.replaceAll(' ', '\u00a0'));
  for (const word of bound.split(/[ \n\t]+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(longer, size) > width) {
      lines.push(line);
      line = cut(word, width, size);
    } else {
      line = line === '' ? cut(word, width, size) : longer;
    }
  }
  return line === '' ? lines : [...lines, line];
}

/** The text, cut with an ellipsis to fit. */
export function cut(text: string, width: number, size = TEXT): string {
  if (widthOf(text, size) <= width) return text;
  let short = [...text];
  while (short.length > 1 && widthOf(`${short.join('')}…`, size) > width) short = short.slice(0, -1);
  return `${short.join('')}…`;
}

export interface Lettering {
  size?: number;
  ink?: Ink;
  anchor?: 'start' | 'middle' | 'end';
  weight?: number | undefined;
  /** Set on a ground of paper, so that lines behind do not run through it. */
  halo?: boolean;
}

/** One line of text with its baseline at y. */
export function words(
  x: number,
  y: number,
  text: string,
  { size = TEXT, ink = 'ink', anchor, weight, halo }: Lettering = {},
): Markup {
  const paint = halo === true ? inked({ fill: ink, stroke: 'paper' }) : inked({ fill: ink });
  return element(
    'text',
    {
      x,
      y,
      ...paint,
      'stroke-width': halo === true ? 4 : undefined,
      'stroke-linejoin': halo === true ? 'round' : undefined,
      'paint-order': halo === true ? 'stroke' : undefined,
      'font-size': size,
      'text-anchor': anchor === 'start' ? undefined : anchor,
      'font-weight': weight,
    },
    text,
  );
}

/** Several lines, the first with its baseline at y. */
export const lines = (x: number, y: number, texts: string[], lettering: Lettering = {}): Markup[] =>
  texts.map((text, i) => words(x, y + i * ((lettering.size ?? TEXT) * 1.3), text, lettering));

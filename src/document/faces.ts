/**
 * The typefaces that a page carries with it, so that it looks and breaks the same on every machine, and fits
 * its sheet. Only the parts with letters of the page go along.
 */

export interface Face {
  family: string;
  /** Of the variable font: "400 900". */
  weights: string;
  /** As in a style sheet: "U+0000-00FF, U+0131". */
  range: string;
  /** The font (WOFF2) as a data address. */
  data: string;
}

/** What a page is set in, its figures lined up; and what the words of its pictures are set in. */
export const TEXT_FACE = 'Vollkorn';
export const PICTURE_FACE = 'Public Sans';

/** The faces as a style sheet: those with letters of the text, of a family; nothing where there are none. */
export function facesOf(faces: readonly Face[], family: string, text: string): string {
  const letters = new Set(Array.from(text, (letter) => letter.codePointAt(0)!));
  return faces
    .filter((face) => face.family === family && holds(face.range, letters))
    .map(
      ({ weights, range, data }) =>
        `@font-face{font-family:'${family}';font-weight:${weights};src:url(${data}) format('woff2');unicode-range:${range}}`,
    )
    .join('\n');
}

function holds(range: string, letters: ReadonlySet<number>): boolean {
  const stretches = range.split(',').map((part) => {
    const [, from, to] = /U\+([0-9A-F]+)(?:-([0-9A-F]+))?/i.exec(part) ?? [];
    return [parseInt(from ?? '', 16), parseInt(to ?? from ?? '', 16)] as const;
  });
  return [...letters].some((letter) => stretches.some(([from, to]) => letter >= from && letter <= to));
}

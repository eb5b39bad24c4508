/**
 * The sheet that hangs on the wall: the day of the crew as a picture and the rules that go with it, on one
 * page of A4 or Letter, black and white.
 *
 * No word of it is smaller than can be read at arm's length. Capitals have to be at least 16 minutes of arc
 * high (ISO 9241-3, for text that is to be read); at 60 cm, from the eye to what a hand can touch (common
 * practice, no source), that is 2.79 mm. Capitals of the narrowest face of the page, Times, are 0.662 of its
 * size (its font metrics), so 12 points, with 2.80 mm, are the least. The cautions are footnotes, which the
 * same standard lets be smaller.
 */
import { crewDayPicture } from '../charts/index.ts';
import { IN_SHORT } from './parts/in-short.ts';
import { PRINT_WIDTH, roomLeft, toHtml, WIDE_LETTER, type PrintOptions } from '../document/document-html.ts';
import type { Block, Page } from '../document/document.ts';
import type { Caution } from '../scenario/cautions.ts';
import type { CrewSheet } from '../staffing/sheet.ts';
import { crewDayOf } from './crew-day.ts';
import { sheetRules, sheetTable } from './crew-sheet.ts';

/** Sizes of the text, points: the largest that fits is taken. */
const MOST_SIZE = 16;
export const ARMS_LENGTH_SIZE = 12;

export interface WallSheet {
  sheet: CrewSheet;
  /** The day as it is to be read, for example "Tuesday 3 March 2026"; left out where it is not known. */
  day?: string;
  /** The plan's answer in a sentence or two. */
  answer: string[];
  /** How late it may get, in a sentence; left out or empty: nothing is said of it. */
  late?: string;
  cautions: Caution[];
}

/** The page, and the size of its text on paper, points. */
interface WallPage {
  page: Page;
  size: number;
}

/**
 * As large as fits one sheet, and what is left over shared among the lanes. Where not even the smallest fits,
 * the title is set smaller, the answer keeps its first sentence only, the cautions their short form, and the
 * lines go without a key; a crew that is larger still runs on to a second sheet.
 */
export function wallPage(wall: WallSheet, paper?: PrintOptions['paper']): WallPage {
  const left = (one: WallSheet, size: number): number =>
    roomLeft(pageOf(one, size), size, paper, WIDE_LETTER) - SPARE;
  const sizes: number[] = [];
  for (let size = MOST_SIZE; size >= ARMS_LENGTH_SIZE; size -= 0.5) sizes.push(size);
  const short = { ...wall, answer: wall.answer.slice(0, 1), crowded: true };
  const size = sizes.find((one) => left(wall, one) >= 0) ?? ARMS_LENGTH_SIZE;
  const fits: WallSheet & { crowded?: boolean } = left(wall, size) >= 0 ? wall : short;
  const lanes = Math.max(1, wall.sheet.people.filter(({ chance }) => chance > 0).length);
  const air = Math.min(MOST_AIR * size, Math.max(0, left(fits, size) / lanes) * POINTS_PER_MM);
  return { page: pageOf(fits, size, air), size };
}

/** The page as it is printed. */
export function wallHtml(wall: WallSheet, options: Omit<PrintOptions, 'size'> = {}): string {
  const { page, size } = wallPage(wall, options.paper);
  return toHtml(page, { ...options, size });
}

const POINTS_PER_MM = 72 / 25.4;
/** Space after a lane, in times the text, beyond which a sheet only gets thinner. */
const MOST_AIR = 1.2;
/** Kept free, mm: how high text gets is an estimate. */
const SPARE = 4;

function pageOf(
  { sheet, day, answer, late, cautions, crowded = false }: WallSheet & { crowded?: boolean },
  size: number,
  air = 0,
): Page {
  const title = `Crew sheet: ${sheet.cell}${day === undefined ? '' : `, ${day}`}`;
  return {
    title,
    blocks: [
      { kind: 'heading', level: crowded ? 2 : 1, text: title },
      { kind: 'paragraph', text: answer.join(' ') },
      dayBlock(sheet, { size, air, keyed: !crowded }),
      sheetRules(sheet, true, late),
      {
        kind: 'paragraph',
        text: crowded ? IN_SHORT : cautions.map((caution) => caution.text).join(' '),
        small: true,
      },
    ],
  };
}

/**
 * The picture of the day for a page, its words `size` points on paper (default: of a page held in the hand),
 * `air` points between its lanes.
 */
export function dayBlock(
  sheet: CrewSheet,
  { size = 9, air = 0, keyed = true }: { size?: number; air?: number; keyed?: boolean } = {},
): Extract<Block, { kind: 'picture' }> {
  const day = crewDayOf(sheet);
  // Drawn in points: as wide as the print, so that nothing is scaled.
  const width = PRINT_WIDTH * POINTS_PER_MM;
  return {
    kind: 'picture',
    file: 'crew-day.svg',
    description: day.description,
    svg: crewDayPicture(day, { width, id: 'crew-day', text: size, air, keyed }),
    table: sheetTable(sheet),
    whole: true,
  };
}

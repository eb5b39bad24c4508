/** What each kind of question tells the page: the rest is the same for all. */
import type { Scenario } from '../../scenario/schema.ts';
import type { Block } from '../../document/document.ts';
import type { Ranged } from '../../money/payback.ts';
import type { Subject } from '../../words/sentences.ts';
import type { Bought } from './money.ts';
import type { Then } from './staircase.ts';

export type PictureBlock = Extract<Block, { kind: 'picture' }>;

export interface Told {
  question: string;
  /** The answer in a sentence or two, with its range. When it pays back comes between them. */
  headline: string[];
  /** More about the answer, one paragraph. */
  says: string[];
  /** The figures behind it, and a picture where the staircase is not the one that shows why. */
  figures: Extract<Block, { kind: 'table' | 'picture' }>[];
  /** In place of the staircase where there is none. */
  instead: PictureBlock | null;
  /** Its tables need the whole width. */
  wide: boolean;
  /** Where the question leads from what the cell makes, for the staircase. */
  leads: Then | null;
  /** What is bought; null where nothing is. */
  bought: Bought | null;
  /** Facts on money instead, where nothing is bought. */
  costs: { name: string; value: string }[];
  /** What holds the cell back then. */
  then: string[];
  /** How sure, on how many runs. */
  sure: string;
  /** What the inputs are moved under, and the range of its gain; null where no gain is asked about. */
  gain: { subject: Subject; range: Ranged; matters: number } | null;
  /** Cells whose cautions and people the page speaks of. */
  cells: Scenario[];
}

export const paragraph = (text: string): Extract<Block, { kind: 'paragraph' }> => ({
  kind: 'paragraph',
  text,
});

export const NOTHING_RUN =
  'PARTIAL: stopped by hand before a single shift was run; there is nothing to say yet.';

/** A sentence of chances or promises after a colon or a comma: all their forms begin with a small word. */
export const lowered = (words: string): string =>
  words.replace(/^(The|None|All|Nine|At|No|Over|In) /, (start) => start.toLowerCase());

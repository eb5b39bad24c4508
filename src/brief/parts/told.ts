/** What each kind of question tells the page: the rest is the same for all. */
import type { Scenario } from '../../scenario/schema.ts';
import type { Block } from '../document.ts';
import type { Ranged } from '../finance.ts';
import type { Subject } from '../sentences.ts';
import type { Bought } from './money.ts';

export interface Told {
  question: string;
  /** The answer in a sentence or two, with its range. */
  headline: string;
  /** More about the answer, one paragraph. */
  says: string[];
  /** The figures behind it, and a picture where the staircase is not the one that shows why. */
  figures: Block[];
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

export const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

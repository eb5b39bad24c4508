/** What a caution is: what it says, to which cells, and where it is read besides the foot of every answer. */
import type { ResolvedShift } from '../resolve.ts';
import type { Scenario } from '../schema.ts';

/** What a caution says, for screen, paper and the command line alike. */
export interface Said {
  /** One word or two that tell it from the others, in the JSON too. */
  topic: string;
  /** One sentence or two. */
  text: string;
  /** Where the figures come from; left out where a caution has none. */
  source?: string;
}

/** Fields of the cell's editor beside which cautions stand. */
export const FIELDS = [
  'breaks',
  'gear taken',
  'hands at once',
  'limit of hours',
  'limit of vibration',
  'overtime',
  'overtime pay',
  'own times of a product',
  'sanding',
  'study',
  'wait',
  'week of a person',
  'where a person stands',
] as const;
export type Field = (typeof FIELDS)[number];

/** Papers with room for what matters most there. */
export type ShortPaper = 'handover' | 'record';

export interface Caution<Topic extends string = string> extends Omit<Said, 'source'> {
  topic: Topic;
  /** The same in a few words, to stand in a row with others: no capital, no stop. */
  short: string;
  source: string | null;
  /** Whether it concerns this cell. */
  applies: (shift: ResolvedShift, scenario: Scenario) => boolean;
  beside: readonly Field[];
  onShortPapers: readonly ShortPaper[];
}

/** Nothing of a caution may be left out, and its topic stays in its type. */
export const caution = <Topic extends string>(one: Caution<Topic>): Caution<Topic> => one;

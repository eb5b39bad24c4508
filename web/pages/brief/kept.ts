/**
 * What was written for the brief of a cell and which question it answers; kept in this browser, where it lets
 * us.
 */
import { Own } from '../../store/own.ts';

export interface BriefWords {
  /** "gear clamp", "options" or "limits". */
  question: string;
  title: string;
  notes: string;
}

const EMPTY: BriefWords = { question: '', title: '', notes: '' };

const words = new Own<BriefWords>({
  key: 'clampwright-briefs',
  name: 'title and notes of a brief',
  read: (value) => {
    const { question, title, notes } = (value ?? {}) as Record<string, unknown>;
    return typeof question === 'string' && typeof title === 'string' && typeof notes === 'string'
      ? { question, title, notes }
      : null;
  },
  // Of each field what was changed here since, else what the other tab has.
  merge: (base, theirs, ours) => {
    const one = (key: keyof BriefWords): string => (ours[key] === (base ?? EMPTY)[key] ? theirs : ours)[key];
    return { question: one('question'), title: one('title'), notes: one('notes') };
  },
});

export const wordsFor = (cell: string): BriefWords => words.get(cell) ?? EMPTY;

/** What is kept now; null where this browser keeps nothing. */
export const keepWords = (cell: string, one: BriefWords): BriefWords | null => words.set(cell, one);

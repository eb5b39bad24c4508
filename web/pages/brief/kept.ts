/**
 * What was written for the brief of a cell and which question it answers; kept in this browser, where it lets
 * us.
 */
export interface BriefWords {
  /** "gear clamp", "options" or "limits". */
  question: string;
  title: string;
  notes: string;
}

const KEY = 'clampwright-briefs';
const EMPTY: BriefWords = { question: '', title: '', notes: '' };

function all(): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : {};
  } catch {
    return {};
  }
}

export function wordsFor(cell: string): BriefWords {
  const kept = all()[cell];
  if (typeof kept !== 'object' || kept === null) return EMPTY;
  const text = (key: keyof BriefWords): string => {
    const value: unknown = (kept as Record<string, unknown>)[key];
    return typeof value === 'string' ? value : '';
  };
  return { question: text('question'), title: text('title'), notes: text('notes') };
}

/** False where this browser keeps nothing. */
export function keepWords(cell: string, words: BriefWords): boolean {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...all(), [cell]: words }));
    return true;
  } catch {
    return false;
  }
}

/** The log of a cell, kept in this browser where it lets us; the same file as the command line's. */
import { readLog, type LogBook } from '../../../src/timing/log-book.ts';

const keyOf = (cell: string): string => `clampwright-log ${cell}`;

export function logFor(cell: string): LogBook | null {
  try {
    const text = localStorage.getItem(keyOf(cell));
    const read = text === null ? null : readLog(text);
    return read?.kind === 'fine' ? read.log : null;
  } catch {
    return null;
  }
}

/** False where this browser keeps nothing, or has no room. */
export function keepLog(cell: string, log: LogBook): boolean {
  try {
    localStorage.setItem(keyOf(cell), JSON.stringify(log));
    return true;
  } catch {
    return false;
  }
}

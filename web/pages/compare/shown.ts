/** Which options stand side by side; kept in this browser for each cell, where it lets us. */
import { MOST_SHOWN, type Options } from './options.ts';

const KEY = 'clampwright-side-by-side';

function kept(): Record<string, string[]> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof value === 'object' && value !== null ? (value as Record<string, string[]>) : {};
  } catch {
    return {};
  }
}

/** In the file's order; at first as many of the first ones as there is room for. */
export function shownOf(cell: string, options: Options): string[] {
  const chosen = kept()[cell];
  const ids = Object.keys(options);
  return (Array.isArray(chosen) ? ids.filter((id) => chosen.includes(id)) : ids).slice(0, MOST_SHOWN);
}

export function keepShown(cell: string, ids: string[]): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...kept(), [cell]: ids }));
  } catch {
    // Not kept for the next time: the first ones are shown again then.
  }
}

/** With one more; where there is no room left the last other one makes way. */
export function withShown(ids: string[], id: string): string[] {
  const others = ids.filter((one) => one !== id);
  return [...others.slice(0, MOST_SHOWN - 1), id];
}

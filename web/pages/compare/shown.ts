/** Which options stand side by side; kept in this browser for each cell, where it lets us. */
import { Own } from '../../store/own.ts';
import { MOST_SHOWN } from './options.ts';

const kept = new Own<string[]>({
  key: 'clampwright-side-by-side',
  name: 'which options stand side by side',
  read: (value) => (Array.isArray(value) ? value.filter((id): id is string => typeof id === 'string') : null),
});

/** In the file's order; at first as many of the first ones as there is room for. */
export function shownOf(cell: string, options: readonly { id: string }[]): string[] {
  const chosen = kept.get(cell);
  const ids = options.map(({ id }) => id);
  return (chosen === null ? ids : ids.filter((id) => chosen.includes(id))).slice(0, MOST_SHOWN);
}

/** Where it cannot be kept for the next time, the first ones are shown again then. */
export const keepShown = (cell: string, ids: string[]): void => void kept.set(cell, ids);

/** With one more; where there is no room left the last other one makes way. */
export function withShown(ids: string[], id: string): string[] {
  const others = ids.filter((one) => one !== id);
  return [...others.slice(0, MOST_SHOWN - 1), id];
}

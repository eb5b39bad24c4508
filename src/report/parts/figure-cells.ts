/** Figures as a spreadsheet takes them: no thousands, no dashes, one a cell. */
import { fixed } from '../../words/words.ts';

interface Ranged {
  estimate: number;
  low: number;
  high: number;
}

/** Empty where there is nothing to be said: a spreadsheet would take a dash for text. */
export const cell = (value: number | null | undefined, decimals: number): string =>
  value === null || value === undefined || !Number.isFinite(value)
    ? ''
    : fixed(value, decimals).replaceAll(',', '').replace('−', '-');

/** The figure and what it surely lies between. */
export const three = (one: Ranged | null | undefined, by = 1, decimals = 2): string[] =>
  [one?.estimate, one?.low, one?.high].map((value) =>
    cell(value === undefined ? value : value * by, decimals),
  );

/** Their heads. */
export const threeHeads = (name: string): string[] => [name, `${name}, at least`, `${name}, at most`];

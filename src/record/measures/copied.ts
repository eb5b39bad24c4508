import type { Accounts } from '../accounts.ts';
import type { ListMeasure } from '../measure.ts';

export const MINUTE = 60_000;

/** Writes a list of the accounts as it is, or each number of it times `scale`. */
export function copied(
  list: (accounts: Accounts) => Float64Array,
  scale: (accounts: Accounts) => number = () => 1,
): ListMeasure['write'] {
  return (accounts, row, at) => copyScaled(list(accounts), scale(accounts), row, at);
}

// One loop for all lists: it is run thousands of times a second, and is only fast when it is made once.
function copyScaled(from: Float64Array, by: number, row: Float64Array, at: number): void {
  const count = from.length;
  for (let i = 0; i < count; i++) row[at + i] = from[i]! * by;
}

/** Writes `count` numbers of a list, from its `first` on, each over `by`. */
export function writeOver(
  from: Float64Array,
  first: number,
  count: number,
  by: number,
  row: Float64Array,
  at: number,
): void {
  for (let i = 0; i < count; i++) row[at + i] = from[first + i]! / by;
}

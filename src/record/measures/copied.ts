import type { Accounts } from '../accounts.ts';
import type { ListMeasure } from '../measure.ts';

export const MINUTE = 60_000;

/** Writes a list of the accounts as it is, or each number of it times `scale`. */
export function copied(
  list: (accounts: Accounts) => Float64Array,
  scale: (accounts: Accounts) => number = () => 1,
): ListMeasure['write'] {
  return (accounts, row, at) => {
    const from = list(accounts);
    const by = scale(accounts);
    for (let i = 0; i < from.length; i++) row[at + i] = from[i]! * by;
  };
}

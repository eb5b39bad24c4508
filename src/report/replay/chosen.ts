/** Which shift is shown: a bad, a typical or a good one of many, or one by its number. */
import type { Ranked } from '../../study/ranked.ts';
import { counted, plain } from '../../words/words.ts';

/** `share` of the shifts make fewer good units. */
export const KINDS = [
  { value: 'bad', label: 'bad', share: 0.1 },
  { value: 'typical', label: 'typical', share: 0.5 },
  { value: 'good', label: 'good', share: 0.9 },
] as const;
const MOST_NUMBER = 1e9;

/** `kind` is empty for a shift by its number. */
export interface Chosen {
  replication: number;
  kind: string;
}

const at = ({ order }: Ranked, share: number): number => order[Math.floor(share * (order.length - 1))]!;

/** The shift that the address names: bad, typical, good, or its number among those run (from 1). */
export function chosen(ranked: Ranked, wanted = 'typical'): Chosen {
  const kind = KINDS.find(({ value }) => value === wanted);
  const number = Number(wanted);
  if (kind === undefined && Number.isInteger(number) && number >= 1 && number <= MOST_NUMBER)
    return { replication: number - 1, kind: '' };
  const { value, share } = kind ?? KINDS[1];
  return { replication: at(ranked, share), kind: value };
}

/** "a bad one makes 18, a typical one makes 20, a good one makes 21"; over all shifts in a row. */
export function kindsWords(ranked: Ranked, shifts = 1): string {
  const over = shifts > 1 ? ` over ${counted(shifts, 'shift')}` : '';
  const of = (share: number): number => ranked.good[at(ranked, share)]!;
  return KINDS.map(({ label, share }) => `a ${label} one makes ${of(share)}${over}`).join(', ');
}

/** "A bad shift"; of several in a row "A bad run of 5 shifts, 181 good pieces in all. Of it, Monday". */
export function shownName(
  { kind, replication }: Chosen,
  { shifts, good }: { shifts: number; good: number },
  name: string,
): string {
  const which = plain(replication + 1);
  if (shifts < 2) return kind === '' ? `Shift number ${which}` : `A ${kind} shift`;
  const run = kind === '' ? `Run number ${which} of` : `A ${kind} run of`;
  return `${run} ${counted(shifts, 'shift')}, ${counted(good, 'good piece')} in all. Of it, ${name}`;
}

/** Where gear and people stood, by what would have to be put right: one story wherever it is told. */
import type { Remedy, RemedyTrial, Stood, StoodFor } from '../study/by-reason.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { ABOUT, WHY_MORE } from './loss-words.ts';
import { capitalized, fixed, inSentence, listed, plural, rangeText } from './words.ts';

const NAMES: Record<Remedy, { name: string; why: string }> = {
  hands: { name: 'hands or a bench', why: 'for want of hands or a bench' },
  breaks: { name: 'breaks and times away', why: 'for breaks and times away' },
  'who is in': { name: 'somebody not in', why: 'for somebody who was not in' },
  arrivals: { name: 'parts not come in', why: 'for parts that had not come in' },
  'full racks': { name: 'full racks', why: 'for racks that were full' },
  'gear out of order': { name: 'gear out of order', why: 'for gear that was out of order' },
  holds: { name: 'pieces on hold', why: 'for pieces on hold' },
  gear: { name: 'other gear that was taken', why: 'for other gear that was taken' },
  'work before': { name: 'work from the steps before', why: 'for work from the steps before' },
  end: { name: 'the end of the day', why: 'for the end of the day' },
};

export const remedyName = (remedy: Remedy): string => NAMES[remedy].name;

/** Minutes that are worth a word. */
const LEAST = 1;

/**
 * "Clamp sets stood 178 of their 1,030 minutes a shift: 90 for breaks and times away, 71 for want of hands or
 * a bench." Of people where there is no gear. Empty where nothing stood.
 */
export function stoodSentence(stood: Stood, shift: ResolvedShift): string {
  const { tightest, reasons } = stood;
  const of = (line: StoodFor): number => (tightest === null ? line.people : line.gear[tightest.gear]!);
  const told = reasons.filter((line) => of(line) >= LEAST);
  if (told.length === 0) return '';
  const { name, count } = tightest === null ? { name: '', count: 0 } : shift.gear[tightest.gear]!;
  const who =
    tightest === null
      ? `Your people, together, were without work for ${minutes(told.reduce((sum, line) => sum + of(line), 0))} minutes a shift`
      : `${capitalized(count === 1 ? `the ${inSentence(name)}` : plural(inSentence(name)))}${count === 1 ? '' : ', together,'} stood ${minutes(tightest.stood)} of ${minutes(tightest.minutes)} minutes a shift, free or with a piece that waited`;
  return `${who}: ${listed(told.map((line) => `${minutes(of(line))} ${NAMES[line.remedy].why}`))}.`;
}

const minutes = (value: number): string => fixed(value, 0);

/** "2.1 by its minutes, 1.5 when tried (1.1 to 1.9)": where the two are not about the same, and why. */
export function trialSentences({ reasons, tightest }: Stood, trials: readonly RemedyTrial[]): string[] {
  return trials.flatMap(({ remedy, gain }): string[] => {
    const pieces = tightest === null ? 0 : (reasons.find((one) => one.remedy === remedy)?.pieces ?? 0);
    if (agreesWith(pieces, gain)) return [];
    const { estimate, range } = rangeText(gain);
    const tried = `“${capitalized(NAMES[remedy].name)}”, ${fixed(pieces, 1)} by its minutes, brings ${estimate}${range === '' ? '' : ` (${range})`} when it alone is put right`;
    return [`${tried}: ${whyNot(remedy, pieces, gain)}.`];
  });
}

/** Within half a piece, or within what the runs leave open. */
export const agreesWith = (pieces: number, { low, high }: RemedyTrial['gain']): boolean =>
  pieces >= low - ABOUT && pieces <= high + ABOUT;

function whyNot(
  remedy: RemedyTrial['remedy'],
  pieces: number,
  { estimate, high }: RemedyTrial['gain'],
): string {
  if (high < 0) return remedy === 'hands' ? MORE_BEGUN : WHY_MORE[remedy];
  if (estimate < pieces) return 'the minutes come free, and then most of them wait for something else';
  return 'it also brings on what goes on beside the clamps and other gear';
}

const MORE_BEGUN = 'more is begun than the steps behind get through, and that is in their way';

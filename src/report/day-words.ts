/** Which day of the book a page is about, in sentences, and what a handover says of it. */
import type { Content } from '../book/kinds.ts';
import { dayWords } from '../scenario/calendar.ts';
import { countSaid } from '../today/kept-counts.ts';
import type { OpenedDay } from '../today/opened-day.ts';
import type { NowState } from '../today/state.ts';

/** Which day it is about and what it opens with, in a sentence. */
export const dayOpening = ({ day, opening }: OpenedDay): string =>
  opening.kind === 'file'
    ? `For ${dayWords(day)}, opening with the stock of the file.`
    : `For ${dayWords(day)}, opening with what ${dayWords(opening.day)} handed over.`;

/** Whose plan it is reckoned with. */
export function postsSentence({ plan }: OpenedDay): string {
  if (plan === null) return 'No plan was put into this day: the posts are those of the file.';
  return plan.current
    ? 'The posts are those of the plan of this day.'
    : 'The plan of this day was made of an older cell: plan again.';
}

export const daySentence = (opened: OpenedDay): string => `${dayOpening(opened)} ${postsSentence(opened)}`;

/** What the plan of the day promised, in words; null where nothing was. */
export function promisedWords({ view }: OpenedDay): string | null {
  const promise = view.plan?.content.promise;
  return promise == null ? null : `${promise.units} good, of the plan of this day`;
}

/** What the next shift is to know, with the batches that are still put aside. */
export function noteWithHolds({ view }: OpenedDay, note: string): string {
  const held = view.holds.map(
    ({ content }) =>
      `On hold: ${content.name}${content.whose === undefined ? '' : ` (${content.whose} decides)`}.`,
  );
  return [note, ...held].filter((text) => text !== '').join(' ');
}

/** A checked count as the handover of its day. */
export const handoverSaid = (
  now: NowState,
  { promised, note }: { promised: string | null; note: string },
): Content<'handover'> => ({
  ...countSaid(now),
  ...(promised === null ? {} : { promised }),
  ...(note === '' ? {} : { note }),
});

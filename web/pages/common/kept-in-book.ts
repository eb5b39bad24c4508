/** Puts what is said of a day into the book, says so, and has it taken back in one press. */
import type { ToSay } from '../../../src/book/next-entry.ts';
import { say } from '../../parts/notice.ts';
import { addToBook, takeBack } from '../../store/book.ts';
import type { CellStore } from '../../store/cell-store.ts';

export const NOT_KEPT = 'This browser keeps nothing: save the log before you close the page.';

/** @param words what has been done: "Monday 8 March 2027 has its plan and forecast." */
export async function keepInBook(store: CellStore, said: readonly ToSay[], words: string): Promise<void> {
  const { entries, kept } = await addToBook(store, said);
  const back = {
    label: 'take it back',
    run: () =>
      void takeOut(
        store,
        entries.map(({ id }) => id),
        'Taken back.',
      ),
  };
  say(words, { act: back });
  if (!kept) say(NOT_KEPT, { kind: 'wrong' });
}

/** Takes entries back by further ones, which can be taken back themselves: nothing is ever lost. */
export async function takeOut(store: CellStore, ids: readonly string[], words: string): Promise<void> {
  const { entries } = await takeBack(store, ids);
  if (entries.length === 0) return;
  const run = (): void =>
    void takeOut(
      store,
      entries.map(({ id }) => id),
      'Put back.',
    );
  say(words, { act: { label: 'put it back', run } });
}

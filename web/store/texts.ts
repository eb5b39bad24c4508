/**
 * Texts of the small store (localStorage) once more in the database. A browser brings the small store to the
 * disk some seconds after it was written to; the database is flushed at once. So a browser that is killed
 * meanwhile has lost nothing: what is newer in the database comes back from there.
 */
import type { KeptText } from './database.ts';
import type { Shelf } from './shelf.ts';

/** Beside each text, when it was written: the two are brought to the disk together. */
const AT = 'clampwright-at ';

let keep: (text: KeptText) => void = () => {};

/** Writes a text down at once, and to the database a moment later. Throws where there is no room. */
export function writeText(key: string, text: string): void {
  const at = Math.max(Date.now(), atOf(key) + 1);
  localStorage.setItem(key, text);
  localStorage.setItem(`${AT}${key}`, String(at));
  keep({ key, text, at });
}

/** ms; 0 where it was never written, or the note of it is damaged. */
const atOf = (key: string): number => Number.parseInt(localStorage.getItem(`${AT}${key}`) ?? '', 10) || 0;

/** Puts back what the small store lost, and from now on keeps what is written on this shelf too. */
export async function keepTextsOn(shelf: Pick<Shelf, 'texts' | 'keepText'>): Promise<void> {
  keep = (text) => void shelf.keepText(text).catch(() => {});
  try {
    for (const { key, text, at } of await shelf.texts()) {
      if (at <= atOf(key)) continue;
      localStorage.setItem(key, text);
      localStorage.setItem(`${AT}${key}`, String(at));
    }
  } catch {
    // No small store, or no room in it: the pages say so where they keep something.
  }
}

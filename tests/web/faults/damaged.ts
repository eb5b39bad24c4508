/** A page opened on a store that was damaged: what is seen, and what is left of everything that was whole. */
import type { BrowserContext, Page } from 'playwright-core';
import type { Cells } from '../../../web/store/cells.ts';
import { changedAtRandom } from '../../support/damage.ts';

export interface Stored {
  cells: Record<string, unknown>[];
  entries: Record<string, unknown>[];
  small: Record<string, string>;
}

/** A page of the same address that runs nothing, to reach its store from. */
export async function beside(context: BrowserContext, url: string): Promise<Page> {
  await context.route('**/beside-the-page', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>beside</title>' }),
  );
  const page = await context.newPage();
  await page.goto(new URL('beside-the-page', url).href);
  return page;
}

export const readStore = (page: Page): Promise<Stored> =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('clampwright');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(new Error('no database'));
    });
    const all = (name: string): Promise<Record<string, unknown>[]> =>
      new Promise((resolve) => {
        const asked = db.transaction(name).objectStore(name).getAll();
        asked.onsuccess = () => resolve(asked.result as Record<string, unknown>[]);
      });
    const [cells, entries] = await Promise.all([all('cells'), all('entries')]);
    db.close();
    return { cells, entries, small: { ...localStorage } as Record<string, string> };
  });

/** Everything that was there is taken out first. Records that have no key left cannot be in a database. */
export const writeStore = (page: Page, stored: Stored): Promise<void> =>
  page.evaluate(async ({ cells, entries, small }: Stored) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('clampwright');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(new Error('no database'));
    });
    const step = db.transaction(['cells', 'entries', 'aside'], 'readwrite');
    for (const name of ['cells', 'entries', 'aside']) step.objectStore(name).clear();
    const put = (name: string, value: unknown): void => {
      try {
        step.objectStore(name).put(value);
      } catch {
        // No key: the database itself refuses it.
      }
    };
    for (const one of cells) put('cells', one);
    for (const one of entries) put('entries', one);
    await new Promise((resolve) => (step.oncomplete = resolve));
    db.close();
    localStorage.clear();
    for (const [key, text] of Object.entries(small)) localStorage.setItem(key, text);
  }, stored);

/** One record, entry or text of the small store damaged; where it is, for the telling. */
export function damaged(
  stored: Stored,
  seed: number,
): { stored: Stored; where: string; cell: string | null } {
  const copy = structuredClone(stored);
  const which = seed % 5;
  const at = (list: unknown[]): number => Math.floor(seed / 5) % list.length;
  if (which < 3) {
    const place = at(copy.cells);
    const id = String(copy.cells[place]!['id']);
    const whole = copy.cells[place]!;
    const after = changedAtRandom(whole, seed);
    // Without its key it could not be in the database at all.
    copy.cells[place] = (isGroup(after) ? { ...after, id } : { id, draft: after }) as Record<string, unknown>;
    return { stored: copy, where: `cell ${id}`, cell: id };
  }
  if (which === 3 && copy.entries.length > 0) {
    const place = at(copy.entries);
    const { cell, id, entry } = copy.entries[place]!;
    copy.entries[place] = { cell, id, entry: changedAtRandom(entry, seed) };
    return { stored: copy, where: `entry ${String(id)}`, cell: null };
  }
  const keys = Object.keys(copy.small);
  const key = keys[at(keys)]!;
  const text = copy.small[key]!;
  const half = text.slice(0, (seed * 7) % Math.max(1, text.length));
  copy.small[key] = seed % 2 === 0 ? half : (JSON.stringify(changedAtRandom(parsed(text), seed)) ?? '');
  return { stored: copy, where: `text ${key}`, cell: null };
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

export interface Seen {
  /** Null where the page stayed blank. */
  heading: string | null;
  cells: string[];
  entries: string[];
  aside: string[];
}

/** Opens the page on it and waits until it says something. */
export async function opened(context: BrowserContext, address: string, ms: number): Promise<Seen> {
  const page = await context.newPage();
  try {
    await page.goto(address);
    const heading = page.locator('cw-app h1').first();
    const shown = await heading.waitFor({ timeout: ms }).then(
      () => true,
      () => false,
    );
    if (!shown) return { heading: null, cells: [], entries: [], aside: [] };
    const words = (await heading.textContent())!.trim();
    const rest = await page.locator('cw-app').evaluate(async (app) => {
      const { cells } = app as unknown as { cells: Cells };
      const store = cells.current.get();
      while (!store.entries.read.get()) await new Promise((resolve) => setTimeout(resolve, 10));
      return {
        cells: cells.list.get().map(({ id }) => id),
        entries: store.entries.all.get().map(({ id }) => id),
        aside: cells.aside.get().map(({ name }) => name),
      };
    });
    return { heading: words === '' ? null : words, ...rest };
  } finally {
    await page.close();
  }
}

/** Texts of the small store when the browser was killed before it brought them to the disk. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { KeptText } from '../../web/store/database.ts';
import { keepTextsOn, writeText } from '../../web/store/texts.ts';
import { smallStore } from './small-store.ts';

/** A database's texts, flushed as soon as they are written. */
function shelf(): {
  kept: Map<string, KeptText>;
  texts(): Promise<KeptText[]>;
  keepText(text: KeptText): Promise<void>;
} {
  const kept = new Map<string, KeptText>();
  return {
    kept,
    texts: () => Promise.resolve([...kept.values()]),
    keepText: (text) => {
      if ((kept.get(text.key)?.at ?? 0) < text.at) kept.set(text.key, text);
      return Promise.resolve();
    },
  };
}

describe('a text of the small store', () => {
  beforeEach(() => vi.stubGlobal('localStorage', smallStore()));
  afterEach(() => vi.unstubAllGlobals());

  it('comes back from the database where the browser lost its last writing, or all of it', async () => {
    const database = shelf();
    await keepTextsOn(database);
    writeText('count', 'first');
    const before = Object.entries({ ...localStorage }) as [string, string][];
    writeText('count', 'second');
    writeText('other', 'third');
    vi.stubGlobal('localStorage', smallStore());
    for (const [key, text] of before) localStorage.setItem(key, text);
    await keepTextsOn(database);
    expect([localStorage.getItem('count'), localStorage.getItem('other')]).toEqual(['second', 'third']);
  });

  it('stays where it is the newer one, written within one millisecond though it was', async () => {
    const database = shelf();
    await keepTextsOn(database);
    for (const text of ['a', 'b', 'c']) writeText('count', text);
    expect(database.kept.get('count')?.text).toBe('c');
    await keepTextsOn({ ...database, keepText: () => Promise.reject(new Error('full')) });
    writeText('count', 'd');
    await keepTextsOn(database);
    expect(localStorage.getItem('count')).toBe('d');
  });

  it('hides nothing and throws nothing where there is no small store', async () => {
    const database = shelf();
    await database.keepText({ key: 'count', text: 'a', at: 5 });
    vi.stubGlobal('localStorage', undefined);
    await expect(keepTextsOn(database)).resolves.toBeUndefined();
  });
});

import { deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { MOST_BYTES, MOST_LETTERS, readShare, shareHash } from '../../web/store/share.ts';

const text = JSON.stringify({ format: 1, name: 'Żółw & <b>söhne</b> 🪵', about: 'x'.repeat(3000) });

describe('a cell in a link', () => {
  test('comes out as it went in, in letters that no mail program breaks', async () => {
    const hash = await shareHash(text);
    expect(hash).toMatch(/^#cell=1\.[\w-]+$/);
    expect(hash.length).toBeLessThan(text.length / 5);
    expect(await readShare(hash)).toEqual({ kind: 'fine', text });
  });

  test('is none where the address names a page', async () => {
    expect(await readShare('#/compare')).toEqual({ kind: 'none' });
    expect(await readShare('')).toEqual({ kind: 'none' });
  });

  test('is refused in words when it was cut off or edited', async () => {
    const hash = await shareHash(text);
    for (const bad of [
      hash.slice(0, -9),
      `${hash}!`,
      '#cell=',
      '#cell=2.abc',
      '#cell=1.AAAA',
      '#cell=1.%00',
    ]) {
      expect(await readShare(bad), bad).toMatchObject({ kind: 'wrong' });
    }
  });

  test('never unfolds to more than a cell can be', async () => {
    const bomb = deflateRawSync(Buffer.alloc(MOST_BYTES + 1)).toString('base64url');
    expect(bomb.length).toBeLessThan(MOST_LETTERS);
    expect(await readShare(`#cell=1.${bomb}`)).toEqual({
      kind: 'wrong',
      message: 'This link unfolds to more than a cell can be.',
    });
  });

  test('is not even read when the address is longer than any cell makes it', async () => {
    expect(await readShare(`#cell=0.${'A'.repeat(MOST_LETTERS)}`)).toMatchObject({
      kind: 'wrong',
      message: 'This link is too long to be a cell.',
    });
  });
});

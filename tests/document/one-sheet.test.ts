/** A page too long for one sheet loses words by turns, never its size, and says that it did. */
import { expect, test } from 'vitest';
import { printSize } from '../../src/document/document-html.ts';
import { LEGIBLE, onOneSheet, SHORTENED } from '../../src/document/one-sheet.ts';
import type { Block, Page } from '../../src/document/document.ts';

const words = (count: number): string => 'timber '.repeat(count).trim();
const long = (name: string, count: number, turn: number, instead: number | null): Block => ({
  kind: 'paragraph',
  text: `${name} ${words(count)}`,
  spare: {
    turn,
    instead: instead === null ? null : { kind: 'paragraph', text: `${name} ${words(instead)}` },
  },
});
const page = (...blocks: Block[]): Page => ({
  title: 'A page',
  blocks: [{ kind: 'heading', level: 1, text: 'The answer' }, ...blocks],
});
const begins = ({ blocks }: Page): string[] =>
  blocks.flatMap((block) => (block.kind === 'paragraph' ? [block.text.slice(0, 1)] : []));

test('a page that fits stays as it is', () => {
  const short = page(long('a', 20, 1, null));
  expect(onOneSheet(short)).toBe(short);
});

test('what goes first goes first, and no more goes than has to', () => {
  // 1,100 words of seven letters fill about a sheet at 8.5 points.
  const first = onOneSheet(page(long('a', 700, 2, 10), long('b', 700, 1, 10)));
  expect(first.blocks[1]).toMatchObject({ text: `a ${words(700)}` });
  expect(first.blocks[2]).toMatchObject({ text: `b ${words(10)}` });
  expect(first.blocks.at(-1)).toMatchObject({ text: SHORTENED });
  expect(printSize(first)).toBeGreaterThanOrEqual(LEGIBLE);
  const both = onOneSheet(page(long('a', 1400, 2, null), long('b', 700, 1, 10)));
  expect(begins(both)).toEqual(['b', 'S']);
});

test('what stands in columns is shortened too', () => {
  const left = long('a', 900, 1, 5) as Exclude<Block, { kind: 'columns' }>;
  const sheet = onOneSheet(page({ kind: 'columns', columns: [[left], []] }));
  expect(JSON.stringify(sheet)).not.toContain(words(900));
});

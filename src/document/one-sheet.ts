/**
 * One sheet of paper, always, at a size that can be read: where a page is too long for that, words go, not
 * the size. Blocks say themselves in which turn they may be shortened (`spare`); nothing else is.
 */
import type { Block, Page } from './document.ts';
import { roomLeft, type PrintOptions } from './document-html.ts';

/**
 * Text of a sheet handed round is not set smaller than this, points: small print in newspapers is 8 or so
 * (common practice, no source), and notes are set at 0.88 of it.
 */
export const LEGIBLE = 8.5;

/** Free under the page, mm, before it is taken to fit: heights are reckoned. */
const SAFE = 6;
/** The same of a page that the planner prints itself, with a style of its own. */
export const SAFE_ON_SCREEN = 16;

export const SHORTENED = 'Shortened to one sheet: on the screen, and as text, it stands in full.';

/**
 * The page in full where it fits; else shortened turn by turn until it does, and then given back whatever of
 * that still has room, what was to go last first.
 */
export function onOneSheet(page: Page, paper?: PrintOptions['paper'], free = SAFE): Page {
  const fits = (one: Page): boolean => roomLeft(one, LEGIBLE, paper) >= free;
  if (fits(page)) return page;
  const spares = allOf(page.blocks)
    .filter(({ spare }) => spare !== undefined)
    .sort((a, b) => a.spare!.turn - b.spare!.turn);
  const gone = new Set<Block>();
  for (const [i, block] of spares.entries()) {
    gone.add(block);
    const last = spares[i + 1]?.spare!.turn !== block.spare!.turn;
    if (last && fits(shortened(page, gone))) break;
  }
  for (const block of [...gone].reverse()) {
    gone.delete(block);
    if (!fits(shortened(page, gone))) gone.add(block);
  }
  return shortened(page, gone);
}

const allOf = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((block) => (block.kind === 'columns' ? block.columns.flat() : [block]));

/** With these blocks shortened, and a word that it was. */
function shortened(page: Page, gone: ReadonlySet<Block>): Page {
  const short = <T extends Block>(block: T): T[] => {
    const { spare } = block;
    if (spare === undefined || !gone.has(block)) return [block];
    return spare.instead === null ? [] : [spare.instead as T];
  };
  const blocks = page.blocks.flatMap((block): Block[] =>
    block.kind === 'columns'
      ? [{ ...block, columns: block.columns.map((column) => column.flatMap((one) => short(one))) }]
      : short(block),
  );
  return { ...page, blocks: [...blocks, { kind: 'paragraph', text: SHORTENED, small: true }] };
}

/**
 * A page to hand on, as blocks: what the renderers turn into HTML, Markdown and plain text (document-*.ts).
 */
import { cleaned } from '../scenario/reading/clean.ts';

export type Align = 'left' | 'right';

/**
 * `spare`: where a sheet has no room for all, in which turn the block goes (1 first) and what stands instead,
 * a block of the same kind; null: nothing. `short`: what stands instead where a reader did not ask for all of
 * it.
 */
export type Block = Kinds & { spare?: { turn: number; instead: Block | null }; short?: Kinds };

type Kinds =
  /** 1 is the page's answer, 2 a part of it. */
  | { kind: 'heading'; level: 1 | 2; text: string }
  | { kind: 'paragraph'; text: string; small?: boolean }
  | TableBlock
  /**
   * `svg` as the pictures make it; `description` for those who do not see it; `file`: its name beside a
   * Markdown page; `table`: the same where nothing can be drawn; `whole`: on paper as wide as the text and as
   * high as that makes it, where others keep to a third of the page.
   */
  | {
      kind: 'picture';
      svg: string;
      description: string;
      file?: string;
      table?: TableBlock;
      whole?: boolean;
    }
  | { kind: 'list'; items: string[]; ordered?: boolean; small?: boolean }
  /** Name and value, a line each: file, seed, version. */
  | { kind: 'facts'; facts: { name: string; value: string }[] }
  /** A caution. */
  | { kind: 'note'; text: string }
  /** Side by side on paper, one after another where there is no room; none inside another. */
  | { kind: 'columns'; columns: Exclude<Block, { kind: 'columns' }>[][] };

export interface Page {
  /** What a window or a file is called after. */
  title: string;
  blocks: Block[];
}

/** Without `align` a column whose cells are all figures is set right, any other left. */
export interface TableBlock {
  kind: 'table';
  caption?: string;
  head: string[];
  rows: string[][];
  align?: Align[];
}

export { cleaned };

const FIGURE = /^(?:[-−+]?\p{Sc}?\d[\d.,]*\s?(?:%|min)?|[-–—]?)$/u;

/** How each column is set. */
export function alignments({ head, rows, align }: TableBlock): Align[] {
  return head.map((_, column) => {
    const cells = rows.map((row) => cleaned(row[column] ?? ''));
    const figures = cells.some((cell) => /\d/.test(cell)) && cells.every((cell) => FIGURE.test(cell));
    return align?.[column] ?? (figures ? 'right' : 'left');
  });
}

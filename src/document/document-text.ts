/** A page as plain text for the command line: nothing wider than the width, tables aligned. */
import stringWidth from 'string-width';
import { alignments, cleaned, type Align, type Block, type Page, type TableBlock } from './document.ts';

const GAP = 2;
/** A column is not squeezed under this; where that is not enough, rows are written one cell a line. */
const NARROWEST = 6;

/**
 * The page as text with lines of at most `width` columns (at least 20), a wide character counting two. Ends
 * with a line break. `short`: blocks that can be said shortly are.
 */
export function toText({ blocks }: Page, width = 100, short = false): string {
  if (!(width >= 20)) throw new RangeError(`a page needs at least 20 columns, not ${width}`);
  return `${blocks
    .map((block) => blockLines(short ? (block.short ?? block) : block, width).join('\n'))
    .filter((text) => text !== '')
    .join('\n\n')}\n`;
}

function blockLines(block: Block, width: number): string[] {
  switch (block.kind) {
    case 'heading': {
      const lines = wrapText(block.text, width);
      const longest = Math.max(0, ...lines.map((line) => widthOf(line)));
      return longest === 0 ? [] : [...lines, (block.level === 1 ? '=' : '-').repeat(longest)];
    }
    case 'paragraph':
      return wrapText(block.text, width);
    case 'table':
      return tableLines(block, width);
    case 'picture':
      return block.table === undefined
        ? hanging('Picture: ', block.description, width)
        : tableLines(block.table, width);
    case 'list':
      return block.items.flatMap((item, index) =>
        hanging(block.ordered === true ? `${index + 1}. ` : '- ', item, width),
      );
    case 'facts':
      return block.facts.flatMap(({ name, value }) => hanging('', `${name}: ${value}`, width));
    case 'note':
      return hanging('! ', block.text, width);
    case 'columns':
      return block.columns.flat().flatMap((one, i) => [...(i === 0 ? [] : ['']), ...blockLines(one, width)]);
  }
}

/** A block whose further lines stand under the text of its first. */
function hanging(mark: string, text: string, width: number): string[] {
  return wrapText(text, width - mark.length).map(
    (line, index) => `${index === 0 ? mark : ' '.repeat(mark.length)}${line}`,
  );
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/**
 * The text in lines of at most `width` columns; a word too long for a line is broken. Nothing for an empty
 * text.
 */
/** Printable, one column each: ASCII, Latin letters, dashes and quotes. */
const PLAIN = /^[ -~\u00c0-\u024f\u2010-\u201f]*$/;

/** Columns of a text. Nearly all text is plain, and to look at it character by character takes long. */
const widthOf = (text: string): number => (PLAIN.test(text) ? text.length : stringWidth(text));

export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of cleaned(text)
    .split(' ')
    .flatMap((one) => pieces(one, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(longer) > width) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return line === '' ? lines : [...lines, line];
}

function pieces(word: string, width: number): string[] {
  if (widthOf(word) <= width) return [word];
  const parts = [''];
  for (const { segment } of graphemes.segment(word)) {
    if (widthOf(parts.at(-1)! + segment) > width && parts.at(-1) !== '') parts.push('');
    parts[parts.length - 1] += segment;
  }
  return parts;
}

function tableLines(table: TableBlock, width: number): string[] {
  const caption = table.caption === undefined ? [] : wrapText(table.caption, width);
  const columns = table.head.map((title, column) =>
    [title, ...table.rows.map((row) => row[column] ?? '')].map(cleaned),
  );
  const widths = columnWidths(columns, width);
  if (widths === null) return [...caption, ...tallTable(table, width)];
  const aligns = alignments(table);
  const line = (cells: string[]): string[] => rowLines(cells, widths, aligns);
  const rule = widths.map((one) => '-'.repeat(one)).join(' '.repeat(GAP));
  const rows = table.rows.map((row) => line(table.head.map((_, column) => row[column] ?? '')));
  return [...caption, ...line(table.head), rule, ...rows.flat()];
}

/** Widths that fit, the widest columns squeezed first; null where even the narrowest do not. */
function columnWidths(columns: string[][], width: number): number[] | null {
  const widths = columns.map((cells) => Math.max(1, ...cells.map((cell) => widthOf(cell))));
  const room = width - GAP * (columns.length - 1);
  while (widths.reduce((sum, one) => sum + one, 0) > room) {
    const widest = Math.max(...widths);
    if (widest <= NARROWEST) return null;
    widths[widths.indexOf(widest)] = widest - 1;
  }
  return widths;
}

function rowLines(cells: string[], widths: number[], aligns: Align[]): string[] {
  const wrapped = cells.map((cell, column) => wrapText(cell, widths[column]!));
  const height = Math.max(1, ...wrapped.map((lines) => lines.length));
  return Array.from({ length: height }, (_, index) =>
    wrapped
      .map((lines, column) => padded(lines[index] ?? '', widths[column]!, aligns[column]!))
      .join(' '.repeat(GAP))
      .trimEnd(),
  );
}

function padded(text: string, width: number, align: Align): string {
  const blanks = ' '.repeat(Math.max(0, width - widthOf(text)));
  return align === 'right' ? blanks + text : text + blanks;
}

/** A table too wide for the page: one line a cell, a blank line between rows. */
function tallTable({ head, rows }: TableBlock, width: number): string[] {
  return rows.flatMap((row, index) => [
    ...(index === 0 ? [] : ['']),
    ...head.flatMap((title, column) => hanging('', `${title}: ${row[column] ?? ''}`, width)),
  ]);
}

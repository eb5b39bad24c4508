/** A page as Markdown (CommonMark with the tables of GitHub's flavor). Every text stays text. */
import { alignments, cleaned, type Block, type Page, type TableBlock } from './document.ts';

export function toMarkdown({ blocks }: Page): string {
  return `${blocks
    .map(block)
    .filter((text) => text !== '')
    .join('\n\n')}\n`;
}

function block(one: Block): string {
  switch (one.kind) {
    case 'heading':
      return `${'#'.repeat(one.level)} ${escapeMarkdown(one.text)}`;
    case 'paragraph':
      return escapeMarkdown(one.text);
    case 'table':
      return table(one);
    case 'picture':
      return one.file === undefined
        ? `*Picture: ${escapeMarkdown(one.description)}*`
        : `![${escapeMarkdown(one.description)}](${encodeURIComponent(one.file)})`;
    case 'list':
      return one.items
        .map((item, index) => `${one.ordered === true ? `${index + 1}.` : '-'} ${escapeMarkdown(item)}`)
        .join('\n');
    case 'facts':
      return one.facts
        .map(({ name, value }) => `- **${escapeMarkdown(name)}:** ${escapeMarkdown(value)}`)
        .join('\n');
    case 'note':
      return `> ${escapeMarkdown(one.text)}`;
    case 'columns':
      return one.columns
        .flat()
        .map(block)
        .filter((text) => text !== '')
        .join('\n\n');
  }
}

function table(one: TableBlock): string {
  const line = (cells: string[]): string => `| ${cells.join(' | ')} |`;
  const rows = one.rows.map((row) => line(one.head.map((_, column) => escapeMarkdown(row[column] ?? ''))));
  const rule = line(alignments(one).map((align) => (align === 'right' ? '---:' : '---')));
  const caption = one.caption === undefined ? [] : [escapeMarkdown(one.caption), ''];
  return [...caption, line(one.head.map(escapeMarkdown)), rule, ...rows].join('\n');
}

/**
 * Text that Markdown reads as just that text: signs with a meaning get a backslash, links are not made of
 * addresses.
 */
export function escapeMarkdown(text: string): string {
  return cleaned(text)
    .replace(/[\\`*_[\]<>|~&@]/g, '\\$&')
    .replace(/:(?=\/\/)/g, '\\:')
    .replace(/\b(www|ftp)\./gi, '$1\\.')
    .replace(/^([-+=#]|\d+(?=[.)]))/, (start) => (/\d/.test(start) ? start : `\\${start}`))
    .replace(/^(\d+)([.)])/, '$1\\$2');
}

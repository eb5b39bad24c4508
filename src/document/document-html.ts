/**
 * A page as one self-contained HTML file that prints on one sheet, in colour or black and white. Every text
 * is escaped.
 */
import { facesOf, PICTURE_FACE, TEXT_FACE, type Face } from './faces.ts';
import { alignments, cleaned, type Block, type Page, type TableBlock } from './document.ts';
import { escaped } from '../charts/svg.ts';

export interface PrintOptions {
  /** Default: whatever the printer has, set to fit either. */
  paper?: 'A4' | 'Letter';
  /** Default "en". */
  language?: string;
  /** Of the text, points. Default: the largest up to 11 that fits the sheet. */
  size?: number;
  /** Typefaces to carry along; without them it is set in what the reader's machine has. */
  faces?: readonly Face[];
}

/** Width and height of the print, mm, inside the margins. */
const MARGIN = 12;
const SHEETS = {
  A4: { width: 210 - 2 * MARGIN, height: 297 - 2 * MARGIN },
  Letter: { width: 216 - 2 * MARGIN, height: 279 - 2 * MARGIN },
  either: { width: 210 - 2 * MARGIN, height: 279 - 2 * MARGIN },
};
/**
 * Sizes of the text, points: the largest that fits the sheet is taken, in half points from the first down to
 * the last.
 */
const MOST_SIZE = 11;
const LEAST_SIZE = 7;

/** The page as HTML. Throws an Error for a picture that is more than a drawing. */
export function toHtml(
  page: Page,
  { paper, language = 'en', size: given, faces = [] }: PrintOptions = {},
): string {
  const size = given ?? printSize(page, paper);
  const body = page.blocks.map((block) => blockHtml(block, size)).join('\n');
  const carried = [
    facesOf(faces, TEXT_FACE, body),
    ...(body.includes('<svg') ? [facesOf(faces, PICTURE_FACE, body)] : []),
  ].join('\n');
  return `<!doctype html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="clampwright">
<title>${text(page.title)}</title>
<style>${carried}${styles(size, paper)}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

/** The largest size of text, points, up to `most`, at which the page fits one sheet; 7 where none does. */
export function printSize(page: Page, paper?: PrintOptions['paper'], most = MOST_SIZE): number {
  let size = most;
  while (size > LEAST_SIZE && roomLeft(page, size, paper) < 0) size -= 0.5;
  return size;
}

/** What is left of one sheet under the page at a size of text, mm; negative where it does not fit. */
export function roomLeft(
  page: Page,
  size: number,
  paper?: PrintOptions['paper'],
  letter: number = LETTER,
): number {
  const sheet = SHEETS[paper ?? 'either'];
  return sheet.height - pageHeight(page, size, sheet.width, letter);
}

/** Width of the print on either paper, mm. */
export const PRINT_WIDTH = SHEETS.either.width;

/** A range in brackets stays on one line: "(10 to 13)". */
const bound = (given: string): string =>
  given.replace(/\([^()\s]*\d[^()\s]* to [^()\s]*\d[^()\s]*\)/g, (range) => range.replaceAll(' ', '\u00A0'));
const text = (given: string): string => escaped(bound(cleaned(given)));

function blockHtml(block: Block, size: number): string {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level}>${text(block.text)}</h${block.level}>`;
    case 'paragraph':
      return `<p${block.small === true ? ' class="small"' : ''}>${text(block.text)}</p>`;
    case 'table':
      return tableHtml(block);
    case 'picture':
      return `<figure role="img" aria-label="${text(block.description)}" style="max-width:${pictureSize(block, size).width}mm">${drawing(block.svg)}</figure>`;
    case 'list': {
      const tag = block.ordered === true ? 'ol' : 'ul';
      return `<${tag}${block.small === true ? ' class="small"' : ''}>${block.items.map((item) => `<li>${text(item)}</li>`).join('')}</${tag}>`;
    }
    case 'facts':
      return `<dl>${block.facts.map(({ name, value }) => `<div><dt>${text(name)}</dt><dd>${text(value)}</dd></div>`).join('')}</dl>`;
    case 'note':
      return `<p class="note">${text(block.text)}</p>`;
    case 'columns':
      return `<div class="columns">${block.columns.map((column) => `<div>${column.map((one) => blockHtml(one, size)).join('\n')}</div>`).join('')}</div>`;
  }
}

function tableHtml(table: TableBlock): string {
  const aligns = alignments(table);
  const side = (column: number): string => (aligns[column] === 'right' ? ' class="right"' : '');
  const head = table.head
    .map((title, column) => `<th scope="col"${side(column)}>${text(title)}</th>`)
    .join('');
  const rows = table.rows.map(
    (row) =>
      `<tr>${table.head.map((_, column) => `<td${side(column)}>${text(row[column] ?? '')}</td>`).join('')}</tr>`,
  );
  const caption = table.caption === undefined ? '' : `<caption>${text(table.caption)}</caption>`;
  return `<table>${caption}<thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

const FORBIDDEN_ELEMENT =
  /^<\/?\s*(script|foreignobject|iframe|object|embed|image|audio|video|animate\w*|set|handler|a)\b/i;

/** An SVG from the pictures, let in only as a drawing: no scripts, no handlers, nothing fetched. */
function drawing(svg: string): string {
  const refuse = (what: string): never => {
    throw new Error(`a picture on a page may only be a drawing; this one has ${what}`);
  };
  if (!/^\s*<svg[\s>]/.test(svg) || !/<\/svg>\s*$/.test(svg)) refuse('something around its svg element');
  for (const [tag] of svg.matchAll(/<(?:"[^"]*"|'[^']*'|[^'">])*>?/g)) {
    if (/^<[!?]/.test(tag)) refuse(tag.slice(0, 12));
    if (FORBIDDEN_ELEMENT.test(tag)) refuse(`a ${FORBIDDEN_ELEMENT.exec(tag)![1]} element`);
    for (const [, name, value] of tag.matchAll(/[\s"'/]([^\s"'=<>/]+)\s*=\s*("[^"]*"|'[^']*'|[^\s"'>]+)/g)) {
      if (/^on/i.test(name!)) refuse(`a handler, ${name}`);
      if (/href$/i.test(name!) && !/^["']?#/.test(value!)) refuse('a link');
      if (/^style$/i.test(name!) && /url\(|@import|expression/i.test(value!)) refuse('something to fetch');
    }
  }
  if (/<style[^>]*>[^<]*(@import|url\()/i.test(svg)) refuse('something to fetch');
  return svg;
}

/**
 * Size of a picture on paper, mm: as wide as the text, but no taller than a third of the page or so at the
 * largest text.
 */
function pictureSize(
  { svg, whole = false }: Extract<Block, { kind: 'picture' }>,
  size: number,
  width = SHEETS.either.width,
): { width: number; height: number } {
  const box = /viewBox="[-\d.]+[ ,]+[-\d.]+[ ,]+([\d.]+)[ ,]+([\d.]+)"/.exec(svg);
  const ratio = box === null ? 0.5 : Number(box[2]) / Number(box[1]);
  const tallest = whole ? Infinity : 9.5 * size;
  const height = Math.min(width * ratio, tallest);
  return { width: Math.round((10 * height) / ratio) / 10, height };
}

/** Small text, in times the other. */
const SMALL = 0.88;
/** Height of a line of running text, in times its size. */
const LINE = 1.34;
const MM_PER_POINT = 25.4 / 72;
/** Between columns, mm. */
const COLUMN_GAP = 7;
/**
 * A letter of the face that goes along is about so wide in times its size, on the wide side: the sentences of
 * three shops' answers came to 0.421.
 */
const LETTER = 0.43;
/** The same of a wide face that stands in where none goes along, DejaVu Serif Condensed. */
export const WIDE_LETTER = 0.48;

/** About how tall the page gets at a size of text, mm: rather too tall, so that it fits. */
function pageHeight({ blocks }: Pick<Page, 'blocks'>, size: number, width: number, letter = LETTER): number {
  const em = size * MM_PER_POINT;
  const linesOf = (given: string, scale: number, room = width): number =>
    Math.max(1, Math.ceil((cleaned(given).length * letter * em * scale) / room));
  const smallHeight = (given: string): number => linesOf(given, SMALL) * em * SMALL * LINE + em * 0.5;
  const heightOf = (block: Block): number => {
    switch (block.kind) {
      case 'heading':
        return block.level === 1
          ? linesOf(block.text, 1.7) * em * 1.7 * 1.2 + em * 0.6
          : linesOf(block.text, 1.15) * em * 1.15 * 1.3 + em * 1.1;
      case 'paragraph':
        return block.small === true ? smallHeight(block.text) : linesOf(block.text, 1) * em * LINE + em * 0.5;
      case 'note':
        return smallHeight(block.text);
      case 'picture':
        return pictureSize(block, size, width).height + em;
      case 'list':
        return block.items.reduce(
          (sum, item) =>
            sum +
            linesOf(item, block.small === true ? SMALL : 1, width - 1.5 * em) *
              em *
              (block.small === true ? SMALL : 1) *
              LINE,
          em * 0.6,
        );
      case 'facts':
        return block.facts.reduce(
          (sum, { value }) => sum + linesOf(value, SMALL, width - 9 * em) * em * 1.12,
          em * 0.6,
        );
      case 'table':
        return (block.caption === undefined ? 0 : em * 1.6) + tableHeight(block, em, width, letter);
      case 'columns': {
        const each = (width - COLUMN_GAP * (block.columns.length - 1)) / Math.max(1, block.columns.length);
        return Math.max(
          0,
          ...block.columns.map((column) => pageHeight({ blocks: column }, size, each, letter)),
        );
      }
    }
  };
  return blocks.reduce((sum, block) => sum + heightOf(block), 0) * 1.02;
}

/**
 * Columns are as wide as their longest cell where there is room; else each has the room of its longest word,
 * and of what is left as much as its cells are longer than that.
 */
function tableHeight({ head, rows }: TableBlock, em: number, width: number, letter: number): number {
  const cells = [head, ...rows].map((row) => head.map((_, column) => bound(cleaned(row[column] ?? ''))));
  const room = width / (letter * em * TABLE) - GAP_LETTERS * head.length;
  const longest = (of: (cell: string) => number): number[] =>
    head.map((_, column) => Math.max(1, ...cells.map((row) => of(row[column]!))));
  const wanted = longest((cell) => cell.length);
  const least = longest((cell) => Math.max(0, ...cell.split(' ').map((word) => word.length)));
  const sum = (values: number[]): number => values.reduce((total, one) => total + one, 0);
  const share = (room - sum(least)) / Math.max(1, sum(wanted) - sum(least));
  const widths = wanted.map((want, i) => least[i]! + Math.min(1, Math.max(0, share)) * (want - least[i]!));
  const lines = cells.map((row) =>
    Math.max(1, ...row.map((cell, i) => Math.ceil(cell.length / widths[i]! - 1e-9))),
  );
  return lines.reduce((total, count) => total + count * em * TABLE * 1.3 + em * 0.33, em * 0.5);
}

/** Text of a table in times the other; what parts two columns, in letters. */
const TABLE = 0.94;
const GAP_LETTERS = 0.8 / LETTER;

function styles(size: number, paper: PrintOptions['paper']): string {
  return `
@page { margin: ${MARGIN}mm;${paper === undefined ? '' : ` size: ${paper} portrait;`} }
:root { color: #211e1a; background: #fbf8f3; }
* { box-sizing: border-box; }
body { margin: 0; font: ${size}pt/${LINE} '${TEXT_FACE}', 'Times New Roman', 'Liberation Serif', 'Nimbus Roman', Tinos, 'DejaVu Serif Condensed', serif; font-variant-numeric: lining-nums tabular-nums; }
main { max-width: ${SHEETS[paper ?? 'either'].width}mm; margin: 10mm auto; padding: 0 4mm; }
h1 { font-size: 1.7em; line-height: 1.2; font-weight: 600; margin: 0 0 0.35em; }
h2 { font-size: 1.15em; line-height: 1.3; font-weight: 600; margin: 0.8em 0 0.15em; }
p, ul, ol, dl, table, figure { margin: 0 0 0.5em; }
p, li { max-width: 46em; overflow-wrap: anywhere; }
ul, ol { padding-left: 1.3em; }
.small, .note, dl { font-size: 0.88em; }
.note { border-left: 2px solid #655f56; padding-left: 0.7em; }
dl div { display: flex; gap: 0.6em; line-height: 1.25; }
dt { color: #655f56; min-width: 9em; }
dd { margin: 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; font-size: 0.94em; line-height: 1.3; }
caption { text-align: left; font-weight: 600; padding-bottom: 0.2em; }
th { font-weight: 600; border-bottom: 1px solid #211e1a; vertical-align: bottom; }
td { border-bottom: 1px solid #d8d0c3; vertical-align: top; overflow-wrap: anywhere; }
th, td { text-align: left; padding: 0.15em 0.8em 0.15em 0; }
.right { text-align: right; }
figure svg { display: block; width: 100%; height: auto; }
figure, table, li, .note, h1, h2 { break-inside: avoid; }
h2 { break-after: avoid; }
@media (min-width: 600px), print {
  .columns { display: flex; gap: ${COLUMN_GAP}mm; }
  .columns > div { flex: 1 1 0; min-width: 0; }
}
@media print {
  :root { background: #fff; color: #000; }
  main { max-width: none; margin: 0; padding: 0; }
  p, li { max-width: none; }
}
`;
}

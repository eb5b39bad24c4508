/**
 * Text to a table: any delimiter, quoting, line ending or byte-order mark, titles above the header, no header
 * at all. Columns are held as distinct texts and a code a row, so that a million rows stay small and each
 * distinct text is read once.
 */
import Papa from 'papaparse';
import { looksLikeHeader } from './header-words.ts';

export interface Column {
  /** Every different text of the column, trimmed. */
  texts: string[];
  /** One code a row: its place in `texts`. */
  codes: Uint32Array;
}

export interface Table {
  header: string[];
  /** False where the first row was already data; the columns are then called "column 1" and so on. */
  hasHeader: boolean;
  delimiter: string;
  columns: Column[];
  /** Rows of data; blank ones are left out and counted. */
  length: number;
  /** The row of the file (from 1, blank rows counted, as a spreadsheet numbers them) of each row of data. */
  rowNumbers: Uint32Array;
  blank: number;
  /** Titles and notes above the header. */
  above: { row: number; text: string }[];
  /** Rows whose cells cannot be told apart, by place among the data, and why. */
  broken: Map<number, string>;
  /** What was noticed on the way, as sentences. */
  notes: string[];
}

export interface TableOptions {
  /** Default: the one that fits the first rows best. */
  delimiter?: string;
  /** Row of the file that holds the column names, from 1; 0: none. Default: found. */
  headerRow?: number;
}

const DELIMITERS = [',', ';', '\t', '|'];
const SAMPLE_ROWS = 200;
const HEADER_WITHIN = 20;

/** The text of one cell. */
export function cellOf(table: Table, row: number, column: number): string {
  const held = table.columns[column];
  return held === undefined ? '' : (held.texts[held.codes[row]!] ?? '');
}

/** A row as it may be shown, cells joined by the file's delimiter. */
export function rowText(table: Table, row: number): string {
  const joint = table.delimiter === '\t' ? ' · ' : `${table.delimiter} `;
  return table.columns
    .map((_, column) => cellOf(table, row, column))
    .join(joint)
    .slice(0, 300);
}

/** Reads a table. Never throws: what cannot be told apart is marked in `broken`. */
export function readTable(text: string, options: TableOptions = {}): Table {
  const { body, said } = plainText(text);
  const delimiter = options.delimiter ?? said ?? bestDelimiter(body);
  const sample = parseSample(body, delimiter);
  const headerAt = options.headerRow === undefined ? findHeader(sample) : options.headerRow - 1;
  const notes: string[] = [];
  let builder = new TableBuilder(headerAt, said === null ? 0 : 1);
  const unclosed = parseInto(builder, body, delimiter, false);
  if (unclosed) {
    builder = new TableBuilder(headerAt, said === null ? 0 : 1);
    parseInto(builder, body, delimiter, true);
    notes.push('A quotation mark is opened and never closed, so quotation marks were read as plain signs.');
  }
  return builder.finish(delimiter, notes);
}

/** One kind of line ending, no byte-order mark; a first line "sep=;" says the delimiter. */
function plainText(text: string): { body: string; said: string | null } {
  let body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.includes('\r')) body = body.replace(/\r\n?/g, '\n');
  const said = /^sep=(.)\n/.exec(body);
  return said === null ? { body, said: null } : { body: body.slice(said[0].length), said: said[1]! };
}

function parseSample(body: string, delimiter: string): string[][] {
  return Papa.parse<string[]>(body, { delimiter, newline: '\n', preview: SAMPLE_ROWS }).data;
}

/**
 * The delimiter under which most rows have the same number of cells, more than one, and the header is best
 * understood.
 */
function bestDelimiter(body: string): string {
  let best = ',';
  let bestScore = 0;
  for (const delimiter of DELIMITERS) {
    const rows = parseSample(body, delimiter).filter((row) => row.some((cell) => cell.trim() !== ''));
    const widths = new Map<number, number>();
    for (const row of rows) widths.set(row.length, (widths.get(row.length) ?? 0) + 1);
    const [width, many] = [...widths].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [1, 0];
    if (width < 2) continue;
    const understood = Math.max(0, ...rows.slice(0, HEADER_WITHIN).map(looksLikeHeader));
    const score = 10 * understood + (5 * many) / rows.length + Math.min(width, 8) / 8;
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

/** Place of the header among the first rows; -1 where the first row is data. */
function findHeader(sample: string[][]): number {
  let best = -1;
  let most = 0;
  for (const [place, row] of sample.slice(0, HEADER_WITHIN).entries()) {
    const understood = looksLikeHeader(row);
    if (understood > most) [best, most] = [place, understood];
  }
  if (best >= 0) return best;
  const first = sample.findIndex((row) => row.some((cell) => cell.trim() !== ''));
  const allWords = first >= 0 && sample[first]!.every((cell) => !/\d/.test(cell));
  const numbersBelow = sample.slice(first + 1).some((row) => row.some((cell) => /\d/.test(cell)));
  return allWords && numbersBelow ? first : -1;
}

/** Feeds every row to the builder; true where a quotation mark was never closed. */
function parseInto(builder: TableBuilder, body: string, delimiter: string, plainQuotes: boolean): boolean {
  let unclosed = false;
  Papa.parse<string[]>(body, {
    delimiter,
    newline: '\n',
    ...(plainQuotes ? { fastMode: true } : {}),
    step: (result, parser) => {
      if (!plainQuotes && result.errors.some((error) => error.code === 'MissingQuotes')) {
        unclosed = true;
        parser.abort();
        return;
      }
      const trouble = result.errors.some((error) => error.code === 'InvalidQuotes')
        ? 'a quotation mark stands in the middle of a cell'
        : null;
      builder.add(plainQuotes ? result.data.map(unquoted) : result.data, trouble);
    },
  });
  return unclosed;
}

function unquoted(cell: string): string {
  const inside = /^\s*"(.*)"\s*$/s.exec(cell);
  return inside === null ? cell : inside[1]!.replaceAll('""', '"');
}

class TableBuilder {
  private header: string[] = [];
  private readonly columns: { texts: string[]; seen: Map<string, number>; codes: GrowingCodes }[] = [];
  private readonly rowNumbers = new GrowingCodes();
  private readonly above: { row: number; text: string }[] = [];
  private readonly broken = new Map<number, string>();
  private row = 0;
  private blank = 0;
  private readonly headerAt: number;

  constructor(headerAt: number, rowsBefore: number) {
    this.headerAt = headerAt < 0 ? -1 : headerAt + rowsBefore;
    this.row = rowsBefore;
  }

  add(cells: string[], trouble: string | null): void {
    const place = this.row;
    this.row += 1;
    if (place === this.headerAt) {
      this.header = cells.map((cell) => cell.trim());
      return;
    }
    const isBlank = cells.every((cell) => cell.trim() === '');
    if (place < this.headerAt) {
      if (!isBlank) this.above.push({ row: place + 1, text: cells.join(' ').trim() });
      return;
    }
    if (isBlank) {
      this.blank += 1;
      return;
    }
    this.addData(cells, place + 1, trouble);
  }

  private addData(cells: string[], rowNumber: number, trouble: string | null): void {
    const index = this.rowNumbers.length;
    let width = cells.length;
    while (width > 0 && cells[width - 1]!.trim() === '') width -= 1;
    if (trouble !== null) this.broken.set(index, trouble);
    else if (this.headerAt >= 0 && width > this.header.length) {
      this.broken.set(
        index,
        `it has ${width} cells where the header has ${this.header.length} (a decimal comma without quotation marks?)`,
      );
    }
    this.rowNumbers.push(rowNumber);
    for (let column = 0; column < Math.max(width, this.columns.length); column += 1) {
      const held = (this.columns[column] ??= newColumn(index));
      const text = (cells[column] ?? '').trim();
      let code = held.seen.get(text);
      if (code === undefined) {
        code = held.texts.length;
        held.texts.push(text);
        held.seen.set(text, code);
      }
      held.codes.push(code);
    }
  }

  finish(delimiter: string, notes: string[]): Table {
    const hasHeader = this.headerAt >= 0;
    const width = Math.max(this.header.length, this.columns.length);
    const names = Array.from({ length: width }, (_, place) => this.header[place] || `column ${place + 1}`);
    const length = this.rowNumbers.length;
    const columns = names.map((_, place): Column => {
      const held = this.columns[place] ?? newColumn(length);
      return { texts: held.texts, codes: held.codes.whole() };
    });
    return {
      header: names,
      hasHeader,
      delimiter,
      columns,
      length,
      rowNumbers: this.rowNumbers.whole(),
      blank: this.blank,
      above: this.above,
      broken: this.broken,
      notes,
    };
  }
}

/** A column met for the first time at a late row is blank before. */
function newColumn(rowsBefore: number): { texts: string[]; seen: Map<string, number>; codes: GrowingCodes } {
  const codes = new GrowingCodes();
  for (let row = 0; row < rowsBefore; row += 1) codes.push(0);
  return { texts: [''], seen: new Map([['', 0]]), codes };
}

class GrowingCodes {
  length = 0;
  private held = new Uint32Array(64);

  push(code: number): void {
    if (this.length === this.held.length) {
      const larger = new Uint32Array(this.length * 2);
      larger.set(this.held);
      this.held = larger;
    }
    this.held[this.length] = code;
    this.length += 1;
  }

  whole(): Uint32Array {
    return this.held.slice(0, this.length);
  }
}

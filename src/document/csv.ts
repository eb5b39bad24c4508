/**
 * Tables as comma-separated values (RFC 4180: CRLF, quotes doubled), read and written by papaparse. A text
 * that a spreadsheet would take for a formula gets an apostrophe in front, which spreadsheets take for "this
 * is text". The library's own guard misses a text with a line break in it and one behind spaces, so ours says
 * what is a formula.
 */
import Papa from 'papaparse';
import { FORMULA, unguarded } from '../timing/formula.ts';

export type Cell = string | number | boolean | null;

/**
 * Rows of cells as CSV text, every row ended. Numbers stay numbers (negative ones too); what is not finite is
 * an empty cell.
 */
export function writeCsv(rows: Cell[][]): string {
  const plain = rows.map((row) =>
    row.map((cell) => (typeof cell === 'number' && !Number.isFinite(cell) ? null : cell)),
  );
  const text = Papa.unparse(plain, { newline: '\r\n', escapeFormulae: FORMULA });
  return rows.length === 0 ? '' : `${text}\r\n`;
}

/**
 * The cells of CSV text written by `writeCsv` or anybody else, as text; the guarding apostrophe taken off
 * again.
 */
export function readCsv(text: string): string[][] {
  const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), {
    delimiter: ',',
    skipEmptyLines: true,
  });
  return data.map((row) => row.map(unguarded));
}

/**
 * JSON Lines (jsonlines.org): UTF-8, one JSON value a line, each ended by a line feed. After a crash a file
 * that is only ever appended to holds some beginning of what was written, perhaps with zeros behind. So only
 * a line with its line feed is a line; what stands behind the last one is a tail, even where it happens to be
 * whole JSON.
 */

const LINE_FEED = 10;

export interface Line {
  /** From 1, blank ones counted, as an editor numbers them. */
  number: number;
  /** Null where the bytes are no UTF-8. */
  text: string | null;
}

export interface Lines {
  lines: Line[];
  /** The bytes behind the last line feed; empty in a file that was written to its end. */
  tail: Uint8Array;
}

/** The lines of a file, blank ones left out, and what was cut off at its end. */
export function splitLines(bytes: Uint8Array): Lines {
  const lines: Line[] = [];
  let from = 0;
  for (let number = 1; ; number++) {
    const end = bytes.indexOf(LINE_FEED, from);
    if (end < 0) return { lines, tail: bytes.subarray(from) };
    const text = decoded(bytes.subarray(from, end));
    if (text === null || text.trim() !== '') lines.push({ number, text });
    from = end + 1;
  }
}

const utf8 = new TextDecoder('utf-8', { fatal: true });

function decoded(bytes: Uint8Array): string | null {
  try {
    return utf8.decode(bytes);
  } catch {
    return null;
  }
}

/** One value as its line. JSON writes line feeds inside of text as \n: the line stays one. */
export const lineOf = (value: unknown): string => `${JSON.stringify(value)}\n`;

/**
 * What is to be written behind a file to add `values`: a line feed first where the last byte is none, so that
 * nothing is ever glued to a cut-off line.
 * @param last the file's last byte; null: the file is empty.
 */
export const appendix = (values: readonly unknown[], last: number | null): Uint8Array =>
  new TextEncoder().encode(
    `${values.length === 0 || last === null || last === LINE_FEED ? '' : '\n'}${values.map(lineOf).join('')}`,
  );

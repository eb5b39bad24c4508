/**
 * From the bytes of a file to its text. Files come out of spreadsheets and editors in four writings; none is
 * ever read with letters replaced by question marks.
 */

export type Decoded =
  | {
      kind: 'text';
      text: string;
      /** What is to be said of it; null where there is nothing to say. */
      note: string | null;
    }
  | { kind: 'no text'; why: string };

const decoderOf = (label: string): ((bytes: Uint8Array) => string) => {
  const decoder = new TextDecoder(label, { fatal: true });
  return (bytes) => decoder.decode(bytes);
};

/**
 * UTF-8 (with or without its mark), UTF-16 by its mark or by its zeros; what is no UTF-8 is read as Western
 * European (Windows-1252, which holds Latin-1's letters), and said to be. Marks are taken off.
 */
export function decodeText(bytes: Uint8Array): Decoded {
  const sixteen = sixteenBits(bytes);
  if (sixteen !== null) {
    const text = attempt(sixteen, bytes);
    return text === null
      ? { kind: 'no text', why: 'it looks like UTF-16 and was cut off or damaged.' }
      : { kind: 'text', text, note: null };
  }
  const text = attempt('utf-8', bytes);
  // A zero is no letter of any text: of a picture, an archive, a spreadsheet in its own form.
  if (bytes.subarray(0, 100_000).includes(0))
    return { kind: 'no text', why: 'it holds signs that no text has; is it a spreadsheet or a picture?' };
  if (text !== null) return { kind: 'text', text, note: null };
  return {
    kind: 'text',
    text: attempt('windows-1252', bytes) ?? '',
    note: `is not written in UTF-8 and was read as Western European (Windows)${sampleOf(bytes)}. Look at its names; if they are wrong, save it as UTF-8.`,
  };
}

function attempt(label: string, bytes: Uint8Array): string | null {
  try {
    return decoderOf(label)(bytes);
  } catch {
    return null;
  }
}

/** The kind of UTF-16, by its mark, or where every other byte at the beginning is a zero. */
function sixteenBits(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const begin = bytes.subarray(0, 40);
  if (begin.length < 8 || bytes.length % 2 !== 0) return null;
  const zeroAt = (odd: number): boolean => begin.every((byte, i) => (i % 2 === odd) === (byte === 0));
  return zeroAt(1) ? 'utf-16le' : zeroAt(0) ? 'utf-16be' : null;
}

/** The first word that UTF-8 could not have given, for the reader to judge. */
function sampleOf(bytes: Uint8Array): string {
  const text = attempt('windows-1252', bytes) ?? '';
  const word = /\p{L}*[\u00C0-\u017F]\p{L}*/u.exec(text)?.[0];
  return word === undefined ? '' : ` ("${word.slice(0, 30)}")`;
}

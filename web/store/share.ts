/**
 * A cell in a link: the file's text, compressed (RFC 1951), in the part of the address that no server sees.
 */

const PREFIX = '#cell=';
/** Letters of a link that are read at all, and bytes it may unfold to: no link can fill the memory. */
export const MOST_LETTERS = 400_000;
export const MOST_BYTES = 4_000_000;

export type Shared = { kind: 'none' } | { kind: 'fine'; text: string } | { kind: 'wrong'; message: string };

/** The hash of a link that carries this text. */
export async function shareHash(text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  if (typeof CompressionStream === 'undefined') return `${PREFIX}0.${toLetters(bytes)}`;
  const packed = await new Response(
    new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw')),
  ).arrayBuffer();
  return `${PREFIX}1.${toLetters(new Uint8Array(packed))}`;
}

/** The text a link carries. What it says is a stranger's: check it like any file. */
export async function readShare(hash: string): Promise<Shared> {
  if (!hash.startsWith(PREFIX)) return { kind: 'none' };
  const found = /^#cell=([01])\.([\w-]+)$/.exec(hash);
  if (hash.length > MOST_LETTERS) return wrong('This link is too long to be a cell.');
  if (found === null) return wrong('This link is not whole: part of it was cut off or changed on the way.');
  try {
    const bytes = fromLetters(found[2]!);
    const whole = found[1] === '1' ? await unpacked(bytes) : bytes;
    if (whole === null) return wrong('This link unfolds to more than a cell can be.');
    return { kind: 'fine', text: new TextDecoder('utf-8', { fatal: true }).decode(whole) };
  } catch {
    return wrong('This link is not whole: part of it was cut off or changed on the way.');
  }
}

const LINK = 'clampwright-link';
/** A link met again within so many ms is one that a reload brought back; later, somebody opens it anew. */
const SAME = 10_000;

/**
 * The id under which this tab keeps the cell of a link: the same for a reload while it is being opened, else
 * what `make` gives.
 */
export function linkedId(hash: string, make: () => string): string {
  try {
    const known = JSON.parse(sessionStorage.getItem(LINK) ?? 'null') as {
      hash: string;
      id: string;
      at: number;
    } | null;
    if (known?.hash === hash && Date.now() - known.at < SAME) return known.id;
    const id = make();
    sessionStorage.setItem(LINK, JSON.stringify({ hash, id, at: Date.now() }));
    return id;
  } catch {
    // Without a place to remember it a reload in that moment keeps the cell twice.
    return make();
  }
}

const wrong = (message: string): Shared => ({ kind: 'wrong', message });

/** Null where it would be too much. */
async function unpacked(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array | null> {
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > MOST_BYTES) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function toLetters(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192)
    text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function fromLetters(letters: string): Uint8Array<ArrayBuffer> {
  const text = atob(letters.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

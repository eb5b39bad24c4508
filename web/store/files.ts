/** Files from and to the disk. */
import { decodeText } from '../../src/scenario/reading/decode-text.ts';
import type { CellStore } from './cell-store.ts';

/** Files are read up to this; a scenario is far smaller, and readScenario refuses more than 10 MB. */
const MOST = 20_000_000;

/** `note`: what is to be said of how it was read; null where there is nothing to say. */
export type Chosen =
  | { kind: 'none' }
  | { kind: 'fine'; name: string; text: string; note: string | null }
  | { kind: 'wrong'; message: string };

export async function readFile(file: File): Promise<Chosen> {
  const picked = picking(file, MOST);
  if (picked.kind !== 'fine') return picked;
  try {
    const decoded = decodeText(new Uint8Array(await file.arrayBuffer()));
    if (decoded.kind === 'no text')
      return { kind: 'wrong', message: `“${file.name}” is no text: ${decoded.why}` };
    const note = decoded.note === null ? null : `“${file.name}” ${decoded.note}`;
    return { kind: 'fine', name: file.name, text: decoded.text, note };
  } catch {
    return { kind: 'wrong', message: `“${file.name}” could not be read.` };
  }
}

/** A file as it lies there, to be read elsewhere. */
export type Picked = { kind: 'none' } | { kind: 'fine'; file: File } | { kind: 'wrong'; message: string };

function picking(file: File | undefined, most: number): Picked {
  if (file === undefined) return { kind: 'none' };
  if (file.size > most)
    return {
      kind: 'wrong',
      message: `“${file.name}” is ${Math.round(file.size / 1e6)} MB; at most ${Math.round(most / 1e6)} MB are read here.`,
    };
  return { kind: 'fine', file };
}

/**
 * A list as a worker can read it. In a page opened from a disk a worker may not read a chosen file (WebKit),
 * so the page does.
 */
export const forWorker = async (source: Blob | string): Promise<Blob | string | Uint8Array> =>
  typeof source === 'string' || location.protocol !== 'file:'
    ? source
    : new Uint8Array(await source.arrayBuffer());

/** Lets the visitor choose one file and reads it. */
export async function chooseFile(accept: string): Promise<Chosen> {
  const picked = await pickFile(accept, MOST);
  return picked.kind === 'fine' ? readFile(picked.file) : picked;
}

/** Lets the visitor choose one file, of `most` bytes at the most. */
export function pickFile(accept: string, most: number): Promise<Picked> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(picking(input.files?.[0], most)));
    input.addEventListener('cancel', () => resolve({ kind: 'none' }));
    input.click();
  });
}

export function saveFile(name: string, content: string | Blob, type = 'application/json'): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** The cell as a file, as the command line reads it. */
export const fileText = (store: CellStore): string => `${JSON.stringify(store.draft.get(), null, 2)}\n`;

/** A file name of the cell's name. */
export const fileName = (store: CellStore): string => `${plainName(store.name) || 'cell'}.json`;

/** Letters and digits of any script, dashes between them: fit for a file name anywhere. */
export const plainName = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60);

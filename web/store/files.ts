/** Files from and to the disk. */

/** Files are read up to this; a scenario is far smaller, and readScenario refuses more than 10 MB. */
const MOST = 20_000_000;

export type Chosen = { kind: 'none' } | { kind: 'fine'; name: string; text: string } | { kind: 'wrong'; message: string };

export async function readFile(file: File, most = MOST): Promise<Chosen> {
  if (file.size > most) return { kind: 'wrong', message: `“${file.name}” is ${Math.round(file.size / 1e6)} MB; at most ${Math.round(most / 1e6)} MB are read here.` };
  try {
    return { kind: 'fine', name: file.name, text: await file.text() };
  } catch {
    return { kind: 'wrong', message: `“${file.name}” could not be read.` };
  }
}

/** Lets the visitor choose one file, of `most` bytes at the most. */
export function chooseFile(accept: string, most = MOST): Promise<Chosen> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(input.files?.[0] === undefined ? { kind: 'none' } : readFile(input.files[0], most)));
    input.addEventListener('cancel', () => resolve({ kind: 'none' }));
    input.click();
  });
}

export function saveFile(name: string, text: string, type = 'application/json'): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

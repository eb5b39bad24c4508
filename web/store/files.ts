/** Files from and to the disk. */

/** Files are read up to this; a scenario is far smaller, and readScenario refuses more than 10 MB. */
const MOST = 20_000_000;

export type Chosen = { kind: 'none' } | { kind: 'fine'; name: string; text: string } | { kind: 'wrong'; message: string };

export async function readFile(file: File): Promise<Chosen> {
  if (file.size > MOST) return { kind: 'wrong', message: `“${file.name}” is ${Math.round(file.size / 1e6)} MB; a cell is far smaller.` };
  try {
    return { kind: 'fine', name: file.name, text: await file.text() };
  } catch {
    return { kind: 'wrong', message: `“${file.name}” could not be read.` };
  }
}

/** Lets the visitor choose one file. */
export function chooseFile(accept: string): Promise<Chosen> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(input.files?.[0] === undefined ? { kind: 'none' } : readFile(input.files[0])));
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

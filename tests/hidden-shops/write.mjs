// Writes what a command measured into its section of tests/results/coverage.md; the other sections stay.
import { readFile, writeFile } from 'node:fs/promises';

const RESULTS = new URL('../results/coverage.md', import.meta.url);
const PACKAGE = new URL('../../package.json', import.meta.url);

export const { version } = JSON.parse(await readFile(PACKAGE, 'utf8'));

/** @param heading with its "## ". @param about text above the table. @param lines of the table. */
export async function section(heading, about, lines) {
  const parts = (await readFile(RESULTS, 'utf8')).split(/^(?=## )/m);
  const own = `${heading}\n\n${about}\n\n${lines.join('\n')}\n`;
  const at = parts.findIndex((part) => part.startsWith(`${heading}\n`));
  const all = at < 0 ? [...parts, own] : parts.with(at, own);
  await writeFile(RESULTS, all.map((part) => part.trimEnd()).join('\n\n') + '\n');
}

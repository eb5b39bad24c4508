/**
 * To the terminal and nowhere else: pages as text as wide as the terminal is, within reason, data as one JSON
 * document. No colors and no signs that move the cursor: what is printed reads the same everywhere.
 */
import { cleaned, type Page } from '../document/document.ts';
import { toText, wrapText } from '../document/document-text.ts';
import { OUTPUT } from '../report/version.ts';
import { inFull, surroundings } from './surroundings.ts';
import type { Trouble } from './trouble.ts';

/** Where nobody looks on (a pipe, a file), and at most, so that lines can be read. */
const USUAL = 100;
const LEAST = 40;

export const COLUMNS = widthOf(process.stdout);

/** Columns to print on. */
export function widthOf({ isTTY, columns }: { isTTY?: boolean; columns?: number }): number {
  if (isTTY !== true || columns === undefined || columns <= 0) return USUAL;
  return Math.min(USUAL, Math.max(LEAST, columns));
}

/** The answer, as it is. */
export const print = (text: string): void => surroundings().out(text);

export const printPage = (page: Page): void => print(toText(page, COLUMNS, !inFull()));

/** What is not a number, or not finite, is null. A command's document says which form it has. */
export function printJson(value: object): void {
  const told = 'command' in value ? { output: OUTPUT, ...value } : value;
  print(`${JSON.stringify(told, null, 2)}\n`);
}

/** A remark beside the answer. */
export const say = (sentence: string): void =>
  surroundings().err(`${wrapText(sentence, COLUMNS).join('\n')}\n`);

export function printTrouble(trouble: Trouble, json: boolean): void {
  if (json)
    printJson({
      kind: 'wrong',
      exitCode: trouble.exitCode,
      problem: trouble.message,
      faults: trouble.faults,
    });
  const items = trouble.items.flatMap((item) =>
    wrapText(cleaned(item), COLUMNS - 2).map((line, i) => `${i === 0 ? '- ' : '  '}${line}`),
  );
  surroundings().err(`${[...wrapText(trouble.message, COLUMNS), ...items].join('\n')}\n`);
}

/** To the terminal and nowhere else: pages as text of at most 100 columns, data as one JSON document. */
import { cleaned, type Page } from '../document/document.ts';
import { toText, wrapText } from '../document/document-text.ts';
import type { Trouble } from './trouble.ts';

export const COLUMNS = 100;

export const printPage = (page: Page): void => void process.stdout.write(toText(page, COLUMNS));

/** What is not a number, or not finite, is null. */
export const printJson = (value: unknown): void =>
  void process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);

/** A remark beside the answer. */
export const say = (sentence: string): void =>
  void process.stderr.write(`${wrapText(sentence, COLUMNS).join('\n')}\n`);

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
  process.stderr.write(`${[...wrapText(trouble.message, COLUMNS), ...items].join('\n')}\n`);
}

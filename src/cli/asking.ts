/** Questions on the terminal, one after another; the answers may come from a file or a pipe as well. */
import { createInterface } from 'node:readline';
import { wrapText } from '../document/document-text.ts';
import { COLUMNS } from './print.ts';
import { commandWrong } from './trouble.ts';

/** What an answer is read as, or what is wrong with it, in a sentence. */
export type Answered<T> = { kind: 'fine'; value: T } | { kind: 'wrong'; why: string };

export const fine = <T>(value: T): Answered<T> => ({ kind: 'fine', value });
export const wrong = (why: string): { kind: 'wrong'; why: string } => ({ kind: 'wrong', why });

export interface Asking {
  /** Asks until the answer can be read. */
  ask<T>(question: string, read: (line: string) => Answered<T>): Promise<T>;
  /** Lines until an empty one. */
  lines(question: string): Promise<string[]>;
  tell(sentence: string): void;
  close(): void;
}

export function asking(input: NodeJS.ReadableStream, output: NodeJS.WritableStream): Asking {
  const reader = createInterface({ input, crlfDelay: Infinity });
  const lines = reader[Symbol.asyncIterator]();
  const tell = (sentence: string): void =>
    void output.write(
      `${sentence
        .split('\n')
        .flatMap((line) => wrapText(line, COLUMNS))
        .join('\n')}\n`,
    );
  const next = async (question: string): Promise<string> => {
    output.write('> ');
    const { value, done } = await lines.next();
    if (done === true)
      throw commandWrong(`The answers ended before “${question}” was answered; nothing is written.`);
    return value.trim();
  };
  return {
    async ask(question, read) {
      for (;;) {
        tell(question);
        const answer = read(await next(question));
        if (answer.kind === 'fine') return answer.value;
        tell(answer.why);
      }
    },
    async lines(question) {
      tell(question);
      const all: string[] = [];
      for (let line = await next(question); line !== ''; line = await next(question)) all.push(line);
      return all;
    },
    tell,
    close: () => reader.close(),
  };
}

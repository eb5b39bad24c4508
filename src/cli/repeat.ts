/** The words that give the same numbers again, seed always spelt out. */
import type { Input } from './input.ts';
import type { StudyWords } from './settings.ts';
import { typedAgain } from './what-if-words.ts';

export function repeatCommand(
  command: string[],
  input: Input,
  words: StudyWords,
  options: string[] = [],
): string[] {
  return [
    'clampwright',
    ...command,
    input.file,
    ...options,
    ...(words.option ?? []).flatMap((id) => ['--option', id]),
    ...typedAgain(words.whatIfs),
    ...(words.with === undefined ? [] : ['--with', words.with]),
    '--seed',
    input.seed,
    ...(words.timesKnown === true ? ['--times-known'] : []),
    ...(words.precision === undefined ? [] : ['--precision', String(words.precision)]),
    ...(words.count === undefined ? [] : ['--count', String(words.count)]),
  ];
}

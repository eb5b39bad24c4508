/**
 * What was typed, put in order before it is read: the name of a gear as a word of its own (`--clamp 3` is
 * `--gear-count clamp=3`), since the names stand in the file and not in the program.
 */
import type { Command } from 'commander';

const COUNT = /^[+-]?\d+$/;

/** @param typed the words behind the program's name */
export function arranged(program: Command, typed: string[]): string[] {
  const command = commandOf(program, typed);
  const known = new Set(command.options.flatMap(({ long, short }) => [long, short]));
  if (!known.has('--gear-count')) return typed;
  const takesValue = new Set(
    command.options.filter(({ required }) => required).flatMap(({ long, short }) => [long, short]),
  );
  const words: string[] = [];
  for (let at = 0; at < typed.length; at += 1) {
    const word = typed[at]!;
    if (word === '--') return [...words, ...typed.slice(at)];
    if (takesValue.has(word)) {
      words.push(word, ...typed.slice(at + 1, at + 2));
      at += 1;
      continue;
    }
    const [, name, own] = /^--([^\s=]+)(?:=(.*))?$/.exec(word) ?? [];
    const value = own ?? typed[at + 1];
    if (name === undefined || known.has(`--${name}`) || name === 'help' || !COUNT.test(value ?? '')) {
      words.push(word);
      continue;
    }
    // The hyphens stay: so it is told from what was typed in full.
    words.push('--gear-count', `--${name}=${value!}`);
    if (own === undefined) at += 1;
  }
  return words;
}

/** The command that is named, or the one within it. */
function commandOf(program: Command, typed: string[]): Command {
  const name = typed.find((word) => !word.startsWith('-'));
  const command = program.commands.find((one) => one.name() === name);
  if (command === undefined) return program;
  return command.commands.length === 0 ? command : commandOf(command, typed.slice(typed.indexOf(name!) + 1));
}

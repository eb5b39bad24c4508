/** The words every command that runs shifts understands. */
import { availableParallelism } from 'node:os';
import { Argument, InvalidArgumentError, Option, type Command } from 'commander';
import type { Asked } from '../study/one-more.ts';
import type { Changes } from './input.ts';

export interface StudyWords extends Changes {
  json?: boolean;
  precision?: number;
  count?: number;
  threads: number;
}

const MOST_COUNT = 10_000_000;
const MOST_THREADS = 256;

export const fileArgument = (): Argument =>
  new Argument(
    '[file]',
    'scenario file, or - for standard input; left out: the demo shop that comes with the package',
  );

export const jsonOption = (): Option => new Option('-j, --json', 'one JSON document instead of text');
/** For commands that write files. */
export const forceOption = (): Option =>
  new Option('-f, --force', 'overwrite a file that is there already, whatever it is');
export const seedOption = (): Option =>
  new Option('-s, --seed <text>', "any text; the same text gives the same shifts (default: the file's)");
export const withOption = (): Option =>
  new Option(
    '--with <json>',
    'for programs: change the file for this once, a JSON merge patch, or @file with it (in words: see the what-ifs)',
  );
export const optionOption = (): Option =>
  new Option(
    '-o, --option <ids>',
    'apply options of the file, one after another: a,b or the word given twice',
  ).argParser(collect);

export const threadsOption = (): Option =>
  new Option('-t, --threads <n>', 'threads to run on; the answer is the same on any number')
    .argParser(wholeFrom(1, MOST_THREADS))
    .default(Math.min(8, availableParallelism()), 'one a processor, 8 at most');

export const cautionsOption = (): Option =>
  new Option('--cautions', 'the cautions and remarks in full, with their sources');

export const timesKnownOption = (): Option =>
  new Option(
    '--times-known',
    'ranges of luck alone: as if every time, share of rework and attendance were known exactly',
  );

/** Adds what a command that runs many shifts understands. */
export function addStudyWords(command: Command): Command {
  return command
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(
      new Option(
        '--precision <units>',
        'run until the difference (or mean) is known to within so many good units a shift',
      ).argParser(over0),
    )
    .addOption(
      new Option('-n, --count <shifts>', 'run exactly so many shifts of each choice instead')
        .argParser(wholeFrom(2, MOST_COUNT))
        .conflicts('precision'),
    )
    .addOption(timesKnownOption())
    .addOption(threadsOption())
    .addOption(jsonOption());
}

/** How sure, or how many. */
export function askedOf({ precision, count }: StudyWords): Asked {
  return {
    ...(precision === undefined ? {} : { settings: { precision } }),
    ...(count === undefined ? {} : { count }),
  };
}

export function collect(value: string, before: string[] | undefined): string[] {
  return [
    ...(before ?? []),
    ...value
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== ''),
  ];
}

function over0(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value) || value <= 0)
    throw new InvalidArgumentError('It takes a number over 0, such as 0.25.');
  return value;
}

export const wholeFrom =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < least || value > most)
      throw new InvalidArgumentError(`It takes a whole number from ${least} to ${most}.`);
    return value;
  };

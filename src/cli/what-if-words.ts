/** What-ifs as options of the command line: added to a command, collected in the order they are typed. */
import { Option, type Command } from 'commander';
import { listed, nearest } from '../scenario/reading/fault.ts';
import type { Scenario } from '../scenario/schema.ts';
import { WHAT_IFS } from '../whatif/list.ts';
import { gearOf } from '../whatif/names.ts';
import { cellOf, makeTogether, whatIfOf, WhatIfWrong, type Typed } from '../whatif/make.ts';
import type { Made } from '../whatif/what-if.ts';
import { commandWrong } from './trouble.ts';

/** Joins the what-if before it and the one behind it into one choice. */
export const AND = 'and';
const GROUP = 'What if (each in words; see “What-ifs in words” in the README):';
const MOST_LABEL = 120;

/** What was typed, in order: what-ifs, and where they are joined. */
export type TypedWord = Typed | typeof AND;

/**
 * Adds every what-if but those that a command has as words of its own. `joins`: each is a choice, and `--and`
 * makes two of them one.
 */
export function addWhatIfs(command: Command, { except = [] as string[], joins = false } = {}): Command {
  const typed: TypedWord[] = [];
  const heard = (word: string) => (given: string) => {
    typed.push({ word, given });
    return given;
  };
  for (const { word, takes, says } of WHAT_IFS.filter((one) => !except.includes(one.word)))
    command.addOption(
      new Option(`--${word} <${placeholder(takes)}>`, `${says}: ${takes}`)
        .argParser(heard(word))
        .helpGroup(GROUP),
    );
  if (joins)
    command.addOption(
      new Option(`--${AND}`, 'the what-if before it and the one behind it are one choice').helpGroup(GROUP),
    );
  command.on(`option:${AND}`, () => typed.push(AND));
  return command.hook('preAction', (_this, acting) => {
    acting.setOptionValue('whatIfs', typed);
  });
}

/** A word for it in the list of options; how it is written in full stands behind. */
const placeholder = (takes: string): string =>
  takes
    .replace(/^\[[^\]]*\]/, '')
    .split(/[^A-Z]/)[0]!
    .toLowerCase();

export const isWhatIf = (word: string): boolean => WHAT_IFS.some((one) => one.word === word);

/** The choices typed: joined ones together, those about the day apart. */
export function choicesOf(words: TypedWord[]): { frames: Typed[]; choices: Typed[][] } {
  const frames: Typed[] = [];
  const choices: Typed[][] = [];
  let joined = false;
  for (const word of words) {
    if (word === AND) {
      if (choices.length === 0 || joined) throw joinWrong();
      joined = true;
    } else if (whatIfOf(word.word).frames === true) frames.push(word);
    else if (joined) {
      choices.at(-1)!.push(word);
      joined = false;
    } else choices.push([word]);
  }
  if (joined) throw joinWrong();
  return { frames, choices };
}

const joinWrong = (): Error =>
  commandWrong(
    '--and stands between two what-ifs and makes them one choice, such as --out orla --and --also bastian=fit',
  );

/** All of them as one change. @throws Trouble where one cannot be read. */
export function together(scenario: Scenario, typed: Typed[]): Made {
  try {
    const made = makeTogether(scenario, typed);
    return { ...made, label: made.label.slice(0, MOST_LABEL) };
  } catch (error) {
    throw error instanceof WhatIfWrong ? commandWrong(wrongWord(scenario, error) ?? error.message) : error;
  }
}

/** A word that is neither the program's nor a gear's; null where something else is wrong. */
function wrongWord(scenario: Scenario, { typed }: WhatIfWrong): string | null {
  const [, name] = /^--([^=]+)=/.exec(typed.given) ?? [];
  const gear = gearOf(cellOf(scenario)).map(({ id }) => id);
  if (typed.word !== 'gear-count' || name === undefined || gear.includes(name)) return null;
  const near = nearest(name, [...gear, ...WHAT_IFS.map(({ word }) => word), ...OTHERS]);
  return `There is no option --${name}, and no gear of that name; the file has ${listed(gear, 'and')}.${near === null ? '' : ` Did you mean --${near}?`}`;
}

/** Words of the commands that a number follows too. */
const OTHERS = ['count', 'threads', 'precision', 'replication', 'confidence', 'changes', 'search', 'good'];

/** As they are to be typed again. */
export const typedAgain = (words: TypedWord[] = []): string[] =>
  words.flatMap((word) => {
    if (word === AND) return [`--${AND}`];
    const [, gear, count] = /^(--[^=]+)=(.*)$/.exec(word.given) ?? [];
    return gear === undefined ? [`--${word.word}`, word.given] : [gear, count!];
  });

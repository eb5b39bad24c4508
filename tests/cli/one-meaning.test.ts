/** A word means one thing, whichever command it stands behind. */
import type { Command } from 'commander';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { WHAT_IFS } from '../../src/whatif/list.ts';

/**
 * Words that are described otherwise on some commands, since what they are of differs: the one thing that
 * each means everywhere. One that is not here has one description, and takes one thing.
 */
const MEANS: Record<string, string> = {
  '--apply': 'the file to write the scenario to, with new times',
  '--count': 'how often it is played',
  '--date': 'the day it is about',
  '--day': 'the day it is about',
  '--days': 'so many of the last days',
  '--events': 'a record of events of the day, in a file',
  '--from': 'where it begins',
  '--gear': 'the gear there is to be one more of',
  '--good': 'good units made',
  '--json': 'one JSON document instead of text',
  '--keep': 'put it into the book',
  '--late': 'who comes late, and by how much',
  '--late-parts': 'how late the parts come',
  '--note': 'something to be remembered of the day',
  '--options': 'options of the file',
  '--out': 'who is not there',
  '--overtime': 'minutes of overtime',
  '--picture': 'the file to write a picture to',
  '--promised': 'what was promised',
  '--rework': 'what is sent back',
  '--rush': 'a rush order: product, units, time',
  '--save': 'the file to write',
  '--scrap': 'what is scrapped',
  '--search': 'shifts that the search may run',
  '--table': 'the file to write figures to',
  '--target': 'good units due',
};

interface Use {
  command: string;
  takes: string;
  says: string;
}

function usesOf(): Map<string, Use[]> {
  const uses = new Map<string, Use[]>();
  const walk = (command: Command, name: string): void => {
    for (const { long, short, flags, description } of command.options) {
      const takes = flags
        .split(' ')
        .slice(short === undefined ? 1 : 2)
        .join(' ');
      for (const word of [long, short])
        if (word != null)
          uses.set(word, [...(uses.get(word) ?? []), { command: name, takes, says: description }]);
    }
    for (const one of command.commands) walk(one, `${name} ${one.name()}`);
  };
  for (const make of COMMANDS) {
    const command = make();
    walk(command, command.name());
  }
  return uses;
}

const uses = usesOf();
const apart = (list: Use[]): string[] => [...new Set(list.map(({ takes, says }) => `${takes}: ${says}`))];

test('a word that is described in two ways is one whose one meaning is written down', () => {
  const several = [...uses].filter(([, list]) => apart(list).length > 1).map(([word]) => word);
  const long = several.filter((word) => word.startsWith('--') && !Object.hasOwn(MEANS, word));
  expect(long.map((word) => [word, ...apart(uses.get(word)!)])).toEqual([]);
  // Nor is anything written down that needs no saying any more.
  expect(Object.keys(MEANS).filter((word) => uses.has(word) && !several.includes(word)).length).toBeLessThan(
    3,
  );
});

test('a word either always takes something or never does, and a short one is short for one long one', () => {
  for (const [word, list] of uses) {
    const takes = new Set(list.map((use) => use.takes === ''));
    expect([word, takes.size]).toEqual([word, 1]);
  }
  const shorts = new Map<string, Set<string>>();
  const walk = (command: Command): void => {
    for (const { long, short } of command.options)
      if (short != null) shorts.set(short, (shorts.get(short) ?? new Set()).add(long!));
    command.commands.forEach(walk);
  };
  for (const make of COMMANDS) walk(make());
  for (const [short, longs] of shorts) expect([short, [...longs]]).toEqual([short, [[...longs][0]]]);
});

test('a rush order is written alike wherever it can be asked for', () => {
  const rush = WHAT_IFS.find(({ word }) => word === 'rush')!;
  expect(rush.takes).toMatch(/^\[PRODUCT:\]UNITS@TIME/);
  for (const { command, says } of uses.get('--rush')!)
    expect([command, says]).toEqual([command, expect.stringContaining('[PRODUCT:]UNITS@TIME')]);
});

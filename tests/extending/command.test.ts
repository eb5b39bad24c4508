/** What a command may not do without; that one of one file and one line works is seen in toys.test.ts. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command } from 'commander';
import { marked, type Tokens } from 'marked';
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { commandFaults } from './command-faults.ts';
import { root } from './source-copy.ts';

const table = marked
  .lexer(readFileSync(join(root, 'README.md'), 'utf8'))
  .find((token): token is Tokens.Table => token.type === 'table')!;
const explained = table.rows.map((row) => row[0]!.text.replaceAll('`', ''));
const commands = (): Command[] => COMMANDS.map((make) => make());

describe('a command', () => {
  test('of the list has all that commands have', () => {
    expect(commandFaults(commands(), explained)).toEqual([]);
  });

  const whole = (): Command =>
    new Command('head-count').description('how many people').option('--json', 'one JSON document');
  test.each<[string, () => Command, string[]]>([
    ['nothing left out', whole, []],
    ['no description', () => new Command('head-count').option('--json', 'data'), ['is not described']],
    ['no JSON', () => new Command('head-count').description('how many'), ['gives no JSON']],
    ['an option without words', () => whole().option('--all'), ['has an option that is not explained']],
    ['an argument without words', () => whole().argument('file'), ['has an argument that is not explained']],
    ['the name of another', () => whole().name('run'), ['has the name of another']],
  ])('with %s', (_, make, faults) => {
    const made = make();
    expect(commandFaults([...commands(), made], [...explained, 'head-count'])).toEqual(
      faults.map((fault) => `${made.name()} ${fault}`),
    );
  });

  test('without a row in the README is seen', () => {
    expect(commandFaults([whole()], explained)).toEqual(["head-count has no row in the README's table"]);
  });

  test('of a file without a line in the list is seen', () => {
    const text = (file: string): string => readFileSync(join(root, 'src/cli', file), 'utf8');
    const list = text('commands.ts');
    const files = readdirSync(join(root, 'src/cli/commands'));
    // A word of a command's own ("log undo") is in the command's list.
    const lists = [list, ...files.map((file) => text(`commands/${file}`))];
    const commands = files.filter((file) => /export function \w+Command\(/.test(text(`commands/${file}`)));
    expect(commands.filter((file) => !lists.some((one) => one.includes(`/${file}'`)))).toEqual([]);
    const imported = [...list.matchAll(/from '\.\/commands\//g)];
    expect(COMMANDS.length).toBe(imported.length);
  });
});

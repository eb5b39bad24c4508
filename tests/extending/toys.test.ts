/**
 * A newcomer's caution and command, each one file and one line, in one copy of the sources that is built and
 * used as a user would; and what is left out of a caution does not compile.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/scenario/cautions/list.ts';
import { FIELDS } from '../../src/scenario/cautions/caution.ts';
import type { cautionsBeside } from '../../src/scenario/cautions.ts';
import { shop, SHOPS, type Shop } from '../support/shops.ts';
import { root, SourceCopy } from './source-copy.ts';
import { CAUTION, CAUTION_FILE, CAUTION_LIST, CAUTION_TEXT } from './toy-caution.ts';
import { COMMAND, COMMAND_FILE, COMMAND_LIST } from './toy-command.ts';

const wrongCautions = [
  { what: 'no topic', from: / {2}topic: .*\n/, to: '' },
  { what: 'no text', from: / {2}text: .*\n/, to: '' },
  { what: 'no source', from: / {2}source: .*\n/, to: '' },
  { what: 'no fields', from: / {2}beside: .*\n/, to: '' },
  { what: 'no papers', from: / {2}onShortPapers: .*\n/, to: '' },
  { what: 'no cells', from: / {2}applies: .*\n/, to: '' },
  { what: 'a field there is not', from: "'breaks'", to: "'lunch'" },
  { what: 'a paper there is not', from: "'record'", to: "'letter'" },
].map(({ what, from, to }) => {
  const text = CAUTION.replace(from, to);
  if (text === CAUTION) throw new Error(`nothing is changed for ${what}`);
  return { what, text, path: CAUTION_FILE.replace('night', what.replaceAll(' ', '-')) };
});

let copy: SourceCopy;
let faults: Map<string, string[]>;
let program: Awaited<ReturnType<SourceCopy['program']>>;
beforeAll(async () => {
  copy = new SourceCopy();
  copy.write(CAUTION_FILE, CAUTION);
  copy.addLine(CAUTION_LIST, '  night,', '] as const', "import { night } from './night.ts';");
  copy.write(COMMAND_FILE, COMMAND);
  copy.addLine(
    COMMAND_LIST,
    '  headCountCommand,',
    '];',
    "import { headCountCommand } from './commands/head-count.ts';",
  );
  for (const { path, text } of wrongCautions) copy.write(path, text);
  const paths = [CAUTION_FILE, CAUTION_LIST, COMMAND_FILE, COMMAND_LIST];
  faults = copy.faults(...paths, ...wrongCautions.map(({ path }) => path));
  program = await copy.program();
});
afterAll(() => copy.remove());

const file = (name: Shop): string => join(root, 'tests', 'shops', `${name}.json`);
/** The one shop that works past midnight. */
const LATE: Shop = 'drawer-fronts';

describe('a caution of one file and one line', () => {
  test('compiles, it and the list', () => {
    expect([faults.get(CAUTION_FILE), faults.get(CAUTION_LIST)]).toEqual([[], []]);
  });

  test.each(SHOPS)('stands where it applies, and only there: %s', (name) => {
    const checked = JSON.parse(program(['check', file(name), '--json']).out) as {
      cautions: { topic: string }[];
    };
    const own = checked.cautions.filter(({ topic }) => topic === 'night');
    expect(own).toEqual(name === LATE ? [{ topic: 'night', text: CAUTION_TEXT, source: 'Nobody.' }] : []);
  });

  test('stands under an answer, in its JSON, and where there is room for few', () => {
    const words = ['run', file(LATE), '--count', '2', '--threads', '1'];
    expect(program(words).out.replace(/\s+/g, ' ')).toContain(`${CAUTION_TEXT} (Nobody.)`);
    expect(program([...words, '--json']).out).toContain(CAUTION_TEXT);
    expect(program(['record', file(LATE)]).err.replace(/\s+/g, ' ')).toContain(CAUTION_TEXT);
  });

  test('stands beside its field in the editor', async () => {
    const beside = await copy.bundled(
      'src/toy-entry.ts',
      "export { cautionsBeside } from './scenario/cautions.ts';\n",
      (made: { cautionsBeside: typeof cautionsBeside }) =>
        FIELDS.filter((field) =>
          made.cautionsBeside(shop(LATE), field).some(({ text }) => text === CAUTION_TEXT),
        ),
    );
    expect(beside).toEqual(['breaks']);
  });

  test('does not compile with any part of it left out or wrong', () => {
    expect(wrongCautions.map(({ what, path }) => [what, faults.get(path)!.length > 0])).toEqual(
      wrongCautions.map(({ what }) => [what, true]),
    );
  });

  test('is a line of the list, and has a topic of its own', () => {
    const files = readdirSync(join(root, 'src/scenario/cautions'));
    const shared = ['applies.ts', 'caution.ts', 'list.ts'];
    const topics = CAUTIONS.map(({ topic }) => `${topic.replaceAll(' ', '-')}.ts`);
    expect([...topics].sort()).toEqual(files.filter((name) => !shared.includes(name)));
  });
});

describe('a command of one file and one line', () => {
  test('compiles, it and the list', () => {
    expect([faults.get(COMMAND_FILE), faults.get(COMMAND_LIST)]).toEqual([[], []]);
  });

  test('is in the help, and answers on a page and as data', () => {
    expect(program(['--help']).out).toMatch(/head-count.*how many people a file names/);
    expect(program(['head-count', file('stair-parts')])).toMatchObject({
      code: 0,
      out: expect.stringMatching(/9 people/) as string,
    });
    expect(JSON.parse(program(['head-count', file(LATE), '--json']).out)).toEqual({
      command: 'head-count',
      people: Object.keys(shop(LATE).people).length,
    });
  });
});

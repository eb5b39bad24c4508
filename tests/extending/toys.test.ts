/**
 * A newcomer's caution, command and rule of a step, each one file and one line, in one copy of the sources
 * that is built and used as a user would; and what is left out of a caution or a rule does not compile.
 */
import { readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/scenario/cautions/list.ts';
import { FIELDS } from '../../src/scenario/cautions/caution.ts';
import type { cautionsBeside } from '../../src/scenario/cautions.ts';
import type { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import type * as stepRules from '../../src/scenario/step-rules.ts';
import { STEP_RULES } from '../../src/scenario/step-rules/list.ts';
import { shop, SHOPS, type Shop } from '../support/shops.ts';
import { root, SourceCopy } from './source-copy.ts';
import { CAUTION, CAUTION_FILE, CAUTION_LIST, CAUTION_TEXT } from './toy-caution.ts';
import { RULE, RULE_FILE, RULE_LIST } from './toy-step-rule.ts';
import { COMMAND, COMMAND_FILE, COMMAND_LIST } from './toy-command.ts';

/** A toy with a part left out or wrong, each in a file of its own. */
const without = (
  toy: string,
  file: string,
  parts: { what: string; from: string | RegExp; to: string }[],
): { what: string; text: string; path: string }[] =>
  parts.map(({ what, from, to }) => {
    const text = toy.replace(from, to);
    if (text === toy) throw new Error(`nothing is changed for ${what}`);
    return { what, text, path: join(dirname(file), `${what.replaceAll(' ', '-')}.ts`) };
  });

const wrongCautions = without(CAUTION, CAUTION_FILE, [
  { what: 'no topic', from: / {2}topic: .*\n/, to: '' },
  { what: 'no text', from: / {2}text: .*\n/, to: '' },
  { what: 'no short words', from: / {2}short: .*\n/, to: '' },
  { what: 'no source', from: / {2}source: .*\n/, to: '' },
  { what: 'no fields', from: / {2}beside: .*\n/, to: '' },
  { what: 'no papers', from: / {2}onShortPapers: .*\n/, to: '' },
  { what: 'no cells', from: / {2}applies: .*\n/, to: '' },
  { what: 'a field there is not', from: "'breaks'", to: "'lunch'" },
  { what: 'a paper there is not', from: "'record'", to: "'letter'" },
]);
const wrongRules = without(RULE, RULE_FILE, [
  { what: 'no name', from: / {2}name: .*\n/, to: '' },
  { what: 'no shape', from: / {2}schema: .*\n/, to: '' },
  { what: 'no clocks', from: / {2}clocks: \[[^]*?\n {2}\],\n/, to: '' },
  { what: 'no check', from: / {2}wrong: [^]*?order'\],\n/, to: '' },
  { what: 'no time', from: / {2}shuts: .*\n/, to: '' },
  { what: 'no rest of the shift', from: / {2}later: .*\n/, to: '' },
  { what: 'no words', from: / {2}words: .*\n/, to: '' },
  { what: 'a time it does not have', from: 'isOver(value.from)', to: 'isOver(value.noon)' },
]);

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
  copy.write(RULE_FILE, RULE);
  copy.replace(RULE_LIST, '[lastStart]', '[lastStart, quiet]');
  copy.write(RULE_LIST, `import { quiet } from './quiet.ts';\n${copy.read(RULE_LIST)}`);
  const wrong = [...wrongCautions, ...wrongRules];
  for (const { path, text } of wrong) copy.write(path, text);
  const whole = [CAUTION_FILE, CAUTION_LIST, COMMAND_FILE, COMMAND_LIST, RULE_FILE, RULE_LIST];
  faults = copy.faults(...whole, ...wrong.map(({ path }) => path));
  program = await copy.program();
});
afterAll(() => copy.remove());

const file = (name: Shop): string => join(root, 'tests', 'shops', `${name}.json`);
/** The one shop that works past midnight. */
const LATE: Shop = 'drawer-fronts';

const refused = (all: { what: string; path: string }[]): string[] =>
  all.filter(({ path }) => faults.get(path)!.length > 0).map(({ what }) => what);

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
    expect(program([...words, '--cautions']).out.replace(/\s+/g, ' ')).toContain(`${CAUTION_TEXT} (Nobody.)`);
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
    expect(refused(wrongCautions)).toEqual(wrongCautions.map(({ what }) => what));
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
      output: expect.any(Number) as number,
      command: 'head-count',
      people: Object.keys(shop(LATE).people).length,
    });
  });
});

describe('a rule of a step of one file and one line', () => {
  /** One person, 10 minutes a piece, five pieces there at 06:00, and time to spare. */
  const cell = (quiet?: unknown): object => ({
    format: 1,
    name: 'one bench',
    steps: { work: { name: 'sanding', time: 10, ...(quiet === undefined ? {} : { quiet }) } },
    people: { ana: { covers: ['work'] } },
    shift: { start: '06:00', end: '08:00', atEnd: 'put down' },
    intake: { kind: 'at start', units: 5 },
  });
  const QUIET = { from: '06:20', until: '06:45' };
  const ran = (quiet?: unknown, ...words: string[]): ReturnType<typeof program> => {
    writeFileSync(join(copy.folder, 'cell.json'), JSON.stringify(cell(quiet)));
    const [command = 'check', ...rest] = words;
    return program([command, join(copy.folder, 'cell.json'), ...rest]);
  };

  test('compiles, it and the list; nothing of it can be left out', () => {
    expect([faults.get(RULE_FILE), faults.get(RULE_LIST)]).toEqual([[], []]);
    expect(refused(wrongRules)).toEqual(wrongRules.map(({ what }) => what));
  });

  test('is read by the check of the file, with its own faults and the schema', () => {
    expect(ran(QUIET)).toMatchObject({ code: 0 });
    const said = (quiet: unknown): string => ran(quiet).err.replace(/\s+/g, ' ');
    expect(said({ from: '06:45', until: '06:20' })).toMatch(
      /Step “sanding”, quiet: found quiet until "06:20"; allowed: after "06:45"; put the two in order/,
    );
    expect(said({ from: '06:20', until: '09:00' })).toMatch(/quiet, until: found "09:00", outside the shift/);
    expect(said({ from: '06:20' })).toMatch(/quiet, until/);
    expect(program(['schema']).out).toContain('Not begun between these times.');
  });

  test('is kept by a run, to the minute: what is in hand goes on, and at the end of it the next is begun', () => {
    const starts = (quiet?: unknown): number[] =>
      ran(quiet, 'record')
        .out.split('\n')
        .map((line) => /^1,06:(\d\d):00,begins,/.exec(line)?.[1])
        .filter((minute) => minute !== undefined)
        .map(Number);
    expect(starts()).toEqual([0, 10, 20, 30, 40]);
    // It may be begun at 06:20 itself, and again at 06:45.
    expect(starts(QUIET)).toEqual([0, 10, 20, 45, 55]);
  });

  test('is on the sheet on the wall, in the rest of a shift, and among the fields of the editor', async () => {
    writeFileSync(join(copy.folder, 'cell.json'), JSON.stringify(cell(QUIET)));
    const entry = `export { resolve } from './scenario/resolve.ts';
export { ruleClocks, shutsOf, withLaterRules } from './scenario/step-rules.ts';
`;
    type Made = Pick<typeof stepRules, 'ruleClocks' | 'withLaterRules'> & { resolve: typeof resolve };
    await copy.bundled('src/toy-entry.ts', entry, (made: Made) => {
      const scenario = cell(QUIET) as Scenario;
      expect(made.resolve(scenario).steps[0]!.ruleSentences).toEqual([
        'No sanding is begun between 06:20 and 06:45.',
      ]);
      expect(made.ruleClocks()).toEqual([
        { place: ['lastStart'], label: 'Not begun after' },
        { place: ['quiet', 'from'], label: 'Quiet from' },
        { place: ['quiet', 'until'], label: 'Quiet until' },
      ]);
      const step = scenario.steps['work']!;
      expect(made.withLaterRules(step, () => false)).toEqual(step);
      expect(made.withLaterRules(step, (clock) => clock < '06:30')).not.toHaveProperty('quiet');
    });
  });

  test('is a line of the list', () => {
    const files = readdirSync(join(root, 'src/scenario/step-rules'));
    expect(files.filter((name) => !['list.ts', 'step-rule.ts'].includes(name))).toHaveLength(
      STEP_RULES.length,
    );
  });
});

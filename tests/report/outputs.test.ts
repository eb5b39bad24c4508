/** What commands print with --json holds to the schema they publish (ajv), on shops of several kinds. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import type { Command } from 'commander';
import { afterAll, describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { main } from '../../src/cli/program.ts';
import { outputJsonSchema, WITH_SCHEMA } from '../../src/report/output-schema.ts';
import { OUTPUT, VERSION } from '../../src/report/version.ts';
import { personStates, workingAt } from '../../src/core/codes.ts';
import { standardKpis } from '../../src/study/standard-kpis.ts';
import type { CaseSummary } from '../../src/study/summary.ts';
import { SHOPS } from '../support/shops.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-outputs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

async function documentOf(words: string[]): Promise<Record<string, unknown>> {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await main([...words, '--json'], {
    out: (text) => out.push(text),
    err: (text) => err.push(text),
    alone: true,
  });
  expect(code, err.join('')).toBe(0);
  return JSON.parse(out.join('')) as Record<string, unknown>;
}

const judges = new Map<string, ValidateFunction>();
function judge(command: Name): ValidateFunction {
  const known = judges.get(command) ?? new Ajv2020({ strict: false }).compile(outputJsonSchema(command));
  judges.set(command, known);
  return known;
}

type Name = (typeof WITH_SCHEMA)[number];

const FEW = ['--count', '30', '--times-known'];
const [K, DEMO] = [file('scenarios/cell-k.json'), file('scenarios/chair-works.json')];
const shopFile = (shop: string): string => file(`tests/shops/${shop}.json`);
const TIMES = file('scenarios/chair-works-times-invented.csv');
const DAY = '2027-03-08';
const book = (name: string): string[] => ['--log', join(folder, `${name}.jsonl`)];
const QUICK_CREW = ['--count', '30', '--search', '100', '--changes', '0', '--no-absences'];

/** Command and words; of what is kept in the book, in the order of a day. */
const CASES: [Name, string[]][] = [
  ['run', ['run', shopFile('frame-works'), '--count', '12']],
  ['run', ['run', file('scenarios/one-step.json'), '--count', '2', '--no-why']],
  ['run', ['run', shopFile('stair-parts'), ...FEW, '--no-why']],
  ['compare', ['compare', K, ...FEW, '--why']],
  ['compare', ['compare', shopFile('drawer-fronts'), ...FEW, '--options', 'third-case']],
  ['one-more', ['one-more', K, ...FEW]],
  ['limits', ['limits', K, ...FEW]],
  ['grid', ['grid', K, ...FEW, '--across', 'clamp=2..3']],
  ['record', ['record', shopFile('drawer-fronts')]],
  ['rows', ['rows', 'run', K, '--no-why', '--count', '3', '--save', join(folder, 'a.parquet')]],
  ['crew', ['crew', shopFile('frame-works'), ...QUICK_CREW]],
  ['crew', ['crew', K, ...QUICK_CREW, '--target', '15']],
  ['ledger', ['ledger', K, ...FEW]],
  ['brief', ['brief', K, ...FEW]],
  ['learn', ['learn', DEMO, '--step', 'sand', '--pay', '16', '--count', '30']],
  ['times', ['times', TIMES]],
  ['times', ['times', TIMES, '--forecast', '--resamples', '3']],
  ['log why', ['log', 'why', DEMO, '--date', DAY, '--good', '15', '--late-parts', '30', ...book('none')]],
  [
    'now',
    ['now', DEMO, '--at', '14:30', '--good', '17', '--waiting', 'sand=2', '--handover', ...book('none')],
  ],
  ['measures', ['measures']],
  ['questions', ['questions']],
];
for (const name of ['chair-works', ...SHOPS]) {
  const its = name === 'chair-works' ? DEMO : shopFile(name);
  const kept = (...words: string[]): string[] => [...words, '--day', DAY, ...book(name)];
  CASES.push(
    ['check', ['check', its]],
    ['replay', ['replay', its, '--count', '30']],
    ['week', ['week', its, '--from', '2027-03-12', '--no-crew', '--count', '30', ...book('none')]],
    ['log', ['log', 'forecast', its, '--date', DAY, ...FEW, ...book(name)]],
    ['now', kept('now', its, '--at', name === 'drawer-fronts' ? '18:00' : '10:00', '--good', '2', '--keep')],
    ['handover', kept('handover', its, '--good', '20')],
    ['result', kept('result', its, '--good', '20')],
    ['log', ['log', 'add', its, '--date', '2027-03-09', '--good', '19', ...book(name)]],
    ['morning', ['morning', its, '--day', '2027-03-09', ...book(name)]],
    ['log show', ['log', 'show', its, ...book(name)]],
  );
}
const DAYS_LIST = join(folder, 'days.csv');
writeFileSync(DAYS_LIST, 'day;good\n2027-03-10;21\n');
CASES.push(
  ['log join', ['log', 'join', join(folder, 'chair-works.jsonl'), ...book('joined')]],
  ['log import', ['log', 'import', DAYS_LIST, DEMO, ...book('imported')]],
  ['log new-times', ['log', 'new-times', DEMO, ...book('imported')]],
);

/** Every command that has --json, by its words. */
function withJson(commands: readonly Command[], before = ''): string[] {
  return commands.flatMap((one) => {
    const own = one.options.some(({ long }) => long === '--json') ? [`${before}${one.name()}`] : [];
    return [...own, ...withJson(one.commands, `${before}${one.name()} `)];
  });
}

describe('--json', () => {
  test.each(CASES)('%s: %o holds to its schema, which takes nothing less', async (command, words) => {
    const document = await documentOf(words);
    const valid = judge(command);
    expect(valid(document), JSON.stringify(valid.errors)?.slice(0, 600)).toBe(true);
    expect([document['output'], document['command'], document['version']]).toEqual([
      OUTPUT,
      command,
      VERSION,
    ]);
    const required = outputJsonSchema(command)['required'] as string[];
    for (const field of Object.keys(document)) {
      const { [field]: _left, ...less } = document;
      expect(valid(less), field).toBe(!required.includes(field));
    }
    expect(valid({ ...document, output: OUTPUT + 1 })).toBe(false);
    expect(valid({ ...document, version: 7 })).toBe(false);
  });

  test('every schema is tried, and there is one for every command that gives JSON', () => {
    const tried = new Set<string>(['trouble', ...CASES.map(([command]) => command)]);
    expect(tried).toEqual(new Set(WITH_SCHEMA));
    const commands = withJson(COMMANDS.map((make) => make())).map((name) => name.replace(/^rows .*/, 'rows'));
    // merge and start print the document of their question; what is added to the log is told in one form.
    const known = [...WITH_SCHEMA, 'merge', 'start', 'log forecast', 'log add'];
    expect(commands.filter((name) => !known.includes(name))).toEqual([]);
    expect(commands.length).toBeGreaterThan(20);
  });

  test('a trouble is told in a form of its own', async () => {
    const out: string[] = [];
    const code = await main(['check', file('tests/report/outputs.test.ts'), '--json'], {
      out: (text) => out.push(text),
      err: () => undefined,
      alone: true,
    });
    const document = JSON.parse(out.join('')) as Record<string, unknown>;
    expect([judge('trouble')(document), document['exitCode']]).toEqual([true, code]);
    expect(judge('trouble')({ ...document, faults: [{}] })).toBe(false);
  });
});

test('KPIs by their names in ISO 22400-2: by hand, 18 good and 2 scrapped in eight hours', () => {
  const states = personStates(1, 2);
  const minutes = (at: Record<number, number>): number[] =>
    Array.from({ length: states }, (_, state) => at[state] ?? 0);
  const gone = 1;
  const idle = 5;
  const of = (estimate: number): { estimate: number } => ({ estimate });
  const kpis = standardKpis({
    measures: { good: of(18), scrap: of(2), reworked: of(5), firstPassYield: of(0.8), length: of(480) },
    shifts: [
      {
        gear: [{}],
        people: [
          {
            minutes: minutes({ [workingAt(1, 0)]: 200, [workingAt(1, 1)]: 90, [idle]: 100, [gone]: 60 }),
            overtime: minutes({ [workingAt(1, 0)]: 10 }),
          },
        ],
      },
    ],
  } as unknown as CaseSummary);
  expect(kpis.map(({ name, value }) => [name, value])).toEqual([
    ['Quality ratio', 0.9],
    ['Scrap ratio', 0.1],
    ['Rework ratio', 0.25],
    ['First pass yield', 0.8],
    ['Worker efficiency', 0.75],
    ['Throughput rate', 2.5],
  ]);
});

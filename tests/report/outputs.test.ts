/** What commands print with --json holds to the schema they publish (ajv), on shops of several kinds. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, test } from 'vitest';
import { main } from '../../src/cli/program.ts';
import { outputJsonSchema, WITH_SCHEMA } from '../../src/report/output-schema.ts';
import { OUTPUT } from '../../src/report/version.ts';
import { personStates, workingAt } from '../../src/core/codes.ts';
import { standardKpis } from '../../src/study/standard-kpis.ts';
import type { CaseSummary } from '../../src/study/summary.ts';

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
function judge(command: (typeof WITH_SCHEMA)[number]): ValidateFunction {
  const known = judges.get(command) ?? new Ajv2020({ strict: false }).compile(outputJsonSchema(command));
  judges.set(command, known);
  return known;
}

const FEW = ['--count', '30', '--times-known'];
const CASES: [(typeof WITH_SCHEMA)[number], string[]][] = [
  ['run', ['run', file('tests/shops/frame-works.json'), '--count', '12']],
  ['run', ['run', file('scenarios/one-step.json'), '--count', '2', '--no-why']],
  ['run', ['run', file('tests/shops/stair-parts.json'), ...FEW, '--no-why']],
  ['compare', ['compare', file('scenarios/cell-k.json'), ...FEW, '--why']],
  ['compare', ['compare', file('tests/shops/drawer-fronts.json'), ...FEW, '--options', 'third-case']],
  ['one-more', ['one-more', file('scenarios/cell-k.json'), ...FEW]],
  ['limits', ['limits', file('scenarios/cell-k.json'), ...FEW]],
  ['grid', ['grid', file('scenarios/cell-k.json'), ...FEW, '--across', 'clamp=2..3']],
  ['record', ['record', file('tests/shops/drawer-fronts.json')]],
  [
    'rows',
    [
      'rows',
      'run',
      file('scenarios/cell-k.json'),
      '--no-why',
      '--count',
      '3',
      '--save',
      join(folder, 'a.parquet'),
    ],
  ],
];

describe('--json', () => {
  test.each(CASES)('%s: %o holds to its schema, which takes nothing less', async (command, words) => {
    const document = await documentOf(words);
    const valid = judge(command);
    expect(valid(document), JSON.stringify(valid.errors)?.slice(0, 600)).toBe(true);
    expect(document['output']).toBe(OUTPUT);
    for (const field of Object.keys(document)) {
      if (field === 'kind') continue;
      const { [field]: _left, ...less } = document;
      const required = (outputJsonSchema(command)['required'] as string[]).includes(field);
      expect(valid(less), field).toBe(!required);
    }
    expect(valid({ ...document, output: OUTPUT + 1 })).toBe(false);
    expect(valid({ ...document, seed: 7 })).toBe(false);
  });

  test('every schema is tried', () => {
    expect(new Set(CASES.map(([command]) => command))).toEqual(new Set(WITH_SCHEMA));
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

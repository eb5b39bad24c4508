/** The scripts of the README that hand shards to schedulers others wrote, as they stand there. */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { load } from 'js-yaml';
import { Job } from 'kubernetes-models/batch/v1';
import { marked } from 'marked';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const PROGRAM = join(root, 'dist/cli/clampwright.js');
const scripts = marked
  .lexer(readFileSync(join(root, 'README.md'), 'utf8'))
  .flatMap((token) =>
    token.type === 'code' ? [{ language: token['lang'] as string, text: token['text'] as string }] : [],
  );
const scriptWith = (language: string, word: string): string =>
  scripts.find((one) => one.language === language && one.text.includes(word))!.text;

/** The same with fewer shifts, and this program. */
const smaller = (script: string): string =>
  script
    .replaceAll('npx clampwright', `${process.execPath} ${PROGRAM}`)
    .replaceAll('500', '5')
    .replace('seq 0 5 95', 'seq 0 5 10');

const folder = mkdtempSync(join(tmpdir(), 'clampwright-engines-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const bash = (script: string, env: Record<string, string> = {}): string => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', script], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  expect(status, stderr).toBe(0);
  return stdout;
};
const parts = (): string[] => readdirSync(folder).filter((name) => name.endsWith('.parquet'));
const clean = (): void => {
  for (const name of parts()) rmSync(join(folder, name));
};
const installed = (name: string): boolean => spawnSync('sh', ['-c', `command -v ${name}`]).status === 0;
let answer = '';

describe('Shards', () => {
  beforeAll(() => {
    if (!existsSync(PROGRAM)) throw new Error('the command line is not built: npm run build');
    copyFileSync(join(root, 'scenarios/cell-k.json'), join(folder, 'shop.json'));
    answer = bash(`${process.execPath} ${PROGRAM} run shop.json --no-why --count 15`);
  });

  test.skipIf(!installed('parallel'))(
    'by GNU parallel print what one machine prints (skipped where GNU parallel is not installed)',
    () => {
      clean();
      expect(bash(smaller(scriptWith('bash', 'parallel')))).toBe(answer);
      expect(parts()).toHaveLength(3);
    },
  );

  // What the scheduler sets is the number of the task alone: here it is set by hand, the last one first.
  test.each([
    ['Slurm', 'SLURM_ARRAY_TASK_ID', (): string => scriptWith('bash', 'SBATCH')],
    [
      'Kubernetes',
      'JOB_COMPLETION_INDEX',
      (): string => job().spec!.template.spec!.containers[0]!.args!.join('\n'),
    ],
  ])('by the script for %s, task by task, one of them lost and played again', (_, number, script) => {
    clean();
    for (const task of [2, 0, 1]) bash(smaller(script()), { [number]: String(task) });
    writeFileSync(
      join(folder, 'part-5.parquet'),
      readFileSync(join(folder, 'part-5.parquet')).subarray(0, 900),
    );
    const merge = `${process.execPath} ${PROGRAM} merge part-*.parquet`;
    expect(spawnSync('bash', ['-c', merge], { cwd: folder, encoding: 'utf8' }).stderr).toMatch(
      /part-5.parquet is no shard, or only a part of one/,
    );
    rmSync(join(folder, 'part-5.parquet'));
    bash(smaller(script()), { [number]: '1' });
    expect(bash(merge)).toBe(answer);
  });
});

const manifest = (): unknown => load(scriptWith('yaml', 'Indexed'));
const job = (): Job => new Job(manifest() as ConstructorParameters<typeof Job>[0]);

test('The Kubernetes manifest holds to the schema of a Job, and the schema refuses another', () => {
  expect(() => {
    job().validate();
  }).not.toThrow();
  expect(job().spec).toMatchObject({ completionMode: 'Indexed', completions: 20 });
  const wrong = manifest() as { spec: { completions: unknown } };
  wrong.spec.completions = 'twenty';
  expect(() => {
    new Job(wrong as ConstructorParameters<typeof Job>[0]).validate();
  }).toThrow();
});

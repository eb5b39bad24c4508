/**
 * The scripts of the README that hand shards to schedulers others wrote, as they stand: GNU parallel and
 * a Slurm node for real where they are installed, the others line by line.
 */
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
import { load } from 'js-yaml';
import { Job } from 'kubernetes-models/batch/v1';
import { marked } from 'marked';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { clampwright, PROGRAM, ROOT } from '../cli/program.ts';
import { noSlurm, startSlurmNode, until, type SlurmNode } from '../support/slurm-node.mjs';

const scripts = marked
  .lexer(readFileSync(join(ROOT, 'README.md'), 'utf8'))
  .flatMap((token) =>
    token.type === 'code' ? [{ language: token['lang'] as string, text: token['text'] as string }] : [],
  );
const scriptWith = (language: string, word: string): string =>
  scripts.find((one) => one.language === language && one.text.includes(word))!.text;

const folder = mkdtempSync(join(tmpdir(), 'clampwright-engines-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const partFile = (from: number): string => join(folder, `part-${from}.parquet`);

/** The same with fewer shifts, and files by their whole path. @param program stands for "npx clampwright". */
const smaller = (script: string, program: string): string =>
  script
    .replaceAll('npx clampwright', program)
    .replaceAll('500', '5')
    .replace('seq 0 5 95', 'seq 0 5 10')
    .replaceAll('shop.json', join(folder, 'shop.json'))
    .replaceAll('part-', join(folder, 'part-'));
const bash = (script: string, env: Record<string, string> = {}): string => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', script], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  expect(status, stderr).toBe(0);
  return stdout;
};
const called = (words: string[]): string => {
  const { code, out, err } = clampwright(words);
  expect(code, err).toBe(0);
  return out;
};
/** Runs a script of one line of this program: bash puts its words together, and they are called. */
const calledBy = (script: string, env: Record<string, string>): string =>
  called(bash(smaller(script, 'echo'), env).trim().split(' '));

/** A program that is killed the first time it is asked for the shifts from 5 on. */
function losingOnce(): string {
  const file = join(folder, 'losing-once');
  const marker = join(folder, 'lost');
  rmSync(marker, { force: true });
  const lines = [
    '#!/bin/bash',
    `if [[ "$*" == *"--from 5 "* && ! -e ${marker} ]]; then touch ${marker}; kill -9 $$; fi`,
    `exec ${process.execPath} ${PROGRAM} "$@"`,
  ];
  writeFileSync(file, `${lines.join('\n')}\n`, { mode: 0o755 });
  return file;
}

const parts = (): string[] => readdirSync(folder).filter((name) => name.endsWith('.parquet'));
const installed = (name: string): boolean => spawnSync('sh', ['-c', `command -v ${name}`]).status === 0;
const answered = (): string =>
  called(['merge', ...parts().map((name) => join(folder, name)), '--threads', '1']);
const withoutSlurm = noSlurm();

describe('Shards', () => {
  let answer = '';
  beforeAll(() => {
    copyFileSync(join(ROOT, 'scenarios/cell-k.json'), join(folder, 'shop.json'));
    answer = called(['run', join(folder, 'shop.json'), '--no-why', '--count', '15', '--threads', '1']);
  });
  beforeEach(() => {
    for (const name of parts()) rmSync(join(folder, name));
  });

  test.skipIf(!installed('parallel'))(
    'by GNU parallel print what one machine prints, one of them killed (skipped where GNU parallel is not installed)',
    () => {
      const script = scriptWith('bash', 'parallel').split('\n').slice(0, -1).join('\n');
      bash(smaller(script, losingOnce()));
      expect(existsSync(join(folder, 'lost'))).toBe(true);
      expect(parts()).toHaveLength(3);
      expect(answered()).toBe(answer);
    },
  );

  test.skipIf(withoutSlurm !== null)(
    `on a Slurm node print what one machine prints; a task that is killed costs its part alone${withoutSlurm === null ? '' : ` (skipped: ${withoutSlurm})`}`,
    async () => {
      const node = await startSlurmNode(2);
      try {
        const script = smaller(scriptWith('bash', 'SBATCH'), `${process.execPath} ${PROGRAM}`);
        writeFileSync(join(folder, 'shards.sh'), script);
        const { stdout } = submitted(node, '0-2');
        const job = stdout.trim();
        const list = (...words: string[]): string =>
          node.call('squeue', ['-h', '-r', '-j', job, '-o', '%K', ...words]).stdout;
        await until(() => /^1$/m.test(list('-t', 'R')), 'the second task');
        node.call('scancel', ['--signal=KILL', '--full', `${job}_1`]);
        await until(() => list() === '', 'the end of the job');
        expect(parts().sort()).toEqual(['part-0.parquet', 'part-10.parquet']);
        const { code, err } = clampwright(['merge', partFile(0), partFile(10)]);
        expect([code, err]).toEqual([2, expect.stringMatching(/Shifts 5 to 9 are missing/)]);
        const again = submitted(node, '1').stdout.trim();
        await until(() => node.call('squeue', ['-h', '-j', again]).stdout === '', 'the end of the task');
        expect(answered()).toBe(answer);
      } finally {
        await node.stop();
      }
    },
  );

  test.skipIf(!installed('parallel'))(
    'by GNU parallel map several cells into one table (skipped where GNU parallel is not installed)',
    () => {
      writeFileSync(join(folder, 'cells.txt'), scriptWith('', 'frame-clamp'));
      const [jobs, table] = scriptWith('bash', 'awk').split(/(?=awk)/) as [string, string];
      const fewer = jobs
        .replace('npx clampwright', 'echo')
        .replace('{1}.json', join(ROOT, 'tests/shops/{1}.json'))
        .replace('map-', join(folder, 'map-'))
        .replace('=1..6', '=2..3')
        .replace('=0..4', '=0..1')
        .replace('500', '30')
        .replace('4 6 8 none', 'none')
        .replace('25 30 45', '45');
      bash(fewer);
      const log = readFileSync(join(folder, 'map.log'), 'utf8').trim().split('\n');
      expect(log).toHaveLength(3);
      for (const line of log) called([...line.split(' '), '--times-known']);
      bash(table);
      const [head, ...rows] = readFileSync(join(folder, 'map.csv'), 'utf8').trim().split(/\r?\n/);
      expect(head).toMatch(/^Cell,Changed,Down,Across,Good units a shift,/);
      expect(rows).toHaveLength(3 * 4);
      expect(new Set(rows.map((row) => row.split(',')[0])).size).toBe(3);
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
  ])('by the script for %s, task by task, one of them cut off and played again', (_, number, script) => {
    for (const task of [2, 0, 1]) calledBy(script(), { [number]: String(task) });
    writeFileSync(partFile(5), readFileSync(partFile(5)).subarray(0, 900));
    expect(clampwright(['merge', partFile(0), partFile(5), partFile(10)]).err).toMatch(
      /part-5.parquet is no shard, or only a part of one/,
    );
    rmSync(partFile(5));
    calledBy(script(), { [number]: '1' });
    expect(answered()).toBe(answer);
  });

  const submitted = (node: SlurmNode, tasks: string): ReturnType<SlurmNode['call']> =>
    node.call('sbatch', [`--array=${tasks}`, '--parsable', '-o', '/dev/null', 'shards.sh'], { cwd: folder });
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

/** A file of one's own, asked for on the terminal. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readScenario } from '../../src/scenario/check.ts';
import { STARTS } from '../../src/scenario/own/starts.ts';
import { clampwright, PROGRAM } from './program.ts';

let folder = '';
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'clampwright-new-'))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const answering = (
  lines: string[],
  file = 'mine.json',
): { code: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, 'new', file], {
    cwd: folder,
    encoding: 'utf8',
    input: `${lines.join('\n')}\n`,
  });
  return { code: status, out: stdout, err: stderr };
};

test('asks again what it cannot read, fills no post by itself, and writes a file that can be run', () => {
  const people = ['4,1', '9', '2'];
  const own = ['fit 14', 'glue up 9', 'cure 40', 'unclamp 5', 'sand 20', ''];
  const { code, out, err } = answering([
    '',
    'Bench 2',
    '1',
    ...own,
    '3',
    'Ada, Ben',
    ...people,
    'Ada',
    'half past',
    '7',
    '15:30',
    '18',
  ]);
  expect({ code, err }).toEqual({ code: 0, err: 'Written: mine.json\n' });
  expect(out).toContain('Give it a name');
  expect(out).toContain('Write numbers from 1 to 4');
  expect(out).toContain('Nobody stands at unclamp yet');
  expect(out).toContain('Write a clock time');
  expect(out).not.toContain('still a guess');
  const reading = readScenario(readFileSync(join(folder, 'mine.json'), 'utf8'));
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  const { name, people: crew, gear, shift, steps } = reading.scenario;
  expect({ name, gear, shift }).toEqual({
    name: 'Bench 2',
    gear: { clamp: { name: 'clamp set', count: 3 } },
    shift: { start: '07:00', end: '15:30', target: 18 },
  });
  expect(Object.values(crew).map(({ covers }) => covers)).toEqual([['sand', 'unclamp', 'fit'], ['glue-up']]);
  expect(steps['cure']).toEqual({ kind: 'wait', time: 40 });
});

test('leaves nothing behind where the answers end too early, and does not overwrite another file', () => {
  const early = answering(['Bench 2', '1'], 'early.json');
  expect(early.code).toBe(2);
  expect(early.err).toContain('The answers ended before');
  expect(readdirSync(folder)).toEqual(['mine.json']);
});

test.each(STARTS.map(({ id }) => id))(
  'an invented shop of %s runs, somebody at every post, and says so',
  (id) => {
    const file = join(folder, `${id}.json`);
    expect(clampwright(['new', file, '--from', id]).code).toBe(0);
    const reading = readScenario(readFileSync(file, 'utf8'));
    if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
    const { steps, people, invented } = reading.scenario;
    expect(invented).toBe(true);
    const covered = new Set(Object.values(people).flatMap(({ covers }) => covers));
    for (const [step, { kind }] of Object.entries(steps))
      if (kind !== 'wait') expect([...covered]).toContain(step);
    const { out } = clampwright(['run', file, '--count', '20', '--no-why']);
    expect(out).not.toMatch(/Why so little/);
    expect(out).toMatch(/invented/);
  },
);

/** The faults in short; `npm run faults` tries them at length and writes tests/results/faults.md. */
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import seedrandom from 'seedrandom';
import { afterAll, describe, expect, it } from 'vitest';
import { clampwright, PROGRAM, ROOT, scenarioFile } from '../cli/program.ts';
import { withBundle } from '../support/bundle.mjs';
import { damageFiles, readsScenario } from './damage.ts';
import { throwFlags } from './flags.ts';
import { limitFiles } from './full-disk.ts';
import { killAdding, killReplacing, killWriting } from './kills.ts';
import { writeAtOnce } from './parallel.ts';
import { ADDING, REPLACING } from './writers.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-faults-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const setting = { program: PROGRAM, root: ROOT, folder, random: seedrandom('faults in short') };
/** The program as a function. */
const program = new URL('program.js', pathToFileURL(PROGRAM)).href;

const folderOf = (name: string): string => join(folder, name);
const few = REPLACING.filter(({ file }) =>
  ['events.parquet', 'tomorrow.json', 'handover.html'].includes(file),
);

describe('nothing is lost', () => {
  it('of files that are replaced and a book that is added to when the process is killed', async () => {
    for (const { file, words } of few)
      for (const turn of [0, 1]) expect(clampwright(words(folderOf(`${turn}-${file}`), turn)).code).toBe(0);
    const killed = await withBundle('tests/faults/write-on.ts', (_, module) =>
      killWriting(12, few, module, setting),
    );
    expect(killed.lost).toBe(0);
    expect(killed.kept + killed.renewed).toBeGreaterThan(12);
  });
  it('of the book when a command that adds to it is killed', async () => {
    expect((await killAdding(3, setting)).lost).toBe(0);
  });
  it('of a file when a command that replaces it is killed', async () => {
    expect((await killReplacing(few[2]!, 3, setting)).lost).toBe(0);
  });
  it('when several add to the log at once', async () => {
    const { writers, saidKept, inLog, lost, unread } = await writeAtOnce(5, setting);
    expect({ saidKept, inLog, lost, unread }).toEqual({
      saidKept: writers,
      inLog: writers,
      lost: 0,
      unread: 0,
    });
  });
});

describe('no room for what is written', () => {
  it('loses nothing, spoils nothing, and is said as what it is', async () => {
    const seen = await limitFiles({ ...setting, program }, { adding: ADDING.slice(0, 1), replacing: few });
    if (seen.kind !== 'tried') return console.log(`not tried: ${seen.why}`);
    expect(seen).toMatchObject({ lost: 0, spoiled: 0, wrong: [] });
    expect(seen.refused).toBeGreaterThan(3);
  });
});

describe('damaged scenario files', () => {
  it('are refused in words, or are sound', async () => {
    const sound = ['chair-works', 'one-step'].map((name) => readFileSync(scenarioFile(name)));
    const { crashed, refused } = await damageFiles(readsScenario, sound, 150, 'damaged in short');
    expect(crashed).toEqual([]);
    expect(refused).toBeGreaterThan(50);
  });
});

describe('junk on the command line', () => {
  it('ends in an answer or in words', async () => {
    cpSync(join(ROOT, 'scenarios'), folderOf('scenarios'), { recursive: true });
    const { faults, hangs, refused } = await throwFlags(60, { ...setting, program });
    expect({ faults, hangs }).toEqual({ faults: [], hangs: [] });
    expect(refused).toBeGreaterThan(20);
  });
});

/** The faults in short; `npm run faults` tries them at length and writes tests/results/faults.md. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import seedrandom from 'seedrandom';
import { afterAll, describe, expect, it } from 'vitest';
import { PROGRAM, ROOT, scenarioFile } from '../cli/program.ts';
import { damageScenarios } from './damage.ts';
import { limitFiles } from './full-disk.ts';
import { killAdding, killReplacing } from './kills.ts';
import { writeAtOnce } from './parallel.ts';
import { REPLACING } from './writers.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-faults-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const setting = { program: PROGRAM, root: ROOT, folder, random: seedrandom('faults in short') };

describe('nothing is lost', () => {
  it('of the log when what adds to it is killed', async () => {
    expect((await killAdding(6, setting)).lost).toBe(0);
  });
  it('of a file when what replaces it is killed', async () => {
    expect((await killReplacing(REPLACING[0]!, 5, setting)).lost).toBe(0);
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
  it('loses nothing, spoils nothing, and is said as what it is', () => {
    const seen = limitFiles(setting);
    if (seen.kind !== 'tried') return console.log(`not tried: ${seen.why}`);
    expect(seen).toMatchObject({ lost: 0, spoiled: 0, wrong: [] });
    expect(seen.refused).toBeGreaterThan(3);
  });
});

describe('damaged scenario files', () => {
  it('are refused in words, or are sound', () => {
    const sound = ['chair-works', 'one-step'].map((name) => readFileSync(scenarioFile(name)));
    const { crashed, refused } = damageScenarios(sound, 150, 'damaged in short');
    expect(crashed).toEqual([]);
    expect(refused).toBeGreaterThan(50);
  });
});

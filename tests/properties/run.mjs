/**
 * `npm run properties -- --markdown`: every property (tests/support/holds.ts) with ten other seeds, one run
 * after another; `--runs 3` fewer, `--load 4` with so many processes that do nothing but keep processors
 * busy. A property that fails tells its seed and its case.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSources } from '../support/built-sources.mjs';
import { resultsOf } from '../support/results.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const numberAfter = (word, otherwise) => {
  const at = process.argv.indexOf(word);
  return at < 0 ? otherwise : Number(process.argv[at + 1]);
};
const runs = numberAfter('--runs', 10);
const load = numberAfter('--load', 0);

const files = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.test.ts'))
  .filter((file) => readFileSync(join(root, 'tests', file), 'utf8').includes('support/holds.ts'))
  .map((file) => `tests/${file.replaceAll('\\', '/')}`);

const { print, write } = resultsOf({
  name: 'properties',
  title: 'Properties with other seeds',
  command: `npm run properties${process.argv
    .slice(2)
    .map((word, i) => `${i === 0 ? ' --' : ''} ${word}`)
    .join('')}`,
  keep: process.argv.includes('--markdown'),
});

const sources = await buildSources();
const busy = Array.from({ length: load }, () => spawn(process.execPath, ['-e', 'for (;;);']));
const folder = mkdtempSync(join(tmpdir(), 'clampwright-properties-'));
let failed = 0;
try {
  print(`${files.length} files, all their tests; the seed is added to each property's own.\n`);
  print('| seed | tests that hold | tests that fail | processes waiting for a processor |');
  print('| --- | --- | --- | --- |');
  for (let run = 1; run <= runs; run += 1) {
    const seed = 1000 * run;
    const out = join(folder, `${seed}.json`);
    spawnSync(
      join(root, 'node_modules/.bin/vitest'),
      ['run', '--project', 'logic*', '--reporter=json', `--outputFile.json=${out}`, ...files],
      {
        cwd: root,
        env: { ...process.env, CLAMPWRIGHT_SEED: String(seed), CLAMPWRIGHT_BUILT_SOURCES: sources },
        stdio: 'ignore',
      },
    );
    const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(out, 'utf8'));
    failed += numFailedTests;
    print(`| ${seed} | ${numPassedTests} | ${numFailedTests} | ${loadavg()[0].toFixed(0)} |`);
    for (const { name, assertionResults, message } of testResults) {
      const wrong = assertionResults.filter((one) => one.status === 'failed');
      for (const one of wrong) console.log(`${name}: ${one.fullName}\n${one.failureMessages.join('\n')}`);
      if (wrong.length === 0 && message !== '') console.log(`${name}: ${message}`);
    }
    // Kept as it goes: a run that is stopped has said what it saw.
    write();
  }
} finally {
  for (const child of busy) child.kill();
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = failed === 0 ? 0 : 1;

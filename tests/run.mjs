// Runs all tests and says at the end how many passed and how many failed. `npm test -- logic` runs one part
// only; further words go to vitest.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const parts = ['logic', 'web'];
const asked = process.argv.slice(2);
const chosen = parts.filter((part) => asked.includes(part));
const rest = asked.filter((word) => !parts.includes(word));
const run = (command, words) =>
  spawnSync(command, words, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' }).status;

/** Passed, failed and left out of one part, from vitest's own list of results. */
function runPart(part, folder) {
  const file = join(folder, `${part}.json`);
  const status = run('npx', [
    'vitest',
    'run',
    '--project',
    part,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
    ...rest,
  ]);
  if (!existsSync(file)) return { passed: 0, failed: 1, left: 0 };
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = JSON.parse(
    readFileSync(file, 'utf8'),
  );
  // A file that cannot even be read has no tests to fail, and so has a run that stops for another reason.
  const files = testResults.filter(
    (one) => one.status === 'failed' && !one.assertionResults.some((test) => test.status === 'failed'),
  );
  const failed = numFailedTests + files.length;
  for (const { name } of files) console.log(`This file could not be run to its end: ${name}`);
  return {
    passed: numPassedTests,
    failed: failed === 0 && status !== 0 ? 1 : failed,
    left: numPendingTests + numTodoTests,
  };
}

if (run('npm', ['run', '--silent', 'build']) !== 0) {
  console.log('The build failed, so no test was run.\n0 passed, 1 failed');
  process.exit(1);
}
const folder = mkdtempSync(join(tmpdir(), 'clampwright-tests-'));
try {
  const results = (chosen.length > 0 ? chosen : parts).map((part) => runPart(part, folder));
  const sum = (name) => results.reduce((total, one) => total + one[name], 0);
  if (sum('left') > 0) console.log(`${sum('left')} left out`);
  console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
  process.exitCode = sum('failed') === 0 && sum('passed') > 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

// Runs all tests and says at the end how many passed and how many failed. `npm test -- logic` runs one part
// only, `--with-lint` the lint beside them, as one more; further words go to vitest.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSources } from './support/built-sources.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const parts = ['logic', 'web'];
const LINT = '--with-lint';
const asked = process.argv.slice(2).filter((word) => word !== LINT);
const named = parts.filter((part) => asked.includes(part));
const chosen = named.length > 0 ? named : parts;
const rest = asked.filter((word) => !parts.includes(word));
const shell = process.platform === 'win32';

/** Runs a command to its end; what it prints is shown as it comes, or kept. */
async function run(command, words, shown, environment = {}) {
  const child = spawn(command, words, {
    cwd: root,
    shell,
    env: { ...process.env, ...environment },
    stdio: shown ? 'inherit' : ['ignore', 'pipe', 'pipe'],
  });
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (data) => said.push(data));
  const status = await new Promise((resolve) => child.on('close', resolve));
  return { status, said };
}

async function runLint() {
  const { status, said } = await run('npm', ['run', '--silent', 'lint'], false);
  return {
    part: 'lint',
    passed: status === 0 ? 1 : 0,
    failed: status === 0 ? 0 : 1,
    left: 0,
    longest: [],
    said,
  };
}

/** Passed, failed and left out of one part, from vitest's own list of results, and its longest files. */
async function runPart(part, folder, shown, sources) {
  const file = join(folder, `${part}.json`);
  const words = ['run', '--project', `${part}*`, '--reporter=default', '--reporter=json'];
  const { status, said } = await run(
    'npx',
    ['vitest', ...words, `--outputFile.json=${file}`, ...rest],
    shown,
    { CLAMPWRIGHT_BUILT_SOURCES: sources },
  );
  if (!existsSync(file)) return { part, passed: 0, failed: 1, left: 0, longest: [], said };
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = JSON.parse(
    readFileSync(file, 'utf8'),
  );
  // A file that cannot even be read has no tests to fail, and so has a run that stops for another reason.
  const files = testResults.filter(
    (one) => one.status === 'failed' && !one.assertionResults.some((test) => test.status === 'failed'),
  );
  const failed = numFailedTests + files.length;
  for (const { name } of files) said.push(`This file could not be run to its end: ${name}\n`);
  const longest = testResults
    .map(({ name, startTime, endTime }) => [(endTime - startTime) / 1000, relative(root, name)])
    .sort(([one], [other]) => other - one)
    .slice(0, 8);
  return {
    part,
    passed: numPassedTests,
    failed: failed === 0 && status !== 0 ? 1 : failed,
    left: numPendingTests + numTodoTests,
    longest,
    said,
  };
}

const began = Date.now();
const after = (what) => console.log(`${what} after ${((Date.now() - began) / 60_000).toFixed(1)} min`);
const lint = process.argv.includes(LINT) ? [runLint()] : [];
if (spawnSync('npm', ['run', '--silent', 'build'], { cwd: root, shell, stdio: 'inherit' }).status !== 0) {
  console.log('The build failed, so no test was run.\n0 passed, 1 failed');
  process.exit(1);
}
const sources = await buildSources();
after('built');
const folder = mkdtempSync(join(tmpdir(), 'clampwright-tests-'));
try {
  // All at once: a browser's tests wait for most of their time.
  const runs = [...lint, ...chosen.map((part, i) => runPart(part, folder, i === 0, sources))];
  const results = [];
  for (const running of runs) {
    const { part, longest, said, ...result } = await running;
    for (const data of said) process.stdout.write(data);
    for (const [seconds, name] of longest) console.log(`${seconds.toFixed(0).padStart(5)} s ${name}`);
    after(part);
    results.push(result);
  }
  const sum = (name) => results.reduce((total, one) => total + one[name], 0);
  if (sum('left') > 0) console.log(`${sum('left')} left out`);
  console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
  process.exitCode = sum('failed') === 0 && sum('passed') > 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

// The long fault tests of the page: `npm run faults:web`. What they saw is written to
// tests/results/faults-browser.md. They take an hour or more.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const run = (command, words, env = {}) =>
  spawnSync(command, words, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    env: { ...process.env, ...env },
  }).status;

if (run('npm', ['run', '--silent', 'build']) !== 0) process.exit(1);
process.exitCode =
  run('npx', ['vitest', 'run', '--project', 'web', 'tests/web/faults.test.ts'], {
    CLAMPWRIGHT_FAULTS: 'long',
  }) ?? 1;

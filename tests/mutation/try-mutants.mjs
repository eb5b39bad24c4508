// One process with vitest in it: tries mutant after mutant, each swapped in as the file is read, and tells
// the one who started it. A mutant that never ends takes this process with it; another goes on behind it.
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVitest } from 'vitest/node';
import { coreModule } from '../../src/core/compile.mjs';
import { applied } from './mutants.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** A mutant has this many times the processor time of the sound tests, and some more to begin with. */
const TIMES = 4;
const MORE = 15;

let mutant = null;
const plugin = {
  name: 'clampwright:mutant',
  enforce: 'pre',
  transform: (code, id) =>
    mutant !== null && id.split('?')[0] === join(root, mutant.path) ? applied(code, mutant) : null,
};

/**
 * Mutants of the core run as plain JavaScript, which is the same source: compiling each would take longer
 * than its tests. A module of no bytes is refused, and the plain one takes its place.
 */
const core =
  process.env['CLAMPWRIGHT_PLAIN_CORE'] === 'yes'
    ? {
        name: 'clampwright:no-core',
        resolveId: (id) => (id === 'virtual:core' ? '\0virtual:core' : null),
        load: (id) => (id === '\0virtual:core' ? "export default '';" : null),
      }
    : coreModule();

/** Keeps files in the order given: the quick ones first. */
class AsGiven {
  shard = (files) => files;
  sort = (files) => files;
}

const vitest = await createVitest(
  'test',
  {
    root,
    config: false,
    watch: false,
    reporters: [{}],
    bail: 1,
    pool: 'threads',
    isolate: false,
    maxWorkers: 1,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/web/**', 'node_modules/**'],
    testTimeout: 3_600_000,
    hookTimeout: 3_600_000,
    sequence: { sequencer: AsGiven },
  },
  { plugins: [plugin, core], logLevel: 'silent' },
);
await vitest.standalone();
const project = vitest.projects[0];

/** Runs these tests. @returns whether all of them passed, processor time in seconds, what failed first. */
async function runTests(files) {
  const from = process.cpuUsage();
  vitest.state.filesMap.clear();
  const specs = files.map((file) => project.createSpecification(join(root, file)));
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specs, false);
  const { user, system } = process.cpuUsage(from);
  const ran = testModules.filter((one) => specs.some((spec) => spec.moduleId === one.moduleId));
  const failed = ran.find((one) => one.state() === 'failed');
  return {
    passed: failed === undefined && unhandledErrors.length === 0 && ran.length > 0,
    seconds: (user + system) / 1e6,
    by: failed?.moduleId.slice(root.length) ?? null,
    of: ran.length,
  };
}

const timeOf = (usage) => (usage.user + usage.system) / 1e6;

async function tried({ id, files, seconds, ...given }) {
  mutant = given.path === undefined ? null : given;
  if (mutant !== null) vitest.invalidateFile(join(root, mutant.path));
  const from = process.cpuUsage();
  const watch = setInterval(() => {
    if (mutant === null || timeOf(process.cpuUsage(from)) < TIMES * seconds + MORE) return;
    process.send({ id, kind: 'time' }, () => process.exit(0));
  }, 500);
  const result = await runTests(files);
  clearInterval(watch);
  if (mutant !== null) {
    const { path } = mutant;
    mutant = null;
    vitest.invalidateFile(join(root, path));
  }
  process.send({ id, kind: 'run', ...result });
}

process.on('message', (asked) => {
  if (asked === 'end') process.exit(0);
  tried(asked).catch((error) => process.send({ id: asked.id, kind: 'fault', why: String(error?.stack) }));
});
process.on('disconnect', () => process.exit(0));
process.send({ kind: 'ready' });

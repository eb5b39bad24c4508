import { defineConfig } from 'vitest/config';
import { coreModule } from './src/core/compile.mjs';
import { builtSources } from './tests/support/built-sources.mjs';

/** Only what hangs is ended: on a machine that is held up everything takes longer, and none fails for it. */
const PATIENT = 20 * 60_000;
const shared = { testTimeout: PATIENT, hookTimeout: PATIENT, maxWorkers: 2 };

/** Where tests/run.mjs has built the sources; a file that is run by itself reads them as they are. */
const built = process.env['CLAMPWRIGHT_BUILT_SOURCES'];
const asBuilt = built === undefined ? [] : [builtSources(built)];

/** These put something else in a module's place, or want it new: each has a process of its own. */
const ALONE = ['tests/duration/one-file-one-line.test.ts', 'tests/scenario/check-shape.test.ts'];

/**
 * `logic` needs nothing but node; its files share the modules of their worker, so they leave them as they
 * found them. `web` drives a real browser: `npx vitest run --project web`.
 */
export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        plugins: [...asBuilt, coreModule()],
        test: {
          ...shared,
          name: 'logic',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/web/**', 'node_modules/**', ...ALONE],
          isolate: false,
        },
      },
      {
        plugins: [coreModule()],
        test: { ...shared, name: 'logic-alone', include: ALONE },
      },
      {
        plugins: [coreModule()],
        test: {
          ...shared,
          name: 'web',
          include: ['tests/web/**/*.test.ts'],
          fileParallelism: false,
          expect: { poll: { timeout: 60_000 } },
        },
      },
    ],
  },
});

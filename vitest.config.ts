import { defineConfig } from 'vitest/config';
import { coreModule } from './src/core/compile.mjs';

const shared = { testTimeout: 240_000, hookTimeout: 240_000, maxWorkers: 2 };

/** `logic` needs nothing but node; `web` drives a real browser: `npx vitest run --project web`. */
export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        plugins: [coreModule()],
        test: {
          ...shared,
          name: 'logic',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/web/**', 'node_modules/**'],
        },
      },
      {
        plugins: [coreModule()],
        test: {
          ...shared,
          name: 'web',
          include: ['tests/web/**/*.test.ts'],
          fileParallelism: false,
          // Pages are waited for by what they show: on a machine that is held up that only takes longer.
          testTimeout: 300_000,
          hookTimeout: 300_000,
          expect: { poll: { timeout: 60_000 } },
        },
      },
    ],
  },
});

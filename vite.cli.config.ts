import { chmodSync } from 'node:fs';
import { defineConfig } from 'vite';
import { notices } from './web/build/notices.ts';
import { coreModule } from './src/core/compile.mjs';

/** What the command line and its threads share is above all the engine; none is named after one module. */
const NAMES: Record<string, string> = { 'rolldown-runtime': 'runtime.js', program: 'command.js' };
const nameOf = ({ name }: { name: string }): string => NAMES[name] ?? 'engine.js';

/**
 * The command line: dist/cli/clampwright.js, the same as a function (program.js), the entry of its threads.
 */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: true,
    // The notices of what is bundled.
    ssrEmitAssets: true,
    outDir: 'dist/cli',
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    reportCompressedSize: false,
    rollupOptions: {
      input: { clampwright: 'src/cli/main.ts', program: 'src/cli/program.ts', thread: 'src/work/thread.ts' },
      output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: nameOf },
    },
  },
  ssr: { noExternal: true },
  plugins: [
    coreModule(),
    notices().plugins(),
    { name: 'clampwright:executable', closeBundle: () => chmodSync('dist/cli/clampwright.js', 0o755) },
  ],
});

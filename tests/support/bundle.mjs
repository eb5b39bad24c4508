/**
 * Bundles a module of the tests as the command line is bundled (a test runner's own way of loading modules
 * slows the engine), hands it and its address to `use` and clears up.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { join, basename } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { coreModule } from '../../src/core/compile.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Bundles the command line as a function, whose sources are in `folder`, to `outDir`/program.js. */
export async function bundleProgram(folder, outDir) {
  await build({
    root: folder,
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    define: { __filename: '"clampwright"' },
    build: {
      ssr: true,
      outDir,
      target: 'node20',
      minify: false,
      rollupOptions: {
        input: { program: join(folder, 'src/cli/program.ts') },
        output: { format: 'es', entryFileNames: '[name].js' },
      },
    },
    ssr: { noExternal: true },
    plugins: [coreModule()],
  });
}

/** @param entry path of the module from the top of the project. Gives what `use` gives. */
export async function withBundle(entry, use) {
  const outDir = await mkdtemp(join(root, 'node_modules/.bundle-'));
  try {
    await build({
      root,
      configFile: false,
      publicDir: false,
      logLevel: 'warn',
      build: { ssr: join(root, entry), outDir, target: 'node20', minify: false },
      ssr: { noExternal: true },
      plugins: [coreModule()],
    });
    const module = pathToFileURL(join(outDir, basename(entry).replace(/\.ts$/, '.js'))).href;
    return await use(await import(module), module);
  } finally {
    await rm(outDir, { recursive: true, force: true });
  }
}

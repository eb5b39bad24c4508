/**
 * Bundles a module of the tests as the command line is bundled (a test runner's own way of loading modules
 * slows the engine), hands it and its address to `use` and clears up.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { join, basename } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));

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
    });
    const module = pathToFileURL(join(outDir, basename(entry).replace(/\.ts$/, '.js'))).href;
    return await use(await import(module), module);
  } finally {
    await rm(outDir, { recursive: true, force: true });
  }
}

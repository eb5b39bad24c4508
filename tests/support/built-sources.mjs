/**
 * The sources built once for a whole run of the tests, module by module: a test runner's own way of loading
 * modules looks every import up in an object, and shifts then take half as long again.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { coreModule } from '../../src/core/compile.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const sources = join(root, 'src');

/** Below node_modules, so that packages are found from there. */
const OUT = join(root, 'node_modules', '.cache', 'clampwright-src');

/** Written for the other build, or nothing but types. */
const LEFT_OUT = /\.d\.ts$|platform\.wasm\.ts$/;

/** Builds every module of `src` and gives their folder. */
export async function buildSources() {
  const names = readdirSync(sources, { recursive: true }).filter(
    (name) => name.endsWith('.ts') && !LEFT_OUT.test(name),
  );
  const input = Object.fromEntries(names.map((name) => [name.slice(0, -'.ts'.length), join(sources, name)]));
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    build: {
      ssr: true,
      outDir: OUT,
      emptyOutDir: true,
      target: 'node20',
      minify: false,
      rollupOptions: {
        input,
        preserveEntrySignatures: 'strict',
        output: {
          format: 'es',
          entryFileNames: '[name].js',
          preserveModules: true,
          preserveModulesRoot: sources,
        },
      },
    },
    plugins: [coreModule(), whereTheyStood()],
  });
  return OUT;
}

/** Modules that look beside themselves find what the source finds there. */
function whereTheyStood() {
  return {
    name: 'clampwright:where-they-stood',
    transform: (code, id) =>
      id.startsWith(sources + sep)
        ? code.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href))
        : null,
  };
}

/** For vitest: whatever imports a module of `src` gets the one in this folder, loaded by Node itself. */
export function builtSources(folder) {
  return {
    name: 'clampwright:built-sources',
    enforce: 'pre',
    resolveId(id, importer) {
      if (importer === undefined || !id.startsWith('.') || !id.endsWith('.ts')) return null;
      const path = fileURLToPath(new URL(id, pathToFileURL(importer.replace(/\?.*$/, ''))));
      if (!path.startsWith(sources + sep)) return null;
      const built = join(folder, `${path.slice(sources.length, -'.ts'.length)}.js`);
      return existsSync(built) ? { id: built, external: true } : null;
    },
  };
}

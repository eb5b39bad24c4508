/**
 * Compiles this room to WebAssembly. The sources are TypeScript; of what AssemblyScript does not know, little
 * is left out on the way: `type` before what is imported. `// @inline` above a function, which AssemblyScript
 * heeds as a decorator, is nothing to TypeScript. `platform.wasm.ts` takes the place of `platform.ts`.
 *
 * What was compiled is kept under the hash of all that it was made from, so it is done once.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOM = fileURLToPath(new URL('.', import.meta.url));
const KEPT = fileURLToPath(new URL('../../node_modules/.cache/clampwright-core', import.meta.url));
const NAME = 'virtual:core';

/**
 * For speed, with no garbage collected (a run makes none) and no bounds checked (`checked` checks them).
 * `array[i]!` says that an element is there, not that it isn't null: such assertions are left out of both.
 */
const OPTIONS = ['--optimizeLevel', '3', '--runtime', 'stub', '--noAssert'];
const FAST = ['--uncheckedBehavior', 'always', '--use', 'abort='];
const CHECKED = ['--uncheckedBehavior', 'never'];

function sources() {
  const names = readdirSync(ROOM).filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'));
  const files = new Map(names.sort().map((name) => [name, readFileSync(join(ROOM, name), 'utf8')]));
  files.set('platform.ts', files.get('platform.wasm.ts'));
  return files;
}

const dialect = (text) =>
  text
    .replace(/^import type /gm, 'import ')
    .replace(/([{,]\s*)type (?=\w+[,\s}])/g, '$1')
    .replace(/^( *)\/\/ @inline$/gm, '$1@inline');

/** Compiled in this process: page and workers are bundled at once. */
const compiled = new Map();

/** The module's bytes, from what is kept where nothing has changed since. */
export function compiledCore({ checked = false } = {}) {
  if (!compiled.has(checked)) compiled.set(checked, keptCore(checked));
  return compiled.get(checked);
}

async function keptCore(checked) {
  const files = sources();
  const own = readFileSync(fileURLToPath(import.meta.url), 'utf8');
  const version = versionOf('assemblyscript');
  const hash = createHash('sha256')
    .update(JSON.stringify([version, own, checked, [...files]]))
    .digest('hex')
    .slice(0, 16);
  const path = join(KEPT, `${hash}.wasm`);
  if (!existsSync(path)) {
    const bytes = await compile(files, checked);
    mkdirSync(KEPT, { recursive: true });
    // Under another name first: somebody else may be reading.
    writeFileSync(`${path}.${process.pid}`, bytes);
    renameSync(`${path}.${process.pid}`, path);
  }
  return readFileSync(path);
}

function versionOf(name) {
  const path = fileURLToPath(new URL(`../../node_modules/${name}/package.json`, import.meta.url));
  if (!existsSync(path)) throw new Error(`the package ${name} is not installed: run npm ci`);
  return JSON.parse(readFileSync(path, 'utf8')).version;
}

async function compile(files, checked) {
  const { default: asc } = await import('assemblyscript/asc');
  let bytes = null;
  const { error, stderr } = await asc.main(
    ['index.ts', '--outFile', 'core.wasm', ...OPTIONS, ...(checked ? CHECKED : FAST)],
    {
      readFile: (name) => (files.has(name) ? dialect(files.get(name)) : null),
      writeFile: (_name, data) => (bytes = data),
      listFiles: () => [],
    },
  );
  // "Never null": TypeScript wants to be told so of array elements.
  const said = stderr
    .toString()
    .split(/\n\n(?=[A-Z]+ )/)
    .filter((one) => !one.includes(' AS210:') && one.trim() !== '');
  if (error !== null || said.length > 0)
    throw new Error(`the core does not compile to WebAssembly\n${said.join('\n\n')}`);
  return checked ? bytes : optimized(bytes);
}

/**
 * Once more with binaryen's own order of passes, a tenth off the time of a run. A function that is called
 * from one place alone is only merged into its caller while the caller stays of a size that machines compile
 * well: with larger ones, or with fewer merged, runs take a tenth longer.
 */
async function optimized(bytes) {
  const { default: binaryen } = await import('assemblyscript/binaryen');
  const module = binaryen.readBinary(bytes);
  const { MVP, BulkMemory, BulkMemoryOpt, SignExt, MutableGlobals, NontrappingFPToInt } = binaryen.Features;
  module.setFeatures(MVP | BulkMemory | BulkMemoryOpt | SignExt | MutableGlobals | NontrappingFPToInt);
  binaryen.setOptimizeLevel(3);
  binaryen.setShrinkLevel(0);
  binaryen.setFlexibleInlineMaxSize(20);
  binaryen.setOneCallerInlineMaxSize(1000);
  module.optimize();
  module.optimize();
  return module.emitBinary();
}

/**
 * A byte as one printable character, the commonest of them ASCII (`bytesOf` in src/engine/core.ts reads it
 * back): compressed it is a third smaller than base64.
 */
const asText = (bytes) =>
  Array.from(bytes, (byte) => String.fromCharCode(byte + (byte < 95 ? 32 : 66))).join('');

/** For vite: `virtual:core` is the module's bytes as text. */
export function coreModule() {
  return {
    name: 'clampwright:core',
    resolveId: { filter: { id: /^virtual:core$/ }, handler: () => `\0${NAME}` },
    load: {
      filter: { id: /virtual:core$/ },
      async handler() {
        return `export default ${JSON.stringify(asText(await compiledCore()))};`;
      },
    },
  };
}

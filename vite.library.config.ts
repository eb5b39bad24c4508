import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { defineConfig, type Plugin } from 'vite';
import { notices } from './web/build/notices.ts';
import { coreModule } from './src/core/compile.mjs';

const OUT = 'dist/library';
const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The types of the surface, each file by itself: they import nothing of the program inside. */
function declarations(): string[] {
  return ['index', 'types'].map((name) => {
    const source = readFileSync(here(`src/library/${name}.ts`), 'utf8');
    const { outputText, diagnostics = [] } = ts.transpileDeclaration(source, {
      fileName: `${name}.ts`,
      compilerOptions: { isolatedDeclarations: true, declaration: true, strict: true },
      reportDiagnostics: true,
    });
    if (diagnostics.length > 0)
      throw new Error(
        diagnostics.map((one) => ts.flattenDiagnosticMessageText(one.messageText, '\n')).join('\n'),
      );
    if (/from '\.\.\//.test(outputText)) throw new Error(`the types of ${name}.ts reach into the program`);
    writeFileSync(here(`${OUT}/${name}.d.ts`), outputText.replaceAll("'./types.ts'", "'./types.js'"));
    return name;
  });
}

/** The package as it is installed: everything it needs is bundled, so it depends on nothing. */
function packed(): Plugin {
  return {
    name: 'clampwright:package',
    closeBundle() {
      mkdirSync(here(OUT), { recursive: true });
      declarations();
      const { name, version, description, license, engines } = JSON.parse(
        readFileSync(here('package.json'), 'utf8'),
      ) as Record<string, unknown>;
      const own = {
        name,
        version,
        description,
        license,
        private: true,
        type: 'module',
        engines,
        sideEffects: false,
        exports: {
          '.': { types: './index.d.ts', default: './clampwright.js' },
          './package.json': './package.json',
        },
        types: './index.d.ts',
      };
      writeFileSync(here(`${OUT}/package.json`), `${JSON.stringify(own, null, 2)}\n`);
    },
  };
}

/** The library: dist/library, a package of its own for node and for bundlers. */
export default defineConfig({
  publicDir: false,
  build: {
    lib: { entry: 'src/library/index.ts', formats: ['es'], fileName: () => 'clampwright.js' },
    outDir: OUT,
    emptyOutDir: true,
    target: 'es2022',
    minify: true,
    reportCompressedSize: false,
  },
  plugins: [coreModule(), notices().plugins(), packed()],
});

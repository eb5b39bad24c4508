/**
 * A copy of the source to which a test adds what a newcomer would: one file and one line. It stands in a
 * folder of the project's modules, so that its imports find what the source's do.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';
import { calledFrom, type Ended } from '../cli/called.ts';
import { bundleProgram, withBundle } from '../support/bundle.mjs';

export const root = fileURLToPath(new URL('../..', import.meta.url));

export class SourceCopy {
  readonly folder = mkdtempSync(join(root, 'node_modules', '.copy-'));

  constructor() {
    for (const part of ['src', 'scenarios', 'package.json'])
      cpSync(join(root, part), join(this.folder, part), { recursive: true });
  }

  /** @param path from the top of the project, like all paths here. */
  write(path: string, text: string): void {
    mkdirSync(dirname(join(this.folder, path)), { recursive: true });
    writeFileSync(join(this.folder, path), text);
  }

  read(path: string): string {
    return readFileSync(join(this.folder, path), 'utf8');
  }

  /** One line more, before the first that begins with `before`, and what it has to import. */
  addLine(list: string, line: string, before: string, imported: string): void {
    this.replace(list, `\n${before}`, `\n${line}\n${before}`);
    this.write(list, `${imported}\n${this.read(list)}`);
  }

  /** Throws where the file does not have `from` exactly once. */
  replace(path: string, from: string, to: string): void {
    const text = this.read(path);
    if (text.split(from).length !== 2) throw new Error(`${path} does not have "${from}" once`);
    this.write(
      path,
      text.replace(from, () => to),
    );
  }

  /** What the compiler says of each file, without the places in it. Ask of all at once: it is slow. */
  faults(...paths: string[]): Map<string, string[]> {
    const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), (file) => ts.sys.readFile(file)) as {
      config: unknown;
    };
    const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
    const files = paths.map((path) => join(this.folder, path));
    const program = ts.createProgram(files, { ...options, noEmit: true });
    return new Map(
      files.map((file, i) => [
        paths[i]!,
        program
          .getSemanticDiagnostics(program.getSourceFile(file))
          .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n')),
      ]),
    );
  }

  /** Hands `use` what a module with this text exports; `from` is where it stands in the copy. */
  bundled<Exports, Result>(
    from: string,
    text: string,
    use: (exports: Exports) => Result | Promise<Result>,
  ): Promise<Result> {
    this.write(from, text);
    return withBundle(join('node_modules', basename(this.folder), from), (exports: Exports) =>
      use(exports),
    ) as Promise<Result>;
  }

  /** Calls the command line as the copy has it. */
  async program(): Promise<(words: string[]) => Ended> {
    const outDir = join(this.folder, 'dist', 'cli');
    await bundleProgram(this.folder, outDir);
    return calledFrom(pathToFileURL(join(outDir, 'program.js')));
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

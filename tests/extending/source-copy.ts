/**
 * A copy of the source to which a test adds what a newcomer would: one file and one line. It stands in a
 * folder of the project's modules, so that its imports find what the source's do.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { withBundle } from '../support/bundle.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

export class SourceCopy {
  private readonly folder = mkdtempSync(join(root, 'node_modules', '.copy-'));

  constructor() {
    cpSync(join(root, 'src'), join(this.folder, 'src'), { recursive: true });
  }

  /** @param path from the top of the project, like all paths here. */
  write(path: string, text: string): void {
    writeFileSync(join(this.folder, path), text);
  }

  read(path: string): string {
    return readFileSync(join(this.folder, path), 'utf8');
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

  /** What the compiler says of each of some files, without the places in it. */
  faults(...paths: string[]): string[][] {
    const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), (file) => ts.sys.readFile(file)) as {
      config: unknown;
    };
    const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
    const files = paths.map((path) => join(this.folder, path));
    const program = ts.createProgram(files, { ...options, noEmit: true });
    return files.map((file) =>
      program
        .getSemanticDiagnostics(program.getSourceFile(file))
        .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n')),
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

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/**
 * A rule of the house that needs types: nobody but the file's own tools and its editor says what holds
 * where a file says nothing. Finds every `??`, `||` and default of a destructuring whose left side is a
 * field of the scenario file (declared in src/scenario/schema.ts or schema/), outside the rooms that read the
 * file as it is written.
 *
 * Run by `npm run lint`; as a rule of eslint it would load the whole program for each lint of a single file.
 */
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SCHEMA = path.join(ROOT, 'src/scenario/schema');

/** Rooms that read the file as written: its own tools, its editor, the editor of options, the what-ifs. */
export const MAY_READ = [
  'src/scenario/',
  'src/whatif/',
  'web/pages/cell/',
  'web/store/',
  'web/pages/compare/fields.ts',
  'web/pages/compare/option-editor.ts',
];

const DEFAULTING = new Set([
  ts.SyntaxKind.QuestionQuestionToken,
  ts.SyntaxKind.QuestionQuestionEqualsToken,
  ts.SyntaxKind.BarBarToken,
]);

/**
 * @param {string[]} files roots of the program; what they import comes along
 * @param {(file: string) => boolean} looked whether a file (its path from the root) is to be looked at
 * @returns {string[]} one line each: path:line: the code
 */
export function defaultsOfFile(files, looked) {
  const config = ts.readConfigFile(path.join(ROOT, 'tsconfig.json'), ts.sys.readFile).config;
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [], files: [] }, ts.sys, ROOT);
  const program = ts.createProgram(files, options);
  const checker = program.getTypeChecker();
  const ofFile = (symbol) =>
    symbol?.declarations?.some((one) => one.getSourceFile().fileName.startsWith(SCHEMA)) === true;

  function readsFile(node) {
    const inner = ts.skipOuterExpressions(node);
    if (ts.isPropertyAccessExpression(inner)) return ofFile(checker.getSymbolAtLocation(inner.name));
    if (ts.isElementAccessExpression(inner)) return readsFile(inner.expression);
    return false;
  }

  function fillsIn(node) {
    if (ts.isBinaryExpression(node)) return DEFAULTING.has(node.operatorToken.kind) && readsFile(node.left);
    if (!ts.isBindingElement(node) || node.initializer === undefined) return false;
    if (!ts.isObjectBindingPattern(node.parent)) return false;
    const name = (node.propertyName ?? node.name).getText();
    return ofFile(checker.getTypeAtLocation(node.parent).getProperty(name));
  }

  const found = [];
  for (const source of program.getSourceFiles()) {
    const file = path.relative(ROOT, source.fileName);
    if (!looked(file)) continue;
    const look = (node) => {
      if (fillsIn(node)) {
        const { line } = source.getLineAndCharacterOfPosition(node.getStart());
        found.push(`${file}:${line + 1}: ${node.getText().replace(/\s+/g, ' ').slice(0, 100)}`);
      }
      ts.forEachChild(node, look);
    };
    look(source);
  }
  return found;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const roots = ['src', 'web'].flatMap((room) =>
    ts.sys.readDirectory(path.join(ROOT, room), ['.ts'], ['**/*.d.ts']),
  );
  const found = defaultsOfFile(
    roots,
    (file) => /^(src|web)\//.test(file) && !MAY_READ.some((room) => file.startsWith(room)),
  );
  if (found.length > 0) {
    console.error(found.join('\n'));
    console.error(
      'A default of the file is filled in once, in src/scenario/resolve.ts: read the resolved cell.',
    );
    process.exitCode = 1;
  }
}

// What can be changed in a source text so that a test ought to notice: one operator, comparison, constant or
// statement at a time. TypeScript's own parser finds the places, so nothing inside of a type, a text or a
// comment is ever touched.
import ts from 'typescript';

const SWAPS = new Map([
  [ts.SyntaxKind.LessThanToken, '<='],
  [ts.SyntaxKind.LessThanEqualsToken, '<'],
  [ts.SyntaxKind.GreaterThanToken, '>='],
  [ts.SyntaxKind.GreaterThanEqualsToken, '>'],
  [ts.SyntaxKind.EqualsEqualsEqualsToken, '!=='],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken, '==='],
  [ts.SyntaxKind.PlusToken, '-'],
  [ts.SyntaxKind.MinusToken, '+'],
  [ts.SyntaxKind.AsteriskToken, '/'],
  [ts.SyntaxKind.SlashToken, '*'],
  [ts.SyntaxKind.PercentToken, '*'],
  [ts.SyntaxKind.AmpersandAmpersandToken, '||'],
  [ts.SyntaxKind.BarBarToken, '&&'],
  [ts.SyntaxKind.PlusEqualsToken, '-='],
  [ts.SyntaxKind.MinusEqualsToken, '+='],
  [ts.SyntaxKind.AsteriskEqualsToken, '/='],
  [ts.SyntaxKind.PlusPlusToken, '--'],
  [ts.SyntaxKind.MinusMinusToken, '++'],
]);

/**
 * Every mutant of a text: what stands at [from, to) becomes `text`.
 * @param {string} path for the parser's and the reader's eyes. @param {string} source
 */
export function mutantsOf(path, source) {
  const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const found = [];
  const put = (from, to, text) => {
    const line = file.getLineAndCharacterOfPosition(from).line;
    found.push({ path, from, to, text, line: line + 1, was: source.slice(from, to) });
  };
  const swap = (token) => {
    const other = SWAPS.get(token.kind);
    if (other !== undefined) put(token.getStart(file), token.end, other);
  };
  const look = (node) => {
    // What is thrown is words for somebody; what is declared or imported is checked by the compiler.
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isThrowStatement(node)) return;
    if (ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return;
    if (ts.isBinaryExpression(node) && !isOfText(node)) swap(node.operatorToken);
    else if (ts.isPrefixUnaryExpression(node)) prefix(node);
    else if (ts.isPostfixUnaryExpression(node)) {
      put(node.operand.end, node.end, node.operator === ts.SyntaxKind.PlusPlusToken ? '--' : '++');
    } else if (ts.isNumericLiteral(node)) put(node.getStart(file), node.end, another(node.text));
    else if (node.kind === ts.SyntaxKind.TrueKeyword) put(node.getStart(file), node.end, 'false');
    else if (node.kind === ts.SyntaxKind.FalseKeyword) put(node.getStart(file), node.end, 'true');
    else if (ts.isConditionalExpression(node)) otherwise(node);
    else if (ts.isPropertyAccessExpression(node)) largest(node);
    else if (ts.isExpressionStatement(node) && !ts.isYieldExpression(node.expression)) {
      put(node.getStart(file), node.end, ';');
    } else if (ts.isContinueStatement(node) || (ts.isBreakStatement(node) && !ts.isCaseClause(node.parent))) {
      put(node.getStart(file), node.end, ';');
    }
    ts.forEachChild(node, look);
  };
  const prefix = (node) => {
    const start = node.getStart(file);
    if (node.operator === ts.SyntaxKind.ExclamationToken) put(start, start + 1, '');
    if (node.operator === ts.SyntaxKind.MinusToken) put(start, start + 1, '+');
    if (node.operator === ts.SyntaxKind.PlusPlusToken) put(start, start + 2, '--');
    if (node.operator === ts.SyntaxKind.MinusMinusToken) put(start, start + 2, '++');
  };
  const otherwise = ({ whenTrue, whenFalse }) => {
    const [one, other] = [whenTrue, whenFalse].map((part) => source.slice(part.getStart(file), part.end));
    put(whenTrue.getStart(file), whenFalse.end, `(${other}) : (${one})`);
  };
  const largest = ({ expression, name }) => {
    if (expression.getText(file) !== 'Math') return;
    if (name.text === 'max') put(name.getStart(file), name.end, 'min');
    if (name.text === 'min') put(name.getStart(file), name.end, 'max');
  };
  look(file);
  return found;
}

/** A sum with a text in it puts texts together: there is nothing to subtract. */
const isOfText = (node) =>
  node.operatorToken.kind === ts.SyntaxKind.PlusToken &&
  [node.left, node.right].some((side) => ts.isStringLiteralLike(side) || ts.isTemplateExpression(side));

const another = (text) =>
  Number(text) === 0 ? '1' : String(Number(text) + (Number(text) % 1 === 0 ? 1 : 0.1));

export const applied = (source, { from, to, text }) => `${source.slice(0, from)}${text}${source.slice(to)}`;

/** The changed line before and after, for somebody to judge by. */
export function shownIn(source, mutant) {
  const begin = source.lastIndexOf('\n', mutant.from - 1) + 1;
  const ends = source.indexOf('\n', mutant.to);
  const end = ends < 0 ? source.length : ends;
  const after = source.slice(begin, mutant.from) + mutant.text + source.slice(mutant.to, end);
  const short = (text) => text.replace(/\s+/g, ' ').trim().slice(0, 160);
  return { before: short(source.slice(begin, end)), after: short(after) };
}

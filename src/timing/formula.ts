/**
 * Spreadsheets take some texts for formulas. An apostrophe in front, which they take for "this is text",
 * keeps such a text what it is; every list the program writes goes through here.
 */

/**
 * Starts a formula (also in full width, and behind blanks or invisible marks). Apostrophes in front count in,
 * so that a text which already has one gets another, and reading takes exactly one away.
 */
export const FORMULA = /^'*[\s\u200B-\u200F\u2060\uFEFF]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^'*[\t\r\n]/;

export const guarded = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);
export const unguarded = (text: string): string =>
  text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text;

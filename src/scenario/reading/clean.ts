/**
 * Text on one line: line breaks and tabs are blanks (a blank that holds words together stays one), control
 * characters go, and so do the marks that turn the reading direction around, by which a name could make a
 * sentence say something else.
 */
export function cleaned(text: string): string {
  return text
    .replace(/[^\S\u00a0]+/gu, ' ')
    .replace(/[\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]|\p{Surrogate}/gu, '')
    .trim();
}

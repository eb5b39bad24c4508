import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readCsv, writeCsv } from '../../src/document/csv.ts';
import { holds } from '../support/holds.ts';

test('rows end with CRLF and quotes are doubled, as RFC 4180 section 2 asks', () => {
  expect(
    writeCsv([
      ['aaa', 'b "b", b', 'c\r\nc'],
      [1, -2.5, true],
      [null, '', ' x '],
    ]),
  ).toBe('aaa,"b ""b"", b","c\r\nc"\r\n1,-2.5,true\r\n,," x "\r\n');
});

test('a text that starts a formula is made harmless, whatever stands before it or after it', () => {
  const hostile = [
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '\t=1',
    '\r=1',
    '\n=1',
    ' =1',
    '=HYPERLINK("http://x","y")',
    '=1\n=2',
    '\uFF1D1',
    '\uFEFF=1',
    '\u200B=1',
    '\u00A0=1',
  ];
  for (const text of hostile) {
    const [first] = plainCells(writeCsv([[text, 'x']]));
    expect(first, JSON.stringify(text)).toBe(`'${text}`);
  }
  // A quote in front is text already.
  expect(plainCells(writeCsv([['"=1', 'x']]))[0]).toBe('"=1');
});

test('ordinary names and negative numbers are left as they are', () => {
  expect(writeCsv([["O'Brien", 'Anne-Marie', 'a = b', "'tis", -3]])).toBe(
    "O'Brien,Anne-Marie,a = b,'tis,-3\r\n",
  );
});

test('a number that does not exist is an empty cell', () => {
  expect(writeCsv([[NaN, Infinity, 'x']])).toBe(',,x\r\n');
  expect(writeCsv([])).toBe('');
});

test('what is written is read back exactly, formulas, apostrophes and line breaks among it', () => {
  const nasty = fc.string({
    unit: fc.constantFrom(
      '=',
      '+',
      '-',
      '@',
      "'",
      '"',
      ',',
      '\n',
      '\r',
      '\t',
      ' ',
      'a',
      '1',
      '\uFEFF',
      'é',
      '🪵',
    ),
  });
  const row = fc.tuple(fc.constant('x'), nasty, nasty);
  holds(
    fc.property(fc.array(row, { minLength: 1 }), (rows) => {
      expect(readCsv(writeCsv(rows))).toEqual(rows);
    }),
    { numRuns: 500 },
  );
});

/**
 * A reader of our own, a state machine after the grammar of RFC 4180: the cells of the only row, nothing
 * taken off.
 */
function plainCells(csv: string): string[] {
  const cells = [''];
  let quoted = false;
  for (let at = 0; at < csv.length - 2; at += 1) {
    const character = csv[at]!;
    if (character === '"' && quoted && csv[at + 1] === '"') {
      cells[cells.length - 1] += '"';
      at += 1;
    } else if (character === '"') quoted = !quoted;
    else if (character === ',' && !quoted) cells.push('');
    else cells[cells.length - 1] += character;
  }
  return cells;
}

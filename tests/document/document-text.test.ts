/** Pages as plain text: widths, breaks, columns. */
import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { toText, wrapText } from '../../src/document/document-text.ts';
import { cleaned, type Block } from '../../src/document/document.ts';
import { holds } from '../support/holds.ts';

import { everywhere, HOSTILE, page, svg, table } from './pages.ts';

describe('as plain text', () => {
  test('a table is aligned and figures stand to the right', () => {
    expect(toText({ title: 'x', blocks: [table] })).toBe(
      [
        'Options',
        'Option                              Good units   Price',
        '----------------------------------  ----------  ------',
        'Two sets                                  19.6      $0',
        'Three sets                                22.7  $1,800',
        'Four sets, and somebody to unclamp        23.0     −$5',
        '',
      ].join('\n'),
    );
  });

  test('blocks are set apart and further lines hang under the first', () => {
    expect(
      toText(
        {
          title: 'x',
          blocks: [
            { kind: 'heading', level: 2, text: 'What' },
            { kind: 'note', text: 'one two three four five' },
            { kind: 'list', ordered: true, items: ['six seven eight nine ten', 'x'] },
            { kind: 'facts', facts: [{ name: 'Seed', value: 's' }] },
            { kind: 'picture', svg, description: 'steps' },
          ],
        },
        20,
      ),
    ).toBe(
      'What\n----\n\n! one two three four\n  five\n\n1. six seven eight\n   nine ten\n2. x\n\nSeed: s\n\nPicture: steps\n',
    );
  });

  test('wide letters count two columns', () => {
    const text = toText({
      title: 'x',
      blocks: [
        {
          kind: 'table',
          head: ['名前', 'n'],
          rows: [
            ['木工', '1'],
            ['Bo', '22'],
          ],
        },
      ],
    });
    expect(text).toBe('名前   n\n----  --\n木工   1\nBo    22\n');
  });

  test('a table too wide is squeezed, and one far too wide is written a cell a line', () => {
    const squeezed = toText(
      {
        title: 'x',
        blocks: [{ kind: 'table', head: ['what', 'n'], rows: [['one two three four five six', '1']] }],
      },
      20,
    );
    expect(squeezed.split('\n')).toEqual([
      'what               n',
      '-----------------  -',
      'one two three      1',
      'four five six',
      '',
    ]);
    const head = Array.from({ length: 12 }, (_, index) => `column${index}`);
    expect(
      toText({ title: 'x', blocks: [{ kind: 'table', head, rows: [head, head] }] }, 40)
        .split('\n')
        .slice(0, 2),
    ).toEqual(['column0: column0', 'column1: column1']);
  });

  test('no line is wider than the page, whatever stands in it, and nothing is lost but blanks', () => {
    const word = fc.string({
      unit: fc.constantFrom('a', 'b', ' ', 'é', '木', '🪵', '-', 'W'),
      maxLength: 60,
    });
    holds(
      fc.property(
        word,
        fc.array(fc.array(word, { minLength: 5, maxLength: 5 }), { maxLength: 4 }),
        fc.integer({ min: 20, max: 100 }),
        (text, rows, width) => {
          const blocks: Block[] = [
            ...everywhere(text).blocks,
            { kind: 'table', head: ['a', 'b', 'c', text, 'e'], rows },
          ];
          for (const line of toText({ title: 'x', blocks }, width).split('\n'))
            expect(stringWidth(line)).toBeLessThanOrEqual(width);
          expect(wrapText(text, width).join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        },
      ),
    );
    for (const name of HOSTILE)
      for (const line of toText(everywhere(name), 24).split('\n'))
        expect(stringWidth(line)).toBeLessThanOrEqual(24);
  });

  test('sends nothing to a terminal but letters', () => {
    expect(toText(everywhere('\u001B[2J\u009B31m\u0007red\u202E'))).not.toMatch(
      // eslint-disable-next-line no-control-regex
      /[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202E]/,
    );
  });

  test('a page narrower than 20 columns is refused', () => {
    expect(() => toText(page, 19)).toThrow('a page needs at least 20 columns, not 19');
  });
});

describe('words that belong together', () => {
  test('stay on one line and the blanks around them are one', () => {
    const breaks = '06:00\u00a0(10\u00a0min), \n\t 10:30\u00a0(30\u00a0min)';
    expect(cleaned(breaks)).toBe('06:00\u00a0(10\u00a0min), 10:30\u00a0(30\u00a0min)');
    expect(wrapText(breaks, 22)).toEqual(['06:00\u00a0(10\u00a0min),', '10:30\u00a0(30\u00a0min)']);
  });
});

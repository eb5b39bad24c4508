/** Pages to be written: a usual one, and one with a name wherever a name can stand. */
import type { Block, Page } from '../../src/document/document.ts';

export const svg =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 800 300"><rect width="10" height="10" fill="url(#hatch)"/><text>a &lt; b onload=</text></svg>';
export const table: Block = {
  kind: 'table',
  caption: 'Options',
  head: ['Option', 'Good units', 'Price'],
  rows: [
    ['Two sets', '19.6', '$0'],
    ['Three sets', '22.7', '$1,800'],
    ['Four sets, and somebody to unclamp', '23.0', '−$5'],
  ],
};
export const page: Page = {
  title: 'A third clamp set',
  blocks: [
    { kind: 'heading', level: 1, text: 'A third clamp set adds 3.1 units a shift (2.8 to 3.4).' },
    { kind: 'paragraph', text: 'Nine shifts in ten make 18.' },
    { kind: 'picture', svg, description: 'A staircase from 32 to 19.6.', file: 'stair case.svg' },
    { kind: 'heading', level: 2, text: 'What it costs' },
    table,
    { kind: 'list', items: ['cure 30 min', 'nobody out'] },
    { kind: 'list', ordered: true, items: ['first'] },
    { kind: 'facts', facts: [{ name: 'Seed', value: 'clampwright' }] },
    { kind: 'note', text: 'A forecast, not a promise.' },
  ],
};
/** The same name wherever a name can stand. */
export const everywhere = (name: string): Page => ({
  title: name,
  blocks: [
    { kind: 'heading', level: 1, text: name },
    { kind: 'paragraph', text: name },
    { kind: 'picture', svg, description: name },
    {
      kind: 'table',
      caption: name,
      head: [name, 'b'],
      rows: [
        [name, '1'],
        ['c', name],
      ],
    },
    { kind: 'list', items: [name] },
    { kind: 'facts', facts: [{ name, value: name }] },
    { kind: 'note', text: name },
  ],
});
export const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style><b>',
  '&lt;b&gt;',
  '<!-- x',
  ']]>',
  '</title><i>',
  '[a](javascript:alert(1))',
  '![a](http://x/y.png)',
  '| a | b |',
  '`code`',
  '**bold** _it_ ~~gone~~',
  '# no heading',
  '- no list',
  '1. no list',
  '> no quote',
  '---',
  '===',
  'http://example.com',
  'www.example.com',
  'me@example.com',
  'line\nbreak',
  '\\',
  'a\u202Egnp.exe',
  '\u001B[31mred',
  '+ plus',
  '12) no list',
  '&amp;',
];

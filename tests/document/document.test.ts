/**
 * Pages are read back by readers that have nothing to do with the writers: parse5 for HTML, marked for
 * Markdown.
 */
import fc from 'fast-check';
import { Marked } from 'marked';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { toHtml } from '../../src/document/document-html.ts';
import type { Face } from '../../src/document/faces.ts';
import { escapeMarkdown, toMarkdown } from '../../src/document/document-markdown.ts';
import { toText, wrapText } from '../../src/document/document-text.ts';
import { cleaned, type Block, type Page } from '../../src/document/document.ts';
import { holds } from '../support/holds.ts';

const svg =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 800 300"><rect width="10" height="10" fill="url(#hatch)"/><text>a &lt; b onload=</text></svg>';
const table: Block = {
  kind: 'table',
  caption: 'Options',
  head: ['Option', 'Good units', 'Price'],
  rows: [
    ['Two sets', '19.6', '$0'],
    ['Three sets', '22.7', '$1,800'],
    ['Four sets, and somebody to unclamp', '23.0', '−$5'],
  ],
};
const page: Page = {
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
const everywhere = (name: string): Page => ({
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
const HOSTILE = [
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

describe('as HTML', () => {
  test('a page has its parts in order', () => {
    const names = elements(toHtml(page))
      .map((one) => one.tagName)
      .filter(
        (name) => !['html', 'head', 'meta', 'body', 'main', 'div', 'tr', 'td', 'th', 'li'].includes(name),
      );
    expect(names).toEqual([
      'title',
      'style',
      'h1',
      'p',
      'figure',
      'svg',
      'rect',
      'text',
      'h2',
      'table',
      'caption',
      'thead',
      'tbody',
      'ul',
      'ol',
      'dl',
      'dt',
      'dd',
      'p',
    ]);
  });

  test('a hostile name is text and makes no element, no attribute and no link', () => {
    const shape = (name: string): string[] =>
      elements(toHtml(everywhere(name))).map(
        (one) => `${one.tagName} ${one.attrs.map((attribute) => attribute.name).join(' ')}`,
      );
    const harmless = shape('Orla');
    for (const name of HOSTILE) {
      expect(shape(name), name).toEqual(harmless);
      const parsed = elements(toHtml(everywhere(name)));
      for (const tag of ['title', 'h1', 'caption', 'li', 'dt', 'dd'])
        expect(textOf(parsed.find((one) => one.tagName === tag)!), name).toBe(cleaned(name));
    }
  });

  test('figures stand to the right', () => {
    const cells = elements(toHtml(page))
      .filter((one) => one.tagName === 'td')
      .slice(0, 3);
    expect(cells.map((one) => one.attrs.map((attribute) => attribute.value).join())).toEqual([
      '',
      'right',
      'right',
    ]);
  });

  test('fetches nothing and runs nothing', () => {
    const html = toHtml(page);
    expect(html).toContain("default-src 'none'");
    expect(html).not.toMatch(/<link|<script|src=|@import|url\((?!#)/);
  });

  test('carries the typefaces that its letters are in, and no other', () => {
    const face = (family: string, range: string): Face => ({
      family,
      weights: '400 900',
      range,
      data: `data:font/woff2;base64,${family[0]!}${range.length}`,
    });
    const faces = [
      face('Vollkorn', 'U+0000-00FF, U+20AC'),
      face('Vollkorn', 'U+0100-02BA'),
      face('Public Sans', 'U+0000-00FF'),
    ];
    const of = (text: string, ...more: Block[]): string[] => {
      const html = toHtml({ title: text, blocks: [{ kind: 'heading', level: 1, text }, ...more] }, { faces });
      return [...html.matchAll(/base64,(\w+)/g)].map(([, data]) => data!);
    };
    expect(of('Jelle glues')).toEqual(['V19']);
    expect(of('Kofi and Przemysław, 3 €')).toEqual(['V19', 'V11']);
    expect(of('Kofi', { kind: 'picture', svg: '<svg></svg>', description: 'x' })).toEqual(['V19', 'P11']);
    expect(toHtml(page)).not.toContain('@font-face');
  });

  test('is set for the paper asked for, and smaller where there is more of it', () => {
    expect(toHtml(page, { paper: 'A4' })).toContain('size: A4 portrait');
    expect(toHtml(page, { paper: 'Letter', language: 'en-US' })).toMatch(
      /<html lang="en-US">[\s\S]*size: Letter portrait/,
    );
    expect(toHtml(page)).not.toMatch(/@page[^}]*size/);
    const sizeOf = (one: Page): number => Number(/font: ([\d.]+)pt/.exec(toHtml(one))![1]);
    const long: Page = {
      ...page,
      blocks: [
        ...page.blocks,
        ...Array.from({ length: 30 }, (): Block => ({ kind: 'paragraph', text: 'word '.repeat(20) })),
      ],
    };
    expect(sizeOf(page)).toBe(11);
    expect(sizeOf(long)).toBeLessThan(11);
  });

  test('lets a picture in only as a drawing', () => {
    const refused = [
      '<svg><script>alert(1)</script></svg>',
      '<svg onload="alert(1)"></svg>',
      '<svg/onload=alert(1)></svg>',
      '<svg><a href="http://x"><text>x</text></a></svg>',
      '<svg><use href="http://x#y"/></svg>',
      '<svg><use xlink:href="data:x"/></svg>',
      '<svg><foreignObject></foreignObject></svg>',
      '<p>x</p>',
      '<svg></svg><p>',
      '<svg><rect style="fill:url(http://x)"/></svg>',
      '<svg><style>@import "x";</style></svg>',
      '<svg><!-- x --></svg>',
      '<svg><image href="#a"/></svg>',
      '<svg><rect title=">" onclick="x"/></svg>',
      '<svg><animate attributeName="x"/></svg>',
    ];
    for (const bad of refused) {
      expect(
        () => toHtml({ title: 'x', blocks: [{ kind: 'picture', svg: bad, description: 'x' }] }),
        bad,
      ).toThrow('a picture on a page may only be a drawing');
    }
  });
});

describe('as Markdown', () => {
  const read = (text: string): string => new Marked({ gfm: true, async: false }).parse(text) as string;

  test('a page reads back as it was', () => {
    const html = read(toMarkdown(page));
    const shape = elements(html)
      .map((one) => one.tagName)
      .filter((name) => !['html', 'head', 'body', 'thead', 'tbody', 'tr'].includes(name))
      .join(' ');
    expect(shape).toBe(
      'h1 p p img h2 p table th th th td td td td td td td td td ul li li ol li ul li strong blockquote p',
    );
    expect(elements(html).find((one) => one.tagName === 'img')!.attrs).toEqual([
      { name: 'src', value: 'stair%20case.svg' },
      { name: 'alt', value: 'A staircase from 32 to 19.6.' },
    ]);
    expect(elements(html).filter((one) => one.tagName === 'td')[1]!.attrs).toEqual([
      { name: 'align', value: 'right' },
    ]);
  });

  test('a hostile name stays text in every place', () => {
    const shape = (name: string): string =>
      elements(read(toMarkdown(everywhere(name))))
        .map((one) => one.tagName)
        .join(' ');
    const harmless = shape('Orla');
    for (const name of HOSTILE) {
      expect(shape(name), name).toBe(harmless);
      const parsed = elements(read(toMarkdown(everywhere(name))));
      for (const tag of ['h1', 'th', 'li'])
        expect(textOf(parsed.find((one) => one.tagName === tag)!).trim(), name).toBe(cleaned(name));
    }
  });

  test('any text in a paragraph is read as that text', () => {
    const signs = fc.string({
      unit: fc.constantFrom('a', '1', ' ', ...'\\`*_{}[]()<>#+-.!|~&;:/@="\'$%^,?'),
      minLength: 1,
      maxLength: 30,
    });
    holds(
      fc.property(
        signs.filter((text) => cleaned(text) !== ''),
        (text) => {
          const parsed = elements(read(`${escapeMarkdown(text)}\n`)).filter(
            (one) => !['html', 'head', 'body'].includes(one.tagName),
          );
          expect(parsed.map((one) => one.tagName)).toEqual(['p']);
          expect(textOf(parsed[0]!).trim()).toBe(cleaned(text));
        },
      ),
      { numRuns: 2000 },
    );
  });
});

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

type Element = DefaultTreeAdapterTypes.Element;

function elements(html: string): Element[] {
  const walk = (node: DefaultTreeAdapterTypes.Node): Element[] => [
    ...('tagName' in node ? [node] : []),
    ...('childNodes' in node ? node.childNodes.flatMap(walk) : []),
  ];
  return walk(parse(html));
}

const textOf = (node: DefaultTreeAdapterTypes.Node): string =>
  'value' in node ? node.value : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';

describe('words that belong together', () => {
  test('stay on one line and the blanks around them are one', () => {
    const breaks = '06:00\u00a0(10\u00a0min), \n\t 10:30\u00a0(30\u00a0min)';
    expect(cleaned(breaks)).toBe('06:00\u00a0(10\u00a0min), 10:30\u00a0(30\u00a0min)');
    expect(wrapText(breaks, 22)).toEqual(['06:00\u00a0(10\u00a0min),', '10:30\u00a0(30\u00a0min)']);
  });
});

/**
 * Pages are read back by readers that have nothing to do with the writers: parse5 for HTML, marked for
 * Markdown.
 */
import fc from 'fast-check';
import { Marked } from 'marked';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import { describe, expect, test } from 'vitest';
import { toHtml } from '../../src/document/document-html.ts';
import type { Face } from '../../src/document/faces.ts';
import { escapeMarkdown, toMarkdown } from '../../src/document/document-markdown.ts';
import { cleaned, type Block, type Page } from '../../src/document/document.ts';
import { holds } from '../support/holds.ts';

import { everywhere, HOSTILE, page } from './pages.ts';

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

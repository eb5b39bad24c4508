import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { buildBrief, picturesOf, type BriefData } from '../../../src/report/brief.ts';
import { toHtml } from '../../../src/document/document-html.ts';
import { toMarkdown } from '../../../src/document/document-markdown.ts';
import { toText } from '../../../src/document/document-text.ts';
import { cautionsFor } from '../../../src/scenario/cautions.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { again, briefOf, chairs, clampBrief, textOf } from './support.ts';

type Element = DefaultTreeAdapterTypes.Element;

function elements(html: string): Element[] {
  const found: Element[] = [];
  const walk = (node: DefaultTreeAdapterTypes.Node): void => {
    if ('tagName' in node) found.push(node);
    if ('childNodes' in node) node.childNodes.forEach(walk);
  };
  walk(parse(html));
  return found;
}

const page = async (more: { title?: string; notes?: string } = {}) =>
  buildBrief({ scenario: chairs, data: await clampBrief(), again, ...more });

describe('the page', () => {
  test('has everything it owes: question, answer, picture, cost, how sure, what would change it, what is taken for granted, cautions, and how to get it again', async () => {
    const text = textOf(await clampBrief());
    for (const part of [
      'What does a third clamp set do at Chair works',
      'A third clamp set adds',
      'the most this crew and gear could make with nobody ever waiting',
      'What it costs, when it pays back',
      'Pays back:',
      'Worth today:',
      'How sure',
      'From 40 shifts of each choice',
      'What would change the answer',
      'Taken for granted',
      'The shop is invented',
      'Cautions',
      'The same numbers again: file chair-works.json, seed “clampwright”, 40 shifts of each choice, clampwright 1.2.3',
    ])
      expect(text).toContain(part);
    for (const caution of cautionsFor(chairs)) expect(text).toContain(caution.text);
  });

  test('is the same from the same numbers, and from numbers that were saved and read again', async () => {
    const data = await clampBrief();
    const read = JSON.parse(JSON.stringify(data)) as BriefData;
    expect(buildBrief({ scenario: chairs, data: read, again })).toEqual(
      buildBrief({ scenario: chairs, data, again }),
    );
  });

  test("takes a title and notes of one's own, and keeps the question", async () => {
    const text = textOf(await clampBrief(), chairs, {
      title: 'For Monday',
      notes: 'Ask the maker.\n\nRoom by the door.',
    });
    expect(text).toMatch(/^For Monday\s+The question: What does a third clamp set do/);
    expect(text).toMatch(/Notes -----\s+Ask the maker\.\s+Room by the door\./);
    expect((await page({ title: 'For Monday' })).title).toBe('For Monday');
    expect((await page({ title: '  ' })).title).toMatch(/^What does a third clamp set do/);
  });

  test('fits 100 columns as text and is whole as Markdown', async () => {
    expect(
      Math.max(
        ...toText(await page())
          .split('\n')
          .map((line) => stringWidth(line)),
      ),
    ).toBeLessThanOrEqual(100);
    expect(toMarkdown(await page())).toMatch(/^# A third clamp set adds/m);
  });

  test('has its pictures as drawings that stand alone', async () => {
    const files = (
      await Promise.all([
        clampBrief(),
        briefOf({ kind: 'options', ids: ['third-set', 'fourth-set', 'cold-shop'] }),
      ])
    ).flatMap((data) => picturesOf(buildBrief({ scenario: chairs, data, again })));
    expect(files.map(({ file }) => file)).toEqual(['staircase.svg', 'choices.svg']);
    for (const { svg, description } of files) {
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" viewBox="0 0 960 \d+"/);
      expect(svg).toMatch(/<title [^>]*>[^<]+<\/title><desc [^>]*>[^<]+<\/desc>/);
      expect(svg).not.toMatch(/NaN|undefined/);
      expect(description.length).toBeGreaterThan(40);
    }
  });

  test('says in the HTML that nothing is fetched, and holds no script', async () => {
    const html = toHtml(await page());
    expect(html).toMatch(/default-src 'none'/);
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(
      /<script|https?:|@import|url\((?!#)/,
    );
  });
});

const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  '</title><b>',
  '</svg><iframe>',
  '&lt;b&gt;',
  ']]>',
  "' onload='x",
];

/** The demo with a name wherever a person may type one. */
function named(name: string): Scenario {
  const scenario = structuredClone(chairs);
  scenario.name = name;
  for (const step of Object.values(scenario.steps)) step.name = name;
  for (const person of Object.values(scenario.people)) person.name = name;
  scenario.gear!['clamp']!.name = name;
  for (const option of Object.values(scenario.options!)) option.name = name;
  scenario.money!.currency = name.slice(0, 8);
  return scenario;
}

/** Every text of the answer that came from the file, replaced. */
const renamed = (data: BriefData, name: string): BriefData =>
  JSON.parse(JSON.stringify(data), (key, value: unknown) =>
    (key === 'name' || key === 'constraint') && typeof value === 'string'
      ? name
      : key === 'words'
        ? `${name} 10% slower`
        : value,
  ) as BriefData;

describe('a name from a stranger', () => {
  test.each(HOSTILE)('is text wherever it stands on the page: %s', async (name) => {
    for (const question of [
      await clampBrief(),
      await briefOf({ kind: 'options', ids: ['third-set', 'fourth-set', 'cold-shop'] }),
    ]) {
      const html = toHtml(
        buildBrief({
          scenario: named(name),
          data: renamed(question, name),
          title: name,
          notes: name,
          again: { ...again, file: name, seed: name, command: name },
        }),
      );
      const tags = new Set(elements(html).map(({ tagName }) => tagName));
      for (const tag of ['script', 'img', 'iframe', 'b']) expect(tags, name).not.toContain(tag);
      expect(
        elements(html)
          .flatMap(({ attrs }) => attrs.map((attribute) => attribute.name))
          .filter((attribute) => attribute.startsWith('on')),
      ).toEqual([]);
    }
  });
});

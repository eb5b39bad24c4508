/** The brief as it comes out of the printer: one page on either paper, nothing cut off at the side. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Browser } from 'playwright-core';
import { buildBrief, makeBrief, type BriefQuestion } from '../../src/report/brief.ts';
import { printSize, toHtml } from '../../src/document/document-html.ts';
import { LEGIBLE, onOneSheet } from '../../src/document/one-sheet.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { wallHtml } from '../../src/report/wall-sheet.ts';
import { cautionsFor } from '../../src/scenario/cautions.ts';
import { crewSheet } from '../support/crews.ts';
import { shop, SHOPS } from '../support/shops.ts';
import { openBrowser } from './support.ts';

const chairs = JSON.parse(
  readFileSync(new URL('../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Scenario;
const QUESTIONS: [string, () => Scenario, BriefQuestion][] = [
  ['the clamp question', () => chairs, { kind: 'one more', gear: 'clamp' }],
  [
    'four options',
    () => chairs,
    { kind: 'options', ids: ['third-set', 'fourth-set', 'second-fitter', 'fitter-unclamps'] },
  ],
  ['the limits', () => chairs, { kind: 'limits' }],
  [
    'eight options of twelve people',
    () => crowd,
    { kind: 'options', ids: [3, 4, 5, 6, 7, 8, 9, 10].map((count) => `sets${count}`) },
  ],
];

/** Twelve people, under names of the shops of the tests, and eight options. */
const crowd: Scenario = {
  ...chairs,
  people: {
    ...chairs.people,
    ...Object.fromEntries(
      SHOPS.flatMap((name) => Object.values(shop(name).people))
        .slice(0, 12 - Object.keys(chairs.people).length)
        .map(({ name }, i) => [`other${i}`, { ...chairs.people['ines']!, name }]),
    ),
  },
  options: Object.fromEntries(
    [3, 4, 5, 6, 7, 8, 9, 10].map((count) => [
      `sets${count}`,
      {
        name: `${count} clamp sets, and hooks on the wall for all`,
        price: 1800 * (count - 2),
        changes: { gear: { clamp: { count } } },
      },
    ]),
  ),
};

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Pages of a PDF: each has an object of its own kind. */
const pagesOf = (pdf: Buffer): number =>
  [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;

describe.each(QUESTIONS)('the brief on %s', (_, cell, question) => {
  let html = '';
  let size = 0;
  beforeAll(async () => {
    const scenario = cell();
    const data = await makeBrief(scenario, question, inLineRunner(), {
      asked: { count: 30 },
      moved: { first: 10, most: 10 },
      ledger: { count: 2 },
    });
    const again = {
      file: 'scenarios/chair-works.json',
      version: '0.1.0',
      seed: 'clampwright',
      command: 'clampwright brief scenarios/chair-works.json --seed clampwright --count 40',
    };
    const sheet = onOneSheet(
      buildBrief({
        scenario,
        data,
        again,
        notes: 'The maker quotes two weeks. The floor by the door is free.',
      }),
    );
    size = printSize(sheet);
    html = toHtml(sheet);
  });

  test.each(['A4', 'Letter'] as const)('prints on one page of %s, in color and without', async (format) => {
    const page = await browser.newPage();
    await page.setContent(html);
    for (const printBackground of [true, false]) {
      expect(pagesOf(await page.pdf({ format, printBackground, preferCSSPageSize: false }))).toBe(1);
    }
    await page.close();
  });

  test('is set no smaller than can be read', () => {
    expect(size).toBeGreaterThanOrEqual(LEGIBLE);
  });

  test('nothing runs over the side on paper or on a narrow screen', async () => {
    const page = await browser.newPage({ viewport: { width: 703, height: 960 } });
    await page.setContent(html);
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(703);
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.close();
  });

  test('a longer page than one is told from one', async () => {
    const page = await browser.newPage();
    await page.setContent(html.replace('</main>', `${'<p>And another line.</p>'.repeat(80)}</main>`));
    expect(pagesOf(await page.pdf({ format: 'A4' }))).toBeGreaterThan(1);
    await page.close();
  });
});

describe('the sheet for the wall', () => {
  test.each([
    ['stair-parts', 12, 'A4'],
    ['frame-works', 20, 'Letter'],
    ['frame-works', 20, 'A4'],
  ] as const)('of %s for %d prints on one page of %s', async (name, count, paper) => {
    const sheet = crewSheet(shop(name), count);
    const answer = [
      'The 19 pieces due are made in 93 shifts of a hundred (91 to 95), sure enough for the 90% asked for.',
    ];
    const html = wallHtml(
      { sheet, day: 'Tuesday 3 March 2026', answer, cautions: cautionsFor(shop(name)) },
      { paper },
    );
    const page = await browser.newPage();
    await page.setContent(html);
    expect(pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: false }))).toBe(1);
    await page.close();
  });
});

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
import { FACES } from '../../src/cli/typefaces.ts';
import { openDay } from '../../src/staffing/question.ts';
import { sheetOf } from '../../src/staffing/sheet.ts';
import { baseCase, settingsOf } from '../../src/study/from-scenario.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { crewSheet, crowded } from '../support/crews.ts';
import { shop, SHOPS } from '../support/shops.ts';
import { openBrowser } from './support.ts';

const chairs = JSON.parse(
  readFileSync(new URL('../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Scenario;
const QUESTIONS: [string, () => Scenario, (cell: Scenario) => BriefQuestion | Promise<BriefQuestion>][] = [
  ['the clamp question', () => shop('frame-works'), () => ({ kind: 'one more', gear: 'frame-clamp' })],
  [
    'four options',
    () => chairs,
    () => ({ kind: 'options', ids: ['third-set', 'fourth-set', 'second-fitter', 'fitter-unclamps'] }),
  ],
  ['the limits', () => shop('stair-parts'), () => ({ kind: 'limits' })],
  [
    'eight options of twelve people',
    () => crowd,
    () => ({ kind: 'options', ids: [3, 4, 5, 6, 7, 8, 9, 10].map((count) => `sets${count}`) }),
  ],
  ['a plan for twelve people', () => crowded(shop('drawer-fronts'), 12), planOf],
  ['a plan for twenty people', () => crowded(shop('frame-works'), 20), planOf],
];

/** The file's own posts as a plan, with what else a brief says of one: who leans on whom, what comes next. */
async function planOf(cell: Scenario): Promise<BriefQuestion> {
  const study = summarize(
    await runStudy(
      { cases: [baseCase(cell)], pairs: [], settings: settingsOf(cell), count: 30 },
      inLineRunner(),
    ),
  );
  return {
    kind: 'crew',
    plan: {
      scenario: cell,
      answer: [
        'The chance of 19 is 93% (91% to 95%). That is at least the 90% asked for.',
        'Nine shifts in ten make 18, half make 20, one in ten makes 22.',
      ],
      sheet: sheetOf(openDay({ scenario: cell }), cell),
      result: study.cases[0]!,
      asked: 0.9,
      confidence: study.confidence,
      inputs: study.inputs,
      remarks: [
        'Rut, Oskar, Bea and Nilo do something else than in the file.',
        'Only Vera stands at check; Nilo or Oskar could step in.',
        'From 13:10 to 14:30 nobody who stands at trim is in: what comes there waits.',
        'The runner-up: It lost because it is worth less. It loses 0.4 units a shift (0.2 to 0.6). It saves $12 a shift ($4 to $20). The chance of 19 is 89% (86% to 92%).',
      ],
    },
  };
}

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

describe.each(QUESTIONS)('the brief on %s', (_, cell, questionOf) => {
  let html = '';
  let size = 0;
  beforeAll(async () => {
    const scenario = cell();
    const data = await makeBrief(scenario, await questionOf(scenario), inLineRunner(), {
      asked: { count: 30 },
      moved: { first: 10, most: 10 },
      ledger: { count: 2 },
    });
    const again = {
      file: 'scenarios/chair-works.json',
      version: '0.1.0',
      seed: 'clampwright',
      command: 'clampwright brief scenarios/chair-works.json --seed clampwright --count 40',
      made: '2027-03-08',
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
    html = toHtml(sheet, { faces: FACES });
  });

  test('prints on one page of either paper, in type that can be read, with its own typefaces', async () => {
    const page = await browser.newPage({ viewport: { width: 703, height: 960 } });
    await page.setContent(html);
    expect(size).toBeGreaterThanOrEqual(LEGIBLE);
    for (const format of ['A4', 'Letter'] as const)
      expect(pagesOf(await page.pdf({ format, printBackground: false, preferCSSPageSize: false }))).toBe(1);
    // Over the side of the paper, or of a narrow screen, hangs nothing.
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(703);
    const faces = await page.evaluate(() =>
      [...document.fonts].map(({ family, status }) => [family, status]),
    );
    expect(faces).toContainEqual(['Vollkorn', 'loaded']);
    expect(faces.filter(([, status]) => status === 'error')).toEqual([]);
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.close();
  });
});

test('a longer page than one is told from one', async () => {
  const page = await browser.newPage();
  await page.setContent('<p>And another line.</p>'.repeat(80));
  expect(pagesOf(await page.pdf({ format: 'A4' }))).toBeGreaterThan(1);
  await page.close();
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
      { paper, faces: FACES },
    );
    const page = await browser.newPage();
    await page.setContent(html);
    expect(pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: false }))).toBe(1);
    await page.close();
  });
});

/** The pages that answer: Compare, Limits and Brief, in a real browser. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { differenceCell } from '../../src/words/study-words.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { comparison } from '../../src/study/from-scenario.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import type { Cells } from '../../web/store/cells.ts';
import {
  asRead,
  axeInBoth,
  openBrowser,
  openCell,
  openPage,
  ROOT,
  serveBuilt,
  soon,
  ticks,
  type Opened,
  type Served,
} from './support.ts';

let browser: Browser;
let served: Served;
let demo: Scenario;

beforeAll(async () => {
  const reading = readScenario(readFileSync(join(ROOT, 'scenarios/chair-works.json'), 'utf8'));
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  demo = reading.scenario;
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const opened = (hash: string): Promise<Opened> => openPage(browser, `${served.url}#/${hash}`);
/** Where it doesn't matter how sure the answer is. */
const openedSoon = (hash: string): Promise<Opened> => openCell(browser, served.url, soon(), hash);

/** The heading, once it says something else than that shifts are being run. */
async function answer(page: Page, wanted: RegExp): Promise<string> {
  const heading = page.getByRole('heading', { level: 1 });
  await heading.filter({ hasText: wanted }).waitFor({ timeout: 120_000 });
  return asRead(await heading.textContent());
}
const over = (page: Page): Promise<void> =>
  page
    .getByText(/From [\d,]+ shifts of each choice/)
    .first()
    .waitFor({ timeout: 120_000 });

interface Inside {
  study: { answer: StudySummary | null; state: { kind: string } };
}
/** What stands behind the page. */
const summaryOf = (page: Page): Promise<StudySummary> =>
  page.evaluate(() => {
    const inside = document
      .querySelector('cw-app')!
      .shadowRoot!.querySelector('cw-compare') as unknown as Inside;
    return inside.study.answer!;
  });

/**
 * From now on the moment after which a value that is tried is kept (web/parts/patience.ts) passes when the
 * test says so, however slow the machine is.
 */
async function holdMoment(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const { setTimeout: usual, clearTimeout: ended } = window;
    let held: (() => void) | null = null;
    const HELD = -1;
    Object.assign(window, {
      setTimeout: (then: () => void, milliseconds?: number, ...given: unknown[]) => {
        if (milliseconds !== 1500) return usual(then, milliseconds, ...given);
        held = then;
        return HELD;
      },
      clearTimeout: (timer?: number) => {
        if (timer === HELD) held = null;
        else ended(timer);
      },
      passMoment: () => held?.(),
    });
  });
  return () => page.evaluate(() => (window as unknown as { passMoment: () => void }).passMoment());
}

describe('Compare', () => {
  test('opens on what a third clamp set does and what then holds the cell back', async () => {
    const { page, context, errors } = await opened('');
    const said = await answer(page, /Then .* holds? you back/);
    expect(said).toMatch(
      /^A third clamp set adds \d\.\d units a shift \(\d\.\d to \d\.\d\)\. Then “fit” \(Orla’s hands and bench\).* holds? you back( alike)?\.$/,
    );
    expect(errors).toEqual([]);
    await context.close();
  });

  test('says to the last bit what a run in line, as on the command line, says', async () => {
    const { page, context } = await opened('compare');
    await over(page);
    const there = await summaryOf(page);
    const request = comparison(
      demo,
      there.cases.slice(1).map(({ id }) => id),
    );
    const here = summarize(await runStudy(request, inLineRunner()));
    expect(there.count).toBe(here.count);
    expect(JSON.stringify(there.pairs)).toBe(JSON.stringify(here.pairs));
    expect(JSON.stringify(there.cases)).toBe(JSON.stringify(here.cases));
    const cell = differenceCell(here.pairs[0]!.good).split(' (')[0]!;
    expect(
      await page
        .getByRole('row', { name: /^A third clamp set/ })
        .first()
        .textContent(),
    ).toContain(cell);
    await context.close();
  });

  test('puts the row that is touched into the heading, and gives picture and figures away', async () => {
    const { page, context, errors } = await openedSoon('compare');
    await over(page);
    await page.locator('cw-compare cw-picture svg [data-row="cold-shop"]').first().click();
    await answer(page, /^A cold shop|^With “A cold shop/);
    await page.getByRole('heading', { name: 'A cold shop: cure 45', exact: true }).waitFor();
    await page.getByText('as a table').first().click();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByRole('button', { name: 'copy the figures' }).first().click();
    await page.getByText(/The figures are copied/).waitFor();
    const cells = (await page.evaluate(() => navigator.clipboard.readText()))
      .split('\n')
      .map((row) => row.split('\t'));
    expect(new Set(cells.map((row) => row.length)).size).toBe(1);
    expect(cells[0]).toContain('Min after the bell: Orla');
    const taken = async (name: string): Promise<Buffer> => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name }).first().click(),
      ]);
      return readFileSync(await download.path());
    };
    const svg = (await taken('picture as SVG')).toString('utf8');
    expect(svg).toContain("@font-face{font-family:'Public Sans'");
    expect(svg).toContain('A third clamp set');
    const png = await taken('picture as PNG');
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    expect(png.readUInt32BE(16)).toBe(1440);
    expect(errors).toEqual([]);
    await context.close();
  });

  test('is used by keyboard alone: another option is made, renamed, changed, removed and brought back', async () => {
    const { page, context } = await openedSoon('compare');
    await answer(page, /adds/);
    await page.getByRole('button', { name: 'something else …' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Kofi out' }).focus();
    await page.keyboard.press('Enter');
    await answer(page, /^With “Kofi out”/);
    await page.getByLabel('Its name').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('Nobody at the second sander');
    await page.keyboard.press('Enter');
    await answer(page, /^With “Nobody at the second sander”/);
    await page.getByRole('group', { name: 'This option' }).getByRole('button', { name: 'remove' }).focus();
    await page.keyboard.press('Enter');
    await answer(page, /^A third clamp set/);
    await page
      .getByRole('button', { name: /^Undo/i })
      .or(page.getByRole('button', { name: 'undo' }))
      .first()
      .focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Show Nobody at the second sander' }).waitFor();
    await context.close();
  });

  test('shows what a press does before it is kept; several presses are one step back, and leaving keeps them at once', async () => {
    const { page, context } = await openedSoon('compare');
    await answer(page, /^A third clamp set adds/);
    const draft = (): Promise<Scenario> =>
      page
        .locator('cw-app')
        .evaluate(
          (app) =>
            (app as unknown as { cells: Cells }).cells.current.get().draft.get() as unknown as Scenario,
        );
    const count = async (): Promise<unknown> => (await draft()).options!['third-set']!.changes;
    const before = await count();
    const passMoment = await holdMoment(page);
    await page.getByText('Clamp sets, benches and racks').click();
    const more = page.getByRole('button', { name: 'clamp set: more' });
    await more.click();
    await page
      .locator('cw-option-editor')
      .getByText(/^\s*Not kept yet: (being tried|With)/)
      .waitFor();
    expect(await count()).toEqual(before);
    await more.click();
    await page
      .locator('cw-option-editor')
      .getByText(/^\s*Not kept yet: With “A third clamp set”, the cell makes/)
      .waitFor();
    expect(await count()).toEqual(before);
    await passMoment();
    await expect.poll(count).toEqual({ gear: { clamp: { count: 5 } } });
    await page.getByRole('button', { name: 'undo', exact: true }).click();
    await expect.poll(count).toEqual(before);
    await more.click();
    await page.getByLabel('Its name').focus();
    expect(await count()).toEqual({ gear: { clamp: { count: 4 } } });
    await page.getByText('People', { exact: true }).click();
    await page.getByRole('checkbox', { name: 'Kofi is in' }).click();
    expect(JSON.stringify(await count())).not.toContain('kofi');
    await page.reload();
    await answer(page, /makes|adds/);
    expect(JSON.stringify(await count())).toContain('"kofi"');
    await context.close();
  });

  test('drops a study under way for a newer question, stops for good when told to, and runs on', async () => {
    const { page, context } = await opened('compare');
    await answer(page, /adds/);
    const precision = page.getByRole('textbox', { name: 'Sure to within' });
    await precision.fill('0.02');
    await precision.press('Enter');
    const stop = page.getByRole('button', { name: 'stop', exact: true });
    await stop.waitFor();
    await page.getByText('Clamp sets, benches and racks').click();
    await page.getByRole('button', { name: 'clamp set: more' }).click();
    await answer(page, /^With “A third clamp set”, the cell makes /);
    await stop.click();
    await page.getByText(/Stopped by hand after/).waitFor();
    const { count } = await summaryOf(page);
    await ticks(page, 6, 100);
    expect((await summaryOf(page)).count).toBe(count);
    await page.getByRole('button', { name: 'run on' }).click();
    await stop.waitFor();
    await context.close();
  });
});

describe('Limits', () => {
  test('sorts one more of each thing by what it buys and says what the constraint becomes', async () => {
    const { page, context, errors } = await opened('limits');
    expect(await answer(page, /holds you back/)).toMatch(
      /^The number of clamp sets holds you back\. One more clamp set adds/,
    );
    await page.getByText(/^\s*With one more clamp set: .* holds? you back/).waitFor({ timeout: 120_000 });
    await page.getByText('as a table').first().click();
    const gains = await page
      .getByRole('region', { name: 'The figures of the picture' })
      .first()
      .getByRole('row')
      .allTextContents();
    expect(gains[1]).toMatch(/one more clamp set/);
    expect(gains.join(' ')).toMatch(/“cure” five minutes shorter, if the data sheet allows/);
    for (const loosened of [
      '“fit” a tenth quicker',
      'one more rack slot before “fit”',
      'half as much sent back to “sand”',
    ])
      expect(gains.join(' ')).toContain(loosened);
    await page
      .locator('svg text', { hasText: /waiting for hands/ })
      .first()
      .waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });
});

describe('Brief', () => {
  test('keeps its title and notes, hands itself on as Markdown, and prints on one sheet', async () => {
    const { page, context, errors } = await openedSoon('brief');
    await answer(page, /^A third clamp set adds/);
    await page.getByLabel('Title').fill('A third set of clamps?');
    await page.getByLabel('Title').press('Enter');
    await page.getByLabel('Notes').fill('Asked by the plant manager.');
    await page.getByLabel('Title').focus();
    await page.getByRole('heading', { name: 'Notes' }).waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'as Markdown' }).click(),
    ]);
    const markdown = readFileSync(await download.path(), 'utf8');
    expect(markdown).toContain('A third set of clamps?');
    expect(markdown).toContain('Asked by the plant manager.');
    const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.reload();
    expect(await page.getByLabel('Notes').inputValue()).toBe('Asked by the plant manager.');
    expect(errors).toEqual([]);
    await context.close();
  });
});

describe('axe finds nothing', () => {
  test.each(['compare', 'limits', 'brief'])('on %s, light and dark', async (name) => {
    const { page, context } = await openedSoon(name);
    await answer(page, /adds/);
    expect(await axeInBoth(page)).toEqual([]);
    await context.close();
  });
});

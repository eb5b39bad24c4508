/** A day lived through the pages: planned on the Friday before, counted three times, handed over, closed. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readBook } from '../../src/book/book.ts';
import { dayOf } from '../../src/book/day.ts';
import type { Entry } from '../../src/book/entry.ts';
import { nowSentences } from '../../src/report/now-page.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { checkNow } from '../../src/today/check-now.ts';
import { forecastNow } from '../../src/today/forecast.ts';
import { countedBefore, countKept } from '../../src/today/kept-counts.ts';
import { openedDay } from '../../src/today/opened-day.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { asRead, axe, openBrowser, openPage, serveBuilt, type Served } from './support.ts';

/** Small, so that its crew is planned in a moment. Invented. */
const BENCH = {
  format: 1,
  name: 'Bench',
  invented: true,
  steps: {
    fit: { time: { quick: 14, usual: 18, slow: 26 } },
    cure: { kind: 'wait', time: 30 },
    clean: { time: { quick: 8, usual: 10, slow: 15 } },
  },
  gear: { clamp: { name: 'clamp set', count: 3 } },
  people: {
    orla: { name: 'Orla', covers: ['fit'], skills: { fit: 3, clean: 3 }, pay: 20 },
    kofi: { name: 'Kofi', covers: ['clean'], skills: { clean: 3 }, pay: 20 },
  },
  shift: { start: '06:00', end: '14:30', target: 18 },
  intake: { kind: 'list', arrivals: [{ at: '06:00', units: 40 }] },
  study: { precision: 1 },
};
const FRIDAY = '2027-03-05';
const MONDAY = '2027-03-08';

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function put(page: Page, label: string, value: string): Promise<void> {
  const field = page.getByRole('textbox', { name: label }).first();
  await field.fill(value);
  await field.press('Enter');
}

async function bring(page: Page, press: string, name: string, text: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: press, exact: true }).click();
  await (await chooser).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
}

const turn = (page: Page, name: string): Promise<void> =>
  page.getByRole('navigation').getByRole('link', { name, exact: true }).click();

/** The clock on the wall: the page looks at it every few seconds. */
const wall = (page: Page, day: string, time: string): Promise<void> =>
  page.clock.setFixedTime(new Date(`${day}T${time}:00`));

/** The book as the page saves it. */
async function bookOf(page: Page): Promise<Entry[]> {
  await turn(page, 'Log');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'save the log' }).click();
  return readBook(readFileSync(await (await download).path())).entries;
}

describe('a day in the book', () => {
  test('is planned, counted, handed over and closed from page to page, with the figures of the command line', async () => {
    const { page, context, errors } = await openPage(browser, `${served.url}#/log`);
    await wall(page, FRIDAY, '13:00');
    await page.reload();
    await bring(page, 'open', 'bench.json', JSON.stringify(BENCH));
    await page.getByRole('button', { name: /^Cell: Bench/ }).waitFor();

    // On the Friday, for the next day that is worked.
    await turn(page, 'Crew');
    await page.getByText('Who stands where on Monday 8 March 2027?').waitFor();
    await page.getByRole('button', { name: 'calendar for Mon 8 March' }).waitFor();
    await page.getByRole('button', { name: 'put it into the day', exact: true }).click();
    await page.getByText('In the book for Monday 8 March 2027 stands a plan').waitFor();

    // On the Monday the day opens with its six lines.
    await wall(page, MONDAY, '09:00');
    await page.goto('about:blank');
    await page.goto(served.url);
    await page
      .getByRole('heading', { level: 1, name: /^Monday 8 March 2027: \d+ good are promised/ })
      .waitFor();
    expect(await page.locator('cw-morning dt').count()).toBe(6);
    expect(await axe(page)).toEqual([]);

    await turn(page, 'Now');
    await page.getByText('The posts are those of the plan of this day.').waitFor();
    for (const [time, good] of [
      ['09:00', '5'],
      ['11:00', '9'],
      ['13:00', '14'],
    ] as const) {
      await wall(page, MONDAY, time);
      // From the second on it begins with what stood there last; the page has seen the clock by then.
      if (time !== '09:00') await page.getByRole('button', { name: `count again: it is ${time}` }).click();
      await put(page, 'good so far', good);
      await put(page, 'before “clean”', '1');
      const keep = page.getByRole('button', { name: `keep the count of ${time}` });
      await keep.click();
      await page.getByText(`${time}: ${good} good, 1 piece in the cell`).waitFor();
    }
    await page.getByText(/missing \(scrapped, or not counted\)/).waitFor();
    const shown = (await page.locator('cw-now p').allTextContents()).map(asRead);

    const book = await bookOf(page);
    expect(dayOf(book, MONDAY).counts.map(({ content }) => content.at)).toEqual(['09:00', '11:00', '13:00']);
    expect(shown).toContain((await forecastOf(book)).join(' '));

    await turn(page, 'Handover');
    await page.getByRole('heading', { level: 1, name: '14 good of the 18 due by 13:00' }).waitFor();
    await page.getByRole('button', { name: 'hand it over', exact: true }).click();
    await page.getByText('Tuesday 9 March 2027 opens with it.').first().waitFor();
    await page.emulateMedia({ media: 'print' });
    const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
    expect([...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)]).toHaveLength(1);
    await page.emulateMedia({ media: 'screen' });

    await turn(page, 'Log');
    await put(page, 'Good units that came', '17');
    await page.getByRole('button', { name: 'close the day' }).click();
    await page.getByText('the result: 17 good').waitFor();
    // Everything can be taken back, and the taking back too.
    await page.getByRole('button', { name: 'Take back: the result: 17 good' }).click();
    await page.getByRole('button', { name: 'close the day' }).waitFor();
    await page.getByRole('button', { name: 'put it back' }).click();
    await page.getByText('the result: 17 good').waitFor();

    // The next day opens with what was handed over, and remembers.
    await wall(page, '2027-03-09', '06:00');
    await page.reload();
    await turn(page, 'Morning');
    await page.getByText('Monday 8 March 2027: 17 good units').waitFor();
    await turn(page, 'Replay');
    await page.getByText('opening with what Monday 8 March 2027 handed over').waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });
});

/** What the command line says of the last count, in its words. */
async function forecastOf(book: Entry[]): Promise<string[]> {
  const reading = readScenario(JSON.stringify(BENCH));
  if (reading.kind === 'wrong') throw new Error('the bench cannot be run');
  const filed: Scenario = reading.scenario;
  const opened = openedDay(filed, book, MONDAY);
  const checked = checkNow(opened.scenario, countKept(opened.view.counts.at(-1)!.content));
  if (checked.kind === 'wrong') throw new Error(checked.faults.join(' '));
  const earlier = countedBefore(opened.scenario, opened);
  return nowSentences(
    await forecastNow(opened.scenario, checked.now, inLineRunner(), undefined, 400, earlier),
  );
}

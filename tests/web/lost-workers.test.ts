/**
 * What a visitor sees when a worker of the page is killed or hangs: it is said, another takes its place, and
 * the answer comes all the same.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, test } from 'vitest';
import { openBrowser, openContext, serveBuilt, type Served } from './support.ts';

let browser: Browser;
let served: Served;

beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

interface Loss {
  /** A part of the worker's address. */
  of: string;
  /** `killed`: as by the system, without a word. `error`: with an event, as where memory runs out. */
  how: 'killed' | 'error';
  /** So many of them, the first ones. */
  many: number;
}

/** The browser itself loses workers: the page's own code is untouched. */
async function openLosing(hash: string, loss: Loss): Promise<{ page: Page; context: BrowserContext }> {
  const context = await openContext(browser, { serviceWorkers: 'block' });
  await context.addInitScript(({ of, how, many }: Loss) => {
    let left = many;
    window.Worker = class extends Worker {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        if (!String(url).includes(of) || left === 0) return;
        left -= 1;
        this.terminate();
        if (how === 'error')
          setTimeout(() => this.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' })), 50);
      }
    };
  }, loss);
  const page = await context.newPage();
  await page.goto(`${served.url}#/${hash}`);
  return { page, context };
}

const heading = (page: Page, words: RegExp): Promise<void> =>
  page.getByRole('heading', { level: 1 }).filter({ hasText: words }).waitFor({ timeout: 90_000 });

describe('A worker that is lost', () => {
  test('is noticed by its silence, said and replaced while a study runs, and the answer is the usual one', async () => {
    const { page, context } = await openLosing('compare', { of: 'study-worker', how: 'killed', many: 1 });
    await page
      .getByText(/A worker gave no sign of life for 20 s\. Another has taken its place/)
      .waitFor({ timeout: 60_000 });
    await heading(page, /^A third clamp set adds \d\.\d units a shift/);
    await page
      .getByText(/From [\d,]+ shifts of each choice/)
      .first()
      .waitFor({ timeout: 90_000 });
    await context.close();
  });

  test('that writes down a shift is replaced too, and the shift is shown', async () => {
    const { page, context } = await openLosing('replay', { of: 'replay-worker', how: 'error', many: 1 });
    await page
      .getByText(/A worker ended: out of memory\. Another has taken its place/)
      .waitFor({ timeout: 60_000 });
    await heading(page, /good pieces? by/);
    await context.close();
  });

  test('twice in a row with the same shift is said for what it is, and asked again when the visitor wants it', async () => {
    const { page, context } = await openLosing('replay', { of: 'replay-worker', how: 'error', many: 2 });
    await page
      .getByText(
        /This could not be worked out: 2 workers in a row were lost with it; the last one ended: out of memory\./,
      )
      .waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'run it again' }).click();
    await heading(page, /good pieces? by/);
    await context.close();
  });
});

describe('A long list of times', () => {
  const steps = ['stage', 'fit', 'glue', 'unclamp', 'clean', 'sand', 'check'];
  const ROWS = 140_000;
  const list = `step,minutes\n${Array.from({ length: ROWS }, (_, i) => `${steps[i % steps.length]},${(5 + ((i * 7919) % 997) / 100).toFixed(2)}`).join('\n')}\n`;

  test('is read in a worker that tells how far it has come, can be stopped, and begins again', async () => {
    const context = await openContext(browser, { serviceWorkers: 'block' });
    const page = await context.newPage();
    await page.goto(`${served.url}#/times`);
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'open a list (CSV)' }).click();
    await (await chooser).setFiles({ name: 'times.csv', mimeType: 'text/csv', buffer: Buffer.from(list) });
    await page
      .getByText(/^\s*(Reading the rows|140,000 rows; reading what they say|Fitting curves)/)
      .first()
      .waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'stop', exact: true }).click();
    await page.getByText('Stopped: the list was not read to its end.').waitFor();
    await page.getByRole('button', { name: 'read it', exact: true }).click();
    await page
      .getByText(/^\s*Fitting curves: \d of 7 places of the work done\./)
      .waitFor({ timeout: 90_000 });
    await heading(page, /^140,000 times for 7 places of the work/);
    await page.getByRole('heading', { name: 'The times and the curve' }).waitFor();
    await context.close();
  });
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Cells } from '../../web/store/cells.ts';
import { shareHash } from '../../web/store/share.ts';
import { openBrowser, openContext, openPage, ROOT, serveBuilt, type Served } from './support.ts';

let browser: Browser;
let served: Served;
let context: BrowserContext;
let page: Page;

const ready = (one: Page): Promise<unknown> => one.locator('cw-shell nav').waitFor({ state: 'attached' });
const name = (one: Page): Promise<string> =>
  one.locator('cw-app').evaluate((app) => (app as unknown as { cells: Cells }).cells.current.get().name);
const rename = (one: Page, to: string): Promise<void> =>
  one
    .locator('cw-app')
    .evaluate(
      (app, wanted) =>
        (app as unknown as { cells: Cells }).cells.current.get().change('renamed', ['name'], wanted),
      to,
    );
const kept = (one: Page): Promise<string> =>
  one
    .locator('cw-app')
    .evaluate((app) => (app as unknown as { cells: Cells }).cells.keeper.get().kept.get().kind);

beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});
beforeEach(async () => {
  ({ page, context } = await openPage(browser, served.url));
  await ready(page);
  return () => context.close();
});

describe('the cells of a browser', () => {
  test('begin with the demo shop', async () => {
    const demo = JSON.parse(readFileSync(join(ROOT, 'scenarios/chair-works.json'), 'utf8')) as {
      name: string;
    };
    expect(await name(page)).toBe(demo.name);
  });

  test('are as they were after a reload, with the way back', async () => {
    await rename(page, 'ours');
    await expect.poll(() => kept(page)).toBe('kept');
    await page.reload();
    await ready(page);
    expect(await name(page)).toBe('ours');
    await page.keyboard.press('Control+z');
    expect(await name(page)).not.toBe('ours');
    await page.keyboard.press('Control+Shift+Z');
    expect(await name(page)).toBe('ours');
  });

  test('lose nothing when the page goes in the very moment of a change', async () => {
    await page.locator('cw-app').evaluate((app) => {
      const { cells } = app as unknown as { cells: Cells };
      cells.current.get().change('renamed', ['name'], 'at the last moment');
      cells.current.get().setTyped(['shift', 'start'], 'six o');
      location.reload();
    });
    await page.waitForEvent('load');
    await ready(page);
    expect(await name(page)).toBe('at the last moment');
    expect(
      await page
        .locator('cw-app')
        .evaluate((app) =>
          (app as unknown as { cells: Cells }).cells.current.get().typedAt(['shift', 'start']),
        ),
    ).toBe('six o');
  });

  test('lose nothing when the page crashes', async () => {
    await rename(page, 'before the crash');
    const crashed = page.waitForEvent('crash');
    await page.goto('chrome://crash').catch(() => {});
    await crashed;
    const again = await context.newPage();
    await again.goto(served.url);
    await ready(again);
    expect(await name(again)).toBe('before the crash');
  });

  test('are the same in two tabs, and both say that the other is there', async () => {
    const second = await context.newPage();
    await second.goto(served.url);
    await ready(second);
    await expect
      .poll(() => page.locator('cw-shell .cell').textContent())
      .toContain('also open in another tab');
    await expect
      .poll(() => second.locator('cw-shell .cell').textContent())
      .toContain('also open in another tab');
    await rename(second, 'from the second');
    await expect.poll(() => name(page)).toBe('from the second');
    await Promise.all([
      page
        .locator('cw-app')
        .evaluate((app) =>
          (app as unknown as { cells: Cells }).cells.current.get().change('seed', ['seed'], 'x'),
        ),
      rename(second, 'at once'),
    ]);
    for (const one of [page, second]) {
      await expect
        .poll(() =>
          one.locator('cw-app').evaluate((app) => {
            const store = (app as unknown as { cells: Cells }).cells.current.get();
            return [store.at(['seed']), store.name];
          }),
        )
        .toEqual(['x', 'at once']);
    }
    await second.close();
    await expect.poll(() => page.locator('cw-shell .cell').textContent()).not.toContain('also open');
  });

  test('are kept side by side, turned to by name, and thrown away only when asked again', async () => {
    const demo = await name(page);
    await page.getByRole('button', { name: `Cell: ${demo}` }).click();
    await page.getByRole('button', { name: 'begin a new one' }).click();
    await expect.poll(() => name(page)).not.toBe(demo);
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    const toy = await name(page);
    await page.getByRole('button', { name: `Cell: ${toy}` }).click();
    await page.getByRole('button', { name: new RegExp(`^${demo}`) }).click();
    await expect.poll(() => name(page)).toBe(demo);
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await page.getByRole('button', { name: `Cell: ${demo}` }).click();
    await page.getByRole('button', { name: `Throw away ${toy}` }).click();
    await page.getByRole('button', { name: 'throw it away' }).click();
    await page.getByRole('button', { name: `Throw away ${toy}` }).waitFor({ state: 'detached' });
  });

  test('say it when the storage is full, and go on', async () => {
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    });
    await rename(page, 'too much');
    await page.getByText('This browser’s storage is full').waitFor();
    expect(await page.locator('cw-shell .cell').textContent()).toContain('not kept');
    expect(await name(page)).toBe('too much');
  });

  test('say it when the browser keeps nothing at all, and work', async () => {
    const shut = await openContext(browser);
    await shut.addInitScript(() => {
      indexedDB.open = () => {
        throw new DOMException('no', 'SecurityError');
      };
    });
    const other = await shut.newPage();
    await other.goto(served.url);
    await other.getByText('This browser keeps nothing for this page').waitFor();
    await rename(other, 'for now');
    expect(await name(other)).toBe('for now');
    await shut.close();
  });
});

describe('cells from elsewhere', () => {
  const cell = {
    format: 1,
    name: '<img src=x onerror=alert(1)>',
    steps: { fit: { time: 5 } },
    people: { orla: { covers: ['fit'] } },
  };

  test('come by link, are added to those here, and leave the address', async () => {
    await page.goto(`${served.url}${await shareHash(JSON.stringify(cell))}`);
    await page.reload();
    await ready(page);
    await expect.poll(() => name(page)).toBe(cell.name);
    expect(page.url()).not.toContain('cell=');
    expect(await page.locator('img').count()).toBe(0);
    await page.reload();
    await ready(page);
    expect(
      await page
        .locator('cw-app')
        .evaluate((app) => (app as unknown as { cells: Cells }).cells.list.get().length),
    ).toBe(2);
  });

  test('are refused in words when the link was edited by hand, and nothing here is touched', async () => {
    const before = await name(page);
    const whole = await shareHash(JSON.stringify(cell));
    await page.evaluate((hash) => (location.hash = hash), `${whole.slice(0, -6)}AAAAAA`);
    await page.getByText('This link is not whole').waitFor();
    await page.evaluate(
      (hash) => (location.hash = hash),
      await shareHash(JSON.stringify({ ...cell, people: { orla: { covers: ['fitt'] } } })),
    );
    await page.getByText('was not opened').waitFor();
    expect(await name(page)).toBe(before);
  });

  test('are shared as a link that opens to the same cell', async () => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await rename(page, 'to be shared');
    await page.getByRole('button', { name: 'share', exact: true }).click();
    await page.getByText('Link copied').waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    const stranger = await openPage(browser, link);
    await ready(stranger.page);
    await expect.poll(() => name(stranger.page)).toBe('to be shared');
    expect(stranger.errors).toEqual([]);
    await stranger.context.close();
  });

  test('are opened from a file and saved to one, the same text', async () => {
    const text = `${JSON.stringify({ ...cell, name: 'From a file' }, null, 2)}\n`;
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'open', exact: true }).click();
    await (
      await chooser
    ).setFiles({ name: 'a.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await expect.poll(() => name(page)).toBe('From a file');
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('from-a-file.json');
    expect(readFileSync(await saved.path(), 'utf8')).toBe(text);
  });

  test('are refused with the place of the fault when a file is wrong', async () => {
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'open', exact: true }).click();
    await (
      await chooser
    ).setFiles({
      name: 'bad.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"format": 1, "name": "x", "steps": {}'),
    });
    await page.getByText('“bad.json” was not opened').waitFor();
  });
});

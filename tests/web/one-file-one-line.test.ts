/**
 * A new page is one file (fixtures/toy-page/toy-page.ts) and one line in the list, here added as the list is
 * served: it then works in the shell like any other. What it leaves out is refused by types.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LitElement } from 'lit';
import type { Browser } from 'playwright-core';
import type { Plugin } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pages } from '../../web/pages/list.ts';
import type { Page, PageElement } from '../../web/pages/page.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';
import { openBrowser, openPage, ROOT, serveSources, type Served } from './support.ts';

const LINE = `{ route: 'toy', question: 'How many are we?', group: 'before', element: async () => (await import('/@fs${ROOT}tests/web/fixtures/toy-page/toy-page.ts')).CwToy },`;
const BEGIN = 'export const pages: Page[] = [';
const peopleOf = (cell: { people: object }): string => `${Object.keys(cell.people).length} people work here.`;

let browser: Browser;
let served: Served;
beforeAll(async () => {
  const list: Plugin = {
    name: 'toy page',
    enforce: 'pre',
    transform(code, id) {
      if (!id.endsWith('/web/pages/list.ts')) return null;
      if (!code.includes(BEGIN)) throw new Error('the list of pages begins otherwise');
      return code.replace(BEGIN, `${BEGIN}${LINE}`);
    },
  };
  [browser, served] = await Promise.all([openBrowser(), serveSources([list])]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

describe('a page of one file and one line', () => {
  test('stands in the line of words, answers, runs a study, and follows the cell that is opened', async () => {
    const { page, context, errors } = await openPage(browser, `${served.url}#/toy/by/name`);
    const word = page.getByRole('link', { name: 'Toy', exact: true });
    const answered = async (cell: { people: object }): Promise<void> => {
      await page.getByRole('heading', { level: 1, name: peopleOf(cell) }).waitFor();
      await page.locator('cw-toy .count').getByText('40 shifts').waitFor();
    };
    await answered(shipped('chair-works'));
    expect(await word.getAttribute('aria-current')).toBe('page');
    expect(await word.getAttribute('title')).toBe('How many are we?');
    expect(await word.getAttribute('data-group')).toBe('before');
    expect(await page.title()).toBe('Toy: Clampwright');
    expect(await page.locator('cw-toy .rest').textContent()).toBe('by name');
    await page.locator('cw-toy .question').getByText('How many are we?').waitFor();
    await page.getByRole('heading', { name: 'Before you act on it' }).waitFor();

    // Left and come back to, it asks again.
    await page.getByRole('link', { name: 'Log', exact: true }).click();
    await page.locator('cw-log').waitFor();
    await word.click();
    await answered(shipped('chair-works'));

    for (const name of SHOPS) {
      const chooser = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: 'open', exact: true }).click();
      const buffer = Buffer.from(JSON.stringify(shop(name)));
      await (await chooser).setFiles({ name: `${name}.json`, mimeType: 'application/json', buffer });
      await answered(shop(name));
    }
    expect(errors).toEqual([]);
    await context.close();
  });

  test('without one of its parts is refused by types', () => {
    const whole: Page = { route: 'toy', question: 'How many?', group: 'before', element: () => never };
    // @ts-expect-error no route: nothing to call it by in the address
    const noRoute: Page = { question: 'How many?', group: 'before', element: () => never };
    // @ts-expect-error no question: nothing its heading answers
    const noQuestion: Page = { route: 'toy', group: 'before', element: () => never };
    // @ts-expect-error no group: no place in a lead's day
    const noGroup: Page = { route: 'toy', question: 'How many?', element: () => never };
    // @ts-expect-error a group that there is not
    const otherGroup: Page = { ...whole, group: 'sometimes' };
    // @ts-expect-error no element: nothing to show
    const noElement: Page = { route: 'toy', question: 'How many?', group: 'before' };
    // @ts-expect-error an element without the controller that the app hands the cell to
    const noController: Page = { ...whole, element: () => Promise.resolve(LitElement) };
    expect([noRoute, noQuestion, noGroup, otherGroup, noElement, noController]).toHaveLength(6);
  });

  test('without a line in the list is seen', () => {
    const folder = join(ROOT, 'web', 'pages');
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => /-page\.ts$/.test(file))
      .map((file) => file.replaceAll('\\', '/'));
    const list = readFileSync(join(folder, 'list.ts'), 'utf8');
    expect(files.filter((file) => !list.includes(`'./${file}'`))).toEqual([]);
    expect(files.length).toBe(pages.length);
  });
});

const never = new Promise<new () => PageElement>(() => {});

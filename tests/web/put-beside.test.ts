/** Choices found elsewhere, one press from Compare: people and posts, a row of Limits, a grid field. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asRead, axe, openBrowser, openPage, serveBuilt, type Served } from './support.ts';

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const heading = async (page: Page, wanted: RegExp): Promise<string> => {
  const one = page.getByRole('heading', { level: 1 }).filter({ hasText: wanted });
  await one.waitFor({ timeout: 120_000 });
  return asRead(await one.textContent());
};

describe('one press puts beside', () => {
  test('somebody more at a post, and a field of the grid', async () => {
    const { page, context } = await openPage(browser, `${served.url}#/compare`);
    await page.getByRole('button', { name: 'something else …' }).click();
    for (const name of ['Orla also at unclamp', 'A trainee at sand', 'Wren never away', 'Kofi out'])
      expect(await page.getByRole('button', { name, exact: true }).count(), name).toBe(1);
    await page.getByRole('button', { name: 'One more person at fit with a bench', exact: true }).click();
    await heading(page, /^With “One more person at fit with a bench”/);
    // Who and where are chosen in the line itself; then it is one press each.
    const staff = page.locator('cw-staff');
    const choose = (name: string, wanted: string): Promise<unknown> =>
      staff.getByLabel(name, { exact: true }).selectOption({ label: wanted });
    await staff.getByLabel('Post', { exact: true }).first().selectOption({ label: 'sand' });
    await staff.getByRole('button', { name: 'with a bench: One more person at' }).click();
    await heading(page, /^With “One more person at sand with a bench”/);
    await staff.getByRole('button', { name: 'put beside: Swap posts' }).click();
    await heading(page, /swap posts”/);
    await choose('By', '45 min');
    await staff.getByRole('button', { name: 'put beside: Late' }).click();
    await heading(page, /45 min late”/);
    await staff.getByRole('button', { name: 'put beside: Away on another line' }).click();
    await heading(page, /away from 08:00 to 09:00”/);
    await page.getByRole('button', { name: 'lay it out' }).click();
    const field = page.getByRole('button', {
      name: 'put beside: 3 clamp sets and 1 more person at fit with a bench',
    });
    await field.waitFor({ timeout: 120_000 });
    expect(asRead(await page.locator('cw-grid').getByRole('status').last().textContent())).toMatch(
      /22 in nine shifts in ten/,
    );
    if (process.env['SHOTS'] !== undefined)
      await page.locator('cw-grid').screenshot({ path: `${process.env['SHOTS']}/grid.png` });
    expect(await axe(page)).toEqual([]);
    await field.click();
    await heading(page, /^With “3 clamp sets and 1 more person at fit with a bench”/);
    await context.close();
  });

  test('a row of Limits, which the file has as an option already', async () => {
    const { page, context } = await openPage(browser, `${served.url}#/limits`);
    await page.getByRole('button', { name: 'put beside: one more clamp set' }).click({ timeout: 120_000 });
    await heading(page, /^A third clamp set/);
    expect(page.url()).toContain('#/compare/third-set');
    await context.close();
  });
});

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { asRead, axeInBoth, openBrowser, openPage, serveBuilt, ticks, type Served } from './support.ts';

let browser: Browser;
let served: Served;
let page: Page;
let errors: string[];

const answer = async (): Promise<string> => asRead(await page.locator('cw-replay h1').textContent());
const clock = async (): Promise<string> => asRead(await page.locator('cw-replay .clock').textContent());
const why = async (): Promise<string> => asRead(await page.locator('cw-replay .why').textContent());

beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});
beforeEach(async () => {
  const opened = await openPage(browser, `${served.url}#/replay`);
  ({ page, errors } = opened);
  await page.locator('cw-day .lane').first().waitFor();
  return () => opened.context.close();
});

describe('the page Replay', () => {
  test('shows a typical shift, and a bad one makes fewer and a good one more', async () => {
    expect(await clock()).toBe('06:00');
    const good = async (): Promise<number> => Number(/: (\d+) good pieces? by/.exec(await answer())![1]);
    expect(await answer()).toMatch(
      /^A typical shift: \d+ good pieces by 14:\d\d, of 22 due\. The clamps, together, waited \d+ minutes for hands\.$/,
    );
    const typical = await good();
    await page.getByText('bad', { exact: true }).click();
    await expect
      .poll(answer)
      .toMatch(/^A bad shift: .+ (What set it apart: .+|Nothing by itself set it apart: .+)\.$/);
    await expect.poll(good).toBeLessThan(typical);
    await page.getByText('good', { exact: true }).click();
    await expect.poll(answer).toMatch(/^A good shift/);
    await expect.poll(good).toBeGreaterThan(typical);
  });

  test('is walked through by keyboard, and says why a clamp set waited', async () => {
    await page.locator('cw-day .lane').first().focus();
    await page.keyboard.press('Home');
    for (let presses = 0; presses < 60 && !/^clamp set 1.*waiting for hands/.test(await why()); presses += 1)
      await page.keyboard.press('ArrowRight');
    expect(await why()).toMatch(
      /clamp set 1, \d\d:\d\d to \d\d:\d\d \(\d+ minutes?\): waiting for hands: unclamp is next, piece \d+\. .*Bastian was .+ Tova was .+\./,
    );
    await page.keyboard.press('ArrowDown');
    expect(
      await page
        .locator('cw-day .lane')
        .nth(1)
        .evaluate((one) => one.matches(':focus')),
    ).toBe(true);
    expect(await why()).toContain('clamp set 2');
  });

  test('lists what stood, the dearest first, and Alt with an arrow goes from cause to cause', async () => {
    const items = page.locator('cw-replay .waits button');
    const texts = (await items.allTextContents()).map(asRead);
    const rooms = texts.map((text) => Number(/room for (\d+\.\d) pieces?/.exec(text)?.[1] ?? 0));
    expect(texts.length).toBeGreaterThan(3);
    expect(rooms[0]).toBeGreaterThan(0);
    expect(rooms).toEqual([...rooms].sort((a, b) => b - a));
    const free = texts.find((text) => text.includes('stood free for 48 minutes, 09:53 to 10:41'))!;
    expect(free).toContain('Tova was on a break until 10:30');
    const current = (): Promise<string> =>
      page.locator('cw-replay .waits button[aria-current]').textContent().then(asRead);
    for (const one of texts.slice(0, 2)) {
      await page.keyboard.press('Alt+ArrowDown');
      expect(await current()).toBe(one);
      expect(await why()).toMatch(/\(\d+ minutes?\): /);
    }
    await page.keyboard.press('Alt+ArrowUp');
    expect(await current()).toBe(texts[0]);
  });

  test('names steps and pieces in its lanes, and keeps hours and reason in sight on a tablet', async () => {
    const labels = (like: RegExp): Promise<number> =>
      page
        .locator('cw-day cw-picture svg text')
        .allTextContents()
        .then((all) => all.filter((text) => like.test(text)).length);
    expect(await labels(/^(\S+ )*\d+$/)).toBeGreaterThan(10);
    await page.getByRole('button', { name: 'closer' }).click();
    await page.getByRole('button', { name: 'closer' }).click();
    await expect.poll(() => labels(/^cure \d+$/)).toBeGreaterThan(1);
    await page.getByRole('button', { name: 'the whole shift' }).click();
    await page.setViewportSize({ width: 800, height: 600 });
    await page.locator('cw-replay .waits button').first().click();
    const middle = page.locator('cw-day .lane').nth(4);
    await middle.evaluate((lane) => lane.scrollIntoView({ block: 'center' }));
    for (const part of ['cw-day .hours', 'cw-replay .why']) {
      const box = (await page.locator(part).boundingBox())!;
      expect(box.y).toBeGreaterThan(-1);
      expect(box.y + box.height).toBeLessThan(601);
    }
    expect(asRead(await page.locator('cw-day .marks').textContent())).toContain('10:00');
  });

  test('is scrubbed, stepped, drawn closer, played and stopped', async () => {
    const scrub = page.getByLabel('The minute shown');
    await scrub.focus();
    await page.keyboard.press('Home');
    expect(await clock()).toBe('06:00');
    await page.getByRole('button', { name: 'next →' }).click();
    expect(await clock()).not.toBe('06:00');
    await page.keyboard.press('Tab');
    await page.getByRole('button', { name: 'closer' }).click();
    expect(Number(await scrub.getAttribute('max')) - Number(await scrub.getAttribute('min'))).toBeLessThan(
      300,
    );
    const before = await clock();
    await page.getByRole('button', { name: 'play', exact: true }).click();
    await expect.poll(clock).not.toBe(before);
    await page.getByRole('button', { name: 'stop', exact: true }).click();
    const stopped = await clock();
    await ticks(page, 6, 50);
    expect(await clock()).toBe(stopped);
  });

  test('has nothing axe finds, light and dark', async () => {
    await page.locator('cw-replay .waits button').first().click();
    expect(await axeInBoth(page)).toEqual([]);
    expect(errors).toEqual([]);
  });
});

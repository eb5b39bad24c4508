import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { axe, openBrowser, openPage, serveSources, type Opened, type Served } from './support.ts';

let browser: Browser;
let served: Served;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveSources()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});
beforeEach(async () => {
  opened = await openPage(browser, `${served.url}gallery/index.html`);
  page = opened.page;
  await page.locator('cw-picture[data-name="weeks"] svg').waitFor();
  return () => opened.context.close();
});

/** What the parts have told so far: "cw-change sets {"value":3}". */
const told = async (): Promise<string[]> =>
  ((await page.locator('#log').textContent()) ?? '').split('\n').filter((line) => line !== '');
const last = async (): Promise<string | undefined> => (await told()).at(-1);
const field = (label: string): Locator => page.getByRole('textbox', { name: label, exact: false });

describe('a number', () => {
  test('is typed, tried on the way and kept on Enter', async () => {
    await field('Cure').fill('45');
    expect(await last()).toBe('cw-try cure {"value":45}');
    await field('Cure').press('Enter');
    expect(await last()).toBe('cw-change cure {"value":45}');
  });

  test('is stepped by buttons and by arrow keys, and stops at its limit', async () => {
    await page.getByRole('button', { name: 'Clamp sets: more' }).click();
    expect(await last()).toBe('cw-change sets {"value":3}');
    await field('Clamp sets').focus();
    for (let press = 0; press < 5; press += 1) await page.keyboard.press('ArrowDown');
    expect(await last()).toBe('cw-change sets {"value":0}');
  });

  test('is dragged along its rule, trying on the way and keeping on letting go', async () => {
    const box = (await page.locator('cw-number[data-name="cure"] cw-ruler').boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + 20);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, box.y + 20, { steps: 5 });
    expect(await last()).toMatch(/^cw-try cure/);
    await page.mouse.up();
    expect(await last()).toMatch(/^cw-change cure \{"value":4[4-6]\}$/);
  });

  test('that cannot be read stays as it was typed, says why, and is described by that', async () => {
    await field('Cure').fill('half an hour');
    await field('Cure').press('Enter');
    expect(await last()).toMatch(/^cw-wrong cure .*"text":"half an hour"/);
    expect(await field('Cure').inputValue()).toBe('half an hour');
    expect(await field('Cure').getAttribute('aria-invalid')).toBe('true');
    const said = page.locator('cw-number[data-name="cure"] #wrong');
    expect(await said.textContent()).toContain('is not a number');
    expect(await field('Cure').getAttribute('aria-describedby')).toContain('wrong');
    await field('Cure').press('Escape');
    expect(await field('Cure').inputValue()).toBe('30');
    expect(await said.isVisible()).toBe(false);
  });

  test('that may be empty says what then holds', async () => {
    expect(await field('Overtime, at most').getAttribute('placeholder')).toBe('60');
    await field('Overtime, at most').fill('30');
    await field('Overtime, at most').press('Enter');
    await field('Overtime, at most').fill('');
    await field('Overtime, at most').press('Enter');
    expect(await last()).toBe('cw-change cap {"value":null}');
  });
});

describe('other parts', () => {
  test('a clock time is read as people write it', async () => {
    await field('Shift starts').fill('7 pm');
    await field('Shift starts').press('Enter');
    expect(await last()).toBe('cw-change start {"value":"19:00"}');
    expect(await field('Shift starts').inputValue()).toBe('19:00');
  });

  test('a clock time is shown by the half-day to readers who are used to it', async () => {
    const american = await openPage(browser, `${served.url}gallery/index.html`, { locale: 'en-US' });
    expect(await american.page.getByRole('textbox', { name: 'Shift starts' }).inputValue()).toBe('6:00 am');
    await american.context.close();
  });

  test('a choice is made with the arrow keys', async () => {
    await page.getByRole('radio', { name: 'finished' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await last()).toBe('cw-change end {"value":"put down"}');
  });

  test('a yes or no is turned with the space bar', async () => {
    await page.getByRole('checkbox', { name: 'Finished before any break' }).focus();
    await page.keyboard.press('Space');
    expect(await last()).toBe('cw-change whole {"value":false}');
  });

  test('an order is changed with the keyboard, which is not lost at the end of the list', async () => {
    await page.getByRole('button', { name: 'glue: up' }).focus();
    await page.keyboard.press('Enter');
    expect(await last()).toBe('cw-change covers {"value":["glue","unclamp","clean"]}');
    const focused = (): Promise<string | null | undefined> =>
      page.evaluate(() => {
        let at = document.activeElement;
        while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
        return at?.getAttribute('aria-label');
      });
    await expect.poll(focused).toBe('glue: down');
  });

  test('a time given by mean and spread becomes quick, usual and slow when one of these is changed', async () => {
    const time = page.locator('cw-time-curve');
    expect(await time.getByRole('textbox', { name: 'Usual' }).inputValue()).toBe('13.9');
    await time.getByRole('textbox', { name: 'Usual' }).fill('14');
    await time.getByRole('textbox', { name: 'Usual' }).press('Enter');
    expect(await last()).toBe('cw-change time {"value":{"quick":9.5,"usual":14,"slow":20.2}}');
  });

  test('a time whose slow is under its usual is told all the same, and said to be wrong', async () => {
    const time = page.locator('cw-time-curve');
    await time.getByRole('textbox', { name: 'Slow' }).fill('5');
    await time.getByRole('textbox', { name: 'Slow' }).press('Enter');
    expect(await last()).toContain('"slow":5');
    expect(await time.locator('p.wrong[role=status]').textContent()).toContain(
      'Slow: found 5; allowed: more than "usual"',
    );
  });

  test('a question in front of the page answers by button and by Escape, and gives the focus back', async () => {
    await page.locator('#ask').click();
    await page.getByRole('button', { name: 'throw it away' }).click();
    await expect.poll(last).toBe('asked true');
    await page.locator('#ask').click();
    await page.getByRole('dialog', { name: 'Throw this cell away?' }).waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(last).toBe('asked false');
  });

  test('what is said can be acted on and put away', async () => {
    await page.locator('#say').click();
    await page.getByRole('status').getByRole('button', { name: 'undo' }).click();
    await page.getByText('Back again.').waitFor();
    expect(await page.getByText('“One more clamp set” removed.').count()).toBe(0);
    await page.getByRole('button', { name: 'Put away: Back again.' }).click();
    await page.getByText('Back again.').waitFor({ state: 'detached' });
  });
});

describe('every part and picture', () => {
  test.each([
    ['light', {}],
    ['dark', { colorScheme: 'dark' as const }],
    ['on a tablet', { viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true }],
    ['on a phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }],
  ])('passes axe, %s, and nothing is wider than the page', async (_name, options) => {
    const other = await openPage(browser, `${served.url}gallery/index.html`, options);
    await other.page.locator('cw-picture[data-name="weeks"] svg').waitFor();
    expect(await axe(other.page)).toEqual([]);
    expect(
      await other.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      ),
    ).toBe(0);
    expect(other.errors).toEqual([]);
    await other.context.close();
  });

  test('offers the figures of each picture as a table', async () => {
    const limits = page.locator('cw-picture[data-name="limits"]');
    await limits.getByText('as a table').click();
    expect(await limits.getByRole('row', { name: 'one more clamp set' }).textContent()).toContain(
      '+2.8 and +3.4',
    );
  });

  test('is drawn for the paper when it is printed, so that its words can be read there, and for the screen again', async () => {
    const wide = (): Promise<number> =>
      page
        .locator('cw-picture[data-name="limits"] svg')
        .evaluate((svg) => Number(svg.getAttribute('viewBox')!.split(' ')[2]));
    const before = await wide();
    expect(before).toBeGreaterThan(680);
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    expect(await wide()).toBe(680);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await wide()).toBe(before);
  });

  test('takes a step on trial where it is told to: kept on leaving or after a moment, taken back by Escape', async () => {
    const told = await page.evaluateHandle(() => {
      const all: string[] = [];
      const field = document.querySelector('cw-gallery')?.shadowRoot?.querySelector('[data-name="tried"]');
      for (const name of ['cw-try', 'cw-change'])
        field!.addEventListener(name, (event) =>
          all.push(`${name} ${(event as CustomEvent<{ value: number }>).detail.value}`),
        );
      return all;
    });
    const heard = (): Promise<string[]> => told.jsonValue();
    const more = page.getByRole('button', { name: 'Clamps to try: more' });
    await more.click();
    await more.click();
    expect(await heard()).toEqual(['cw-try 3', 'cw-try 4']);
    await expect.poll(heard, { timeout: 10_000 }).toEqual(['cw-try 3', 'cw-try 4', 'cw-change 4']);
    await more.click();
    await page.getByRole('textbox', { name: 'Shift starts' }).focus();
    expect((await heard()).slice(3)).toEqual(['cw-try 5', 'cw-change 5']);
    const field = page.getByRole('textbox', { name: 'Clamps to try' });
    await field.focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Escape');
    expect(await field.inputValue()).toBe('5');
    expect((await heard()).slice(5)).toEqual(['cw-try 6', 'cw-change 5']);
  });

  test('keeps the label and the number of a count on one line', async () => {
    const box = await page.locator('[data-name="waiting"]').boundingBox();
    expect(box!.height).toBeLessThan(70);
    expect(
      await page.getByRole('textbox', { name: 'before “a step with a name of some length”' }).inputValue(),
    ).toBe('3');
  });

  test('asks nothing of any other address, and no error is said', () => {
    expect(opened.errors).toEqual([]);
  });

  test('has targets of 44 px on a finger’s side', async () => {
    const small = await page.evaluate(() => {
      const found: string[] = [];
      const walk = (root: Document | ShadowRoot): void => {
        for (const one of root.querySelectorAll('*')) {
          if (one.shadowRoot !== null) walk(one.shadowRoot);
          if (!one.matches('button, a, select, summary, input:not([type=radio]):not([type=checkbox])'))
            continue;
          const { width, height } = one.getBoundingClientRect();
          if (width > 1 && (height < 43.5 || width < 43.5))
            found.push(`${one.textContent?.trim() ?? ''} ${width}x${height}`);
        }
      };
      walk(document);
      return found;
    });
    expect(small).toEqual([]);
  });
});

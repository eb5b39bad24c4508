import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Scenario } from '../../src/scenario/schema.ts';
import type { Cells } from '../../web/store/cells.ts';
import { shareHash } from '../../web/store/share.ts';
import { asRead, axeInBoth, openBrowser, openPage, serveBuilt, type Served } from './support.ts';

let browser: Browser;
let served: Served;
let page: Page;
let errors: string[];

const draft = (): Promise<Scenario> =>
  page
    .locator('cw-app')
    .evaluate(
      (app) => (app as unknown as { cells: Cells }).cells.current.get().draft.get() as unknown as Scenario,
    );
const panel = (): ReturnType<Page['locator']> => page.locator('cw-cell-panel');
const heading = (): ReturnType<Page['locator']> => page.locator('cw-cell h1');
const field = (label: string): ReturnType<Page['locator']> => panel().getByLabel(label, { exact: true });
const write = async (label: string, text: string): Promise<void> => {
  await field(label).fill(text);
  await field(label).press('Enter');
};
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});
beforeEach(async () => {
  const opened = await openPage(browser, `${served.url}#/cell`);
  ({ page, errors } = opened);
  await page.locator('cw-flow .hit').first().waitFor();
  return () => opened.context.close();
});

describe('the page Cell', () => {
  test('says what the cell looks like, and draws each step and clamp set as something to press', async () => {
    expect(asRead(await heading().textContent())).toMatch(
      /^Six people, two clamp sets, and seven steps: an hour and \d+ minutes of hands in a piece, 30 minutes of cure\.$/,
    );
    expect(
      await page
        .locator('cw-flow .hit')
        .evaluateAll((all) => all.map((one) => one.getAttribute('data-spot'))),
    ).toEqual([
      'intake/',
      'steps/stage',
      'steps/fit',
      'steps/glue',
      'steps/cure',
      'steps/unclamp',
      'gear/clamp',
      'steps/clean',
      'steps/sand',
      'steps/check',
      'outRack/',
    ]);
    await page
      .locator('.makes')
      .getByText(/The cell makes \d/)
      .waitFor();
  });

  test('lets the clamp sets be counted up by keyboard alone, says what it does, and takes it back', async () => {
    await page.getByRole('button', { name: /^2 clamp sets:/ }).focus();
    await page.keyboard.press('Enter');
    await expect
      .poll(() =>
        panel()
          .getByRole('heading', { level: 2 })
          .evaluate((one) => one.matches(':focus')),
      )
      .toBe(true);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    expect(await field('How many there are').evaluate((one) => one.matches(':focus'))).toBe(true);
    await page.keyboard.press('ArrowUp');
    expect((await draft()).gear!['clamp']!.count).toBe(3);
    expect(asRead(await heading().textContent())).toContain('three clamp sets');
    await panel()
      .getByText(/Last change, .*: It adds \d/)
      .waitFor();
    await panel().getByRole('heading', { level: 2 }).focus();
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await draft()).gear!['clamp']!.count).toBe(2);
    await page.keyboard.press('Control+Shift+Z');
    await expect.poll(async () => (await draft()).gear!['clamp']!.count).toBe(3);
  });

  test('shows how well a time is known at its field, and keeps what is said of it', async () => {
    await page.locator('cw-flow .hit[data-spot="steps/fit"]').click();
    expect(await field('Right to within, %').inputValue()).toBe('10');
    await panel().getByText('timed at the bench', { exact: true }).click();
    await write('Timed so often', '25');
    await expect.poll(async () => (await draft()).steps['fit']!.known).toEqual({ time: { times: 25 } });
    await panel().getByText('from memory', { exact: true }).click();
    await write('Right to within, %', '15');
    const cell = { known: { time: { within: 15 } } };
    await expect.poll(async () => (await draft()).steps['fit']).toMatchObject(cell);
  });

  test('shows what a value does before it is kept', async () => {
    await field('How many there are').fill('3');
    await panel()
      .getByText(/Not kept yet: It adds \d/)
      .waitFor();
    expect((await draft()).gear!['clamp']!.count).toBe(2);
    await field('How many there are').press('Escape');
    expect((await draft()).gear!['clamp']!.count).toBe(2);
  });

  test('keeps a value that cannot be read, and says what is wrong with it', async () => {
    await write('How many there are', 'two and a bit');
    const said = panel().locator('cw-number').first().locator('.wrong');
    expect(await said.isVisible()).toBe(true);
    await page.locator('cw-flow .hit[data-spot="steps/fit"]').click();
    await page.locator('cw-flow .hit[data-spot="gear/clamp"]').click();
    expect(await field('How many there are').inputValue()).toBe('two and a bit');
    expect(await said.isVisible()).toBe(true);
    expect((await draft()).gear!['clamp']!.count).toBe(2);
  });

  test('says a mistake of the whole cell at its place and above, and leads there', async () => {
    await page.locator('cw-flow .hit[data-spot="steps/fit"]').click();
    await write('Usual, min', '99');
    await page
      .locator('.faults')
      .getByText(/^Step “.+”, time, slow: found/)
      .waitFor();
    await panel()
      .locator('cw-time-curve')
      .getByText(/Slow: found .*put them in order/)
      .first()
      .waitFor();
    await page.locator('cw-flow .hit[data-spot="steps/sand"]').click();
    await page.locator('.faults').getByRole('button', { name: 'go there' }).click();
    expect(asRead(await panel().getByRole('heading', { level: 2 }).textContent())).toBe('Fit');
  });

  test('carries another name of a step to every mention of it, and says what goes with it when it is taken out', async () => {
    await page.locator('cw-flow .hit[data-spot="steps/fit"]').click();
    await write('Name', 'dry fit');
    await expect.poll(async () => Object.keys((await draft()).steps)).toContain('dry-fit');
    const after = await draft();
    expect(Object.keys(after.steps)[1]).toBe('dry-fit');
    expect(after.people['orla']!.covers).toEqual(['dry-fit']);
    expect(after.products!['bent']!.times).toHaveProperty('dry-fit');
    expect(JSON.stringify(after)).not.toMatch(/"fit"/);
    await panel().getByRole('button', { name: 'take this step out' }).click();
    await page.getByText(/With it goes: .*Orla standing there/).waitFor();
    await page.getByRole('button', { name: 'take it out' }).last().click();
    await expect.poll(async () => Object.keys((await draft()).steps)).not.toContain('dry-fit');
    await page.getByRole('button', { name: 'undo' }).last().click();
    await expect.poll(async () => Object.keys((await draft()).steps)[1]).toBe('dry-fit');
  });

  test('takes a newcomer from the first screen to the first answer: few presses, few fields, no fault', async () => {
    let [presses, fields] = [0, 0];
    const faults: string[] = [];
    const look = async (): Promise<void> =>
      void faults.push(...(await page.locator('.faults li:visible, .wrong:visible').allTextContents()));
    const press = async (name: string | RegExp): Promise<void> => {
      await page.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) }).click();
      presses += 1;
      await look();
    };
    const list = page.locator('cw-cell .begin');
    const put = async (label: string, text: string): Promise<void> => {
      await list.getByLabel(label, { exact: true }).fill(text);
      await page.keyboard.press('Tab');
      fields += 1;
      await look();
    };
    await page.goto(`${served.url}#/`);
    await page.getByText('The shop shown here is invented.').waitFor();
    await press('your own cell');
    await list.waitFor();
    const makes = page.locator('.makes');
    expect(asRead(await makes.textContent())).toMatch(
      /is said once the cell is whole. Still to say: who works here/,
    );
    await put('What the cell is called', 'Our chairs');
    const minutes = { fit: '14', 'glue up': '9', cure: '30', unclamp: '4.5', sand: '22', check: '4' };
    for (const [step, text] of Object.entries(minutes)) await put(`${step}, min`, text);
    await press('the other times are right here');
    await put('Their names, with commas between', 'Ada, Ben, Cem, Dora, Eli');
    const posts = {
      Ada: ['fit'],
      Ben: ['glue up', 'unclamp'],
      Cem: ['unclamp', 'sand'],
      Dora: ['sand'],
      Eli: ['check', 'fit'],
    };
    for (const [name, at] of Object.entries(posts))
      for (const post of at) await press(`${name} at ${post}: does not stand here`);
    await put('Good pieces due', '18');
    await makes.getByText(/The cell makes [1-9]/).waitFor();
    await press('Does one more clamp set help?');
    await expect
      .poll(async () => asRead(await page.locator('cw-compare h1').textContent()), { timeout: 60_000 })
      .toMatch(/third clamp set/);
    const made = await draft();
    expect(Object.values(made.people).map(({ covers }) => covers)).toEqual([
      ['fit'],
      ['unclamp', 'glue-up'],
      ['sand', 'unclamp'],
      ['sand'],
      ['check', 'fit'],
    ]);
    expect(made.steps['glue-up']).toMatchObject({
      whole: true,
      takes: [{ gear: 'clamp', until: 'unclamp' }],
    });
    expect(JSON.stringify(made)).not.toContain('guess');
    expect(faults).toEqual([]);
    expect(errors).toEqual([]);
    console.log(`A newcomer: ${presses} presses, ${fields} fields, ${faults.length} faults.`);
    expect(presses).toBeLessThanOrEqual(40);
    expect(fields).toBeLessThanOrEqual(20);
  });

  test('shows names from strangers as the text they are', async () => {
    const bad = '<img src=x onerror=alert(1)>';
    const cell = {
      format: 1,
      name: bad,
      steps: { fit: { name: bad, time: 5 } },
      gear: { clamp: { name: bad, count: 1 } },
      people: { orla: { name: '"><script>x</script>', covers: ['fit'] } },
    };
    await page.goto(`${served.url}${await shareHash(JSON.stringify(cell))}`);
    await expect
      .poll(async () => asRead(await page.locator('cw-shell .cell button').textContent()))
      .toBe(asRead(bad));
    await page.reload();
    await page.goto(`${served.url}#/cell`);
    await expect.poll(() => page.locator('cw-flow svg').textContent()).toContain(bad.slice(0, 8));
    expect(await page.locator('cw-cell img, cw-cell script').count()).toBe(0);
    expect(errors).toEqual([]);
  });

  test('has nothing axe finds, light and dark', async () => {
    await page.locator('cw-flow .hit[data-spot="steps/glue"]').click();
    await panel()
      .locator('details')
      .evaluateAll((all) => all.forEach((one) => ((one as HTMLDetailsElement).open = true)));
    await page
      .locator('.makes')
      .getByText(/The cell makes \d/)
      .waitFor();
    expect(await axeInBoth(page)).toEqual([]);
    expect(errors).toEqual([]);
  });
});

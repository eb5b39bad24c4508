/**
 * What people typed, and what the browser was told to keep, after faults: a damaged store, a browser killed
 * in mid-edit, two tabs at once. A few of each here; `npm run faults:web` runs hundreds and writes down what
 * it saw.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import seedrandom from 'seedrandom';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Cells } from '../../web/store/cells.ts';
import { SHOPS } from '../support/shops.ts';
import { beside, damaged, opened, readStore, writeStore, type Stored } from './faults/damaged.ts';
import { OwnBrowser } from './faults/killed.ts';
import { openBrowser, ROOT, serveBuilt, type Served } from './support.ts';

const LONG = process.env['CLAMPWRIGHT_FAULTS'] === 'long';
const MANY = LONG ? { stores: 500, kills: 200, tabs: 50 } : { stores: 12, kills: 3, tabs: 2 };
const SEED = 20261127;
/** A page that says nothing by then counts as blank. */
const PATIENCE = 60_000;
const HOUR = 3_600_000;

interface Row {
  fault: string;
  times: number;
  what: string;
  lost: number;
}
const rows: Row[] = [];

let browser: Browser;
let served: Served;
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
  if (LONG && rows.length > 0) writeRows(rows);
});

const app = 'cw-app';
/** The page says something, and what is done in it is kept: on a busy machine the browser may be late. */
async function ready(page: Page): Promise<void> {
  await page.locator('cw-app h1').first().waitFor({ timeout: PATIENCE });
  await page.waitForFunction(
    () => (document.querySelector('cw-app') as unknown as { cells: Cells }).cells.lasting,
    undefined,
    { timeout: PATIENCE },
  );
}

describe('a damaged store', () => {
  test(
    'never leaves a blank page, hides no other cell, and loses nothing that was whole',
    async () => {
      const context = await browser.newContext({ serviceWorkers: 'block' });
      const whole = await filled(context);
      const page = await beside(context, served.url);
      const [blank, hidden, unsaid]: [string[], string[], string[]] = [[], [], []];
      const ids = whole.cells.map((one) => String(one['id']));
      const pages = ['cell', 'times', 'log', 'now', 'compare', 'crew', 'brief', 'limits', 'replay'];
      for (let n = 0; n < MANY.stores; n++) {
        const { stored, where, cell } = damaged(whole, SEED + n);
        await writeStore(page, stored);
        const seen = await opened(context, `${served.url}#/${pages[n % pages.length]}`, PATIENCE);
        const say = `${where}, damaged by ${SEED + n}`;
        if (seen.heading === null) blank.push(say);
        else if (ids.some((id) => id !== cell && !seen.cells.includes(id))) hidden.push(say);
        // A damaged cell is there, or it is set aside; never neither.
        else if (cell !== null && !seen.cells.includes(cell) && seen.aside.length === 0) unsaid.push(say);
      }
      rows.push({
        fault: 'a damaged store',
        times: MANY.stores,
        what: 'blank pages, other cells hidden, cells gone without a word',
        lost: blank.length + hidden.length + unsaid.length,
      });
      expect({ blank, hidden, unsaid }).toEqual({ blank: [], hidden: [], unsaid: [] });
      await context.close();
    },
    LONG ? 6 * HOUR : 600_000,
  );

  for (const [what, change] of [
    ['without its history', (cell: Record<string, unknown>) => Reflect.deleteProperty(cell, 'history')],
    ['with another thing for its history', (cell: Record<string, unknown>) => (cell['history'] = 'gone')],
  ] as const)
    test(`${what} opens as it was, and what stood there is set aside`, async () => {
      const context = await browser.newContext({ serviceWorkers: 'block' });
      const whole = await filled(context);
      const page = await beside(context, served.url);
      for (const cell of whole.cells) change(cell);
      await writeStore(page, whole);
      const seen = await opened(context, `${served.url}#/cell`, PATIENCE);
      expect(seen.heading).not.toBeNull();
      expect(seen.cells.sort()).toEqual(whole.cells.map(({ id }) => id).sort());
      expect(seen.aside.length > 0).toBe(what.startsWith('with another'));
      await context.close();
    });
});

describe('a browser killed in mid-edit', () => {
  test(
    'has everything it had said was kept',
    async () => {
      const own = new OwnBrowser();
      const next = seedrandom(`${SEED}`);
      const lost: string[] = [];
      let told = { change: 0, entry: 0, time: 0 };
      try {
        for (let n = 0; n <= MANY.kills; n++) {
          const page = await own.open(`${served.url}#/times`);
          await ready(page);
          const there = await counted(page);
          for (const key of ['change', 'entry', 'time'] as const)
            if (there[key] < told[key]) lost.push(`${key} ${told[key]}, found ${there[key]}, at kill ${n}`);
          if (n === MANY.kills) break;
          told = there;
          await page.exposeFunction('told', (key: 'change' | 'entry' | 'time', count: number) => {
            told = { ...told, [key]: Math.max(told[key], count) };
          });
          await typing(page, there);
          await new Promise((resolve) => setTimeout(resolve, 50 + next() * 1500));
          await own.kill();
        }
      } finally {
        await own.end();
      }
      rows.push({
        fault: 'the whole browser killed (kill -9) in mid-edit',
        times: MANY.kills,
        what: `changes (${told.change}), entries of the log (${told.entry}) and times taken (${told.time}) said to be kept and not there`,
        lost: lost.length,
      });
      expect(lost).toEqual([]);
    },
    LONG ? 6 * HOUR : 600_000,
  );
});

describe('two tabs editing at once', () => {
  test(
    'lose nothing, reloads in mid-edit included',
    async () => {
      const lost: string[] = [];
      let edits = 0;
      for (let n = 0; n < MANY.tabs; n++) {
        const context = await browser.newContext({ serviceWorkers: 'block' });
        const next = seedrandom(`${SEED} ${n}`);
        const tabs = [await context.newPage(), await context.newPage()];
        await tabs[0]!.goto(`${served.url}#/times`);
        await ready(tabs[0]!);
        await tabs[1]!.goto(`${served.url}#/times`);
        await ready(tabs[1]!);
        const said: string[] = [];
        for (let edit = 0; edit < 40; edit++) {
          const which = Math.floor(next() * 2);
          said.push(`tab ${which} edit ${edit}`);
          await change(tabs[which]!, said.at(-1)!, which);
          if (next() < 0.06) {
            await tabs[which]!.reload();
            await ready(tabs[which]!);
          }
        }
        edits += said.length;
        for (const tab of tabs)
          lost.push(...(await missing(tab, said)).map((one) => `${one}, in round ${n}`));
        await context.close();
      }
      rows.push({
        fault: 'two tabs editing one cell at once, reloaded in mid-edit',
        times: MANY.tabs,
        what: `of ${edits} changes and as many entries of the log, missing in either tab`,
        lost: lost.length,
      });
      expect(lost).toEqual([]);
    },
    LONG ? 6 * HOUR : 600_000,
  );
});

/** A browser with the demo and the three shops, each with changes, an entry of its log and times taken. */
async function filled(context: BrowserContext): Promise<Stored> {
  const page = await context.newPage();
  await page.goto(`${served.url}#/times`);
  await ready(page);
  const files = SHOPS.map((name) => readFileSync(join(ROOT, 'tests/shops', `${name}.json`), 'utf8'));
  await page.locator(app).evaluate(async (element, texts) => {
    const { cells } = element as unknown as { cells: Cells };
    for (const text of ['', ...texts]) {
      if (text !== '') await cells.bring(text);
      const store = cells.current.get();
      store.change('named', ['name'], `${store.name}, ours`);
      store.change('about', ['about'], 'ours');
      store.undo();
      store.setTyped(['shift', 'start'], 'six o');
      const entry = {
        entry: 1,
        id: `e-${store.id}`,
        day: '2027-03-05',
        kind: 'result',
        content: { good: 20 },
      };
      await store.entries.add([{ ...entry, at: '2027-03-05T15:00:00Z', by: 'test' }]);
      localStorage.setItem(
        `clampwright-stopwatch ${store.id}`,
        JSON.stringify({
          running: [],
          taken: [{ id: 'a', step: 'fit', product: null, person: null, began: 0, minutes: 5 }],
        }),
      );
      localStorage.setItem(
        `clampwright-briefs ${store.id}`,
        JSON.stringify({ question: '', title: 'a', notes: 'b' }),
      );
      await cells.keeper.get().flush();
    }
  }, files);
  const stored = await readStore(page);
  await page.close();
  return stored;
}

/** How many of each are kept: the number in the last change, entries, times of the stopwatch. */
const counted = (page: Page): Promise<{ change: number; entry: number; time: number }> =>
  page.locator(app).evaluate(async (element) => {
    const { cells } = element as unknown as { cells: Cells };
    const store = cells.current.get();
    while (!store.entries.read.get()) await new Promise((resolve) => setTimeout(resolve, 10));
    const about = store.at(['about']);
    const times = JSON.parse(localStorage.getItem(`clampwright-stopwatch ${store.id}`) ?? '{"taken":[]}') as {
      taken: unknown[];
    };
    return {
      change: typeof about === 'string' ? Number(/^edit (\d+)$/.exec(about)?.[1]) || 0 : 0,
      entry: store.entries.all.get().length,
      time: times.taken.length,
    };
  });

/** Types on and on, telling of everything that the page says is kept. */
const typing = (page: Page, from: { change: number; entry: number; time: number }): Promise<void> =>
  page.locator(app).evaluate((element, begin) => {
    const { cells } = element as unknown as { cells: Cells };
    const { told } = window as unknown as { told: (key: string, count: number) => void };
    const [store, { kept }] = [cells.current.get(), cells.keeper.get()];
    let [change, entry] = [begin.change, begin.entry];
    kept.subscribe((now) => now.kind === 'kept' && told('change', change));
    setInterval(() => store.change('about', ['about'], `edit ${(change += 1)}`), 23);
    const add = async (): Promise<void> => {
      for (;;) {
        entry += 1;
        const id = `entry-${Date.now()}-${entry}`;
        const done = await store.entries.add([{ id, entry: 1, day: '2027-03-05', kind: 'note' }]);
        if (done.kind === 'kept') told('entry', entry);
      }
    };
    void add();
  }, from);

const change = (page: Page, say: string, which: number): Promise<void> =>
  page.locator(app).evaluate(
    (element, { words, place }) => {
      const { cells } = element as unknown as { cells: Cells };
      const store = cells.current.get();
      store.change(words, ['money', `tab ${place}`, words], 1);
      void store.entries.add([{ id: words, entry: 1, day: '2027-03-05', kind: 'note' }]);
    },
    { words: say, place: which },
  );

/** What of it is not in a tab a while later. */
async function missing(page: Page, said: string[]): Promise<string[]> {
  const look = (): Promise<string[]> =>
    page.locator(app).evaluate((element, all) => {
      const { cells } = element as unknown as { cells: Cells };
      const store = cells.current.get();
      const entries = new Set(store.entries.all.get().map(({ id }) => id));
      return all.flatMap((words) => [
        ...(store.at(['money', `tab ${words.slice(4, 5)}`, words]) === 1 ? [] : [`change “${words}”`]),
        ...(entries.has(words) ? [] : [`entry “${words}”`]),
      ]);
    }, said);
  for (let tries = 0; ; tries++) {
    const gone = await look();
    if (gone.length === 0 || tries > 100) return gone;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function writeRows(all: Row[]): void {
  const folder = join(ROOT, 'tests/results');
  mkdirSync(folder, { recursive: true });
  const lines = all.map(({ fault, times, what, lost }) => `| ${fault} | ${times} | ${what} | ${lost} |`);
  writeFileSync(
    join(folder, 'faults-browser.md'),
    [
      '# Faults in the browser, and what was lost',
      '',
      `Written by \`npm run faults:web\` (seed ${SEED}, Chromium ${browser.version()}). "Kept" is what the page shows once a change is in the`,
      'browser’s database; nothing that was said to be kept may be missing afterwards.',
      '',
      '| fault | times | what counts as lost | lost |',
      '| --- | ---: | --- | ---: |',
      ...lines,
      '',
    ].join('\n'),
  );
}

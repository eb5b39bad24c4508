/**
 * The short set in the browsers a shop may have besides Chromium: Firefox, and WebKitGTK, whose engine is
 * that of many tablets. A browser that is not on this machine is left out, and said to be.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, preview } from 'vite';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { findFirefox, openFirefox } from './drivers/firefox.ts';
import type { Session } from './drivers/session.ts';
import { findWebKit, openWebKit } from './drivers/webkit.ts';
import { ROOT, type Served } from './support.ts';

const firefox = findFirefox();
const webkit = findWebKit();

const BROWSERS: { name: string; missing: string | null; open: () => Promise<Session> }[] = [
  {
    name: 'Firefox',
    missing: firefox === null ? 'Firefox is not on this machine (Debian: apt-get install firefox-esr)' : null,
    open: () => openFirefox(firefox!),
  },
  {
    name: 'WebKitGTK',
    missing:
      webkit === null
        ? 'WebKitGTK and its driver are not on this machine (Debian: apt-get install webkit2gtk-driver xvfb)'
        : null,
    open: () => openWebKit(webkit!),
  },
];

let folder: string;
let served: Served;
beforeAll(async () => {
  for (const { missing } of BROWSERS) if (missing !== null) console.warn(`Left out: ${missing}`);
  if (BROWSERS.every(({ missing }) => missing !== null)) return;
  // Built as for visitors: the test runner's own setting would build the libraries for development.
  vi.stubEnv('NODE_ENV', 'production');
  folder = mkdtempSync(join(tmpdir(), 'clampwright-others-'));
  const settings = {
    configFile: join(ROOT, 'vite.config.ts'),
    root: join(ROOT, 'web'),
    logLevel: 'error' as const,
  };
  await build({ ...settings, build: { outDir: join(folder, 'web'), emptyOutDir: false } });
  await build({ ...settings, mode: 'single', build: { outDir: folder, emptyOutDir: false } });
  const server = await preview({
    ...settings,
    build: { outDir: join(folder, 'web') },
    preview: { port: 0, host: '127.0.0.1' },
  });
  served = {
    url: server.resolvedUrls!.local[0]!,
    close: () => new Promise((resolve) => server.httpServer.close(() => resolve())),
  };
});
afterAll(async () => {
  vi.unstubAllEnvs();
  await served?.close();
  if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
});

const PAGES = ['cell', 'compare', 'limits', 'replay', 'crew', 'now', 'log', 'times', 'brief'];
const HEADING = `return deep('cw-sheet')?.shadowRoot.querySelector('h1')?.textContent.trim() || null`;
const NAME_FIELD = `return deep('cw-text[data-place="name"]')?.shadowRoot.querySelector('input') ?? null`;
const STORE = `const store = app().cells.current.get();`;

for (const { name, missing, open } of BROWSERS) {
  describe.skipIf(missing !== null)(`in ${name}`, () => {
    let session: Session;
    beforeAll(async () => {
      session = await open();
    });
    afterAll(() => session?.end());

    const heading = (like: RegExp, ms = 120_000): Promise<string> =>
      session.until<string>(
        `const words = (() => { ${HEADING} })(); return new RegExp(arguments[0]).test(words ?? '') ? words : null`,
        [like.source],
        ms,
      );

    test('a first visit left early and opened again is not blank for long', async () => {
      await session.go(served.url);
      await session.go('about:blank');
      await session.go(served.url);
      await session.until(`return deep('nav a') !== null`, [], 30_000);
    });

    test('opens with the demo shop and its answer', async () => {
      await session.go(`${served.url}#/compare`);
      expect(await heading(/^A third clamp set adds \d\.\d units a shift/)).not.toBe('');
    });

    test('every page says something', async () => {
      for (const page of PAGES) {
        await session.run(`location.hash = '#/' + arguments[0]`, page);
        await session.until(
          `return location.hash.startsWith('#/' + arguments[0]) && deep('cw-' + arguments[0])`,
          [page],
        );
        expect(await session.until<string>(HEADING), page).not.toBe('');
      }
      expect(await session.run(`return document.getElementById('first-words')`)).toBeNull();
    });

    test('what stands in a field when the page is loaded again is there', async () => {
      await session.run(`location.hash = '#/cell/about/'`);
      await session.keys(NAME_FIELD, ' of ours');
      await session.reload();
      await session.until(`${STORE} return store.name.endsWith(' of ours')`);
      expect(await session.until(`${STORE} return store.history.get().past.at(-1).say`)).toContain('of ours');
    });

    test('two tabs that change the same cell at once lose nothing', async () => {
      const first = await session.tab();
      const second = await session.newTab();
      await session.toTab(second);
      await session.go(`${served.url}#/times`);
      await session.until(`return deep('nav a') !== null`);
      await session.run(
        `${STORE} for (let i = 0; i < 20; i++) store.change('seed', ['seed'], 'second ' + i)`,
      );
      await session.toTab(first);
      await session.run(
        `${STORE} for (let i = 0; i < 20; i++) store.change('about', ['about'], 'first ' + i)`,
      );
      for (const tab of [first, second]) {
        await session.toTab(tab);
        const both = `${STORE} return store.at(['seed']) === 'second 19' && store.at(['about']) === 'first 19'`;
        expect(await session.until(both)).toBe(true);
      }
      await session.toTab(first);
    });

    test('as one file from a disk it answers, and reads a list of times', async () => {
      const list = join(folder, 'times.csv');
      const rows = Array.from({ length: 40 }, (_, i) => `sand,${(14 + ((i * 7) % 11) / 2).toFixed(1)}`);
      writeFileSync(list, `step,minutes\n${rows.join('\n')}\n`);
      await session.go(`${pathToFileURL(join(folder, 'clampwright.html')).href}#/times`);
      await session.until(`return deep('cw-times') !== null`);
      // The field lies outside the page, where no keys reach it: let it lie in it. (Firefox runs scripts of
      // a driver beside the page; the page's own things are behind `wrappedJSObject`.)
      await session.run(
        `const fields = (window.wrappedJSObject ?? window).HTMLInputElement.prototype;
         const click = fields.click;
         fields.click = function () {
           if (this.type === 'file') document.body.append(this); else click.call(this);
         };
         deepAll('button').find((one) => one.textContent.includes('open a list')).click();`,
      );
      await session.keys(`return document.querySelector('body > input[type=file]')`, list);
      expect(await heading(/^40 times for/)).not.toBe('');
    });

    test.skipIf(name === 'WebKitGTK')('prints', async () => {
      await session.go(`${served.url}#/brief`);
      await session.until(`return deep('cw-brief') !== null`);
      await heading(/./);
      const pdf = await session.print();
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    });
  });
}

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { build, preview } from 'vite';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { pages } from '../../web/pages/list.ts';
import { wordOf } from '../../web/pages/page.ts';
import { openBrowser, openContext, openPage, ROOT, type Served } from './support.ts';

declare global {
  interface Window {
    /** What the policy refused, oldest first: the directive, and the beginning of the text. */
    refused: string[];
  }
}

let browser: Browser;
let folder: string;
let served: Served;
beforeAll(async () => {
  // Built as for visitors: the test runner's own setting would build the libraries for development.
  vi.stubEnv('NODE_ENV', 'production');
  folder = mkdtempSync(join(tmpdir(), 'clampwright-served-'));
  const settings = {
    configFile: join(ROOT, 'vite.config.ts'),
    root: join(ROOT, 'web'),
    logLevel: 'error' as const,
    build: { outDir: folder, emptyOutDir: false },
  };
  await build(settings);
  const server = await preview({ ...settings, preview: { port: 0, host: '127.0.0.1' } });
  served = {
    url: server.resolvedUrls!.local[0]!,
    close: () => new Promise((resolve) => server.httpServer.close(() => resolve())),
  };
  browser = await openBrowser();
});
afterAll(async () => {
  vi.unstubAllEnvs();
  await browser?.close();
  await served?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('the built page, served', () => {
  test('opens with a policy that lets nothing in from elsewhere, and keeps to it', async () => {
    const html = readFileSync(join(folder, 'index.html'), 'utf8');
    expect(html).toContain(
      `content="default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; font-src 'self' data:; worker-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'"`,
    );
    const context = await openContext(browser, { serviceWorkers: 'allow' });
    // From before anything of the page has run, so that nothing it does while it loads goes unseen.
    await context.addInitScript(() => {
      window.refused = [];
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective, sample }) =>
        window.refused.push(`${effectiveDirective} ${sample}`.trim()),
      );
    });
    const page = await context.newPage();
    for (const one of pages) {
      await page.goto(`${served.url}#/${one.route}`);
      await expect.poll(() => page.title(), { timeout: 30_000 }).toBe(`${wordOf(one)}: Clampwright`);
    }
    expect(await page.evaluate(() => window.refused)).toEqual([]);

    await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "in"';
      document.head.append(script);
      await fetch('https://example.invalid/').catch(() => {});
    });
    await expect
      .poll(() => page.evaluate(() => window.refused.map((one) => one.split(' ')[0]).sort()))
      .toEqual(['connect-src', 'script-src-elem']);
    expect(await page.title()).not.toBe('in');
    await context.close();
  });

  test('opens again without a network once it was there', async () => {
    const { page, context } = await openPage(browser, served.url, { serviceWorkers: 'allow' });
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (navigator.serviceWorker.controller === null)
        await new Promise((resolve) =>
          navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true }),
        );
    });
    await context.setOffline(true);
    await page.reload();
    await page.locator('cw-shell').waitFor();
    const loaded = await page.evaluate(async () => (await document.fonts.load('16px "Vollkorn"'))[0]?.status);
    expect(loaded).toBe('loaded');
    const second = await context.newPage();
    await second.goto(`${served.url}?again#/compare`);
    await second.locator('cw-shell').waitFor();
    await context.close();
  });

  test('lists every built file for that, and its typefaces are under 150 KB together', () => {
    const worker = readFileSync(join(folder, 'service-worker.js'), 'utf8');
    const files = JSON.parse(/files = (\[.*\]);/.exec(worker)![1]!) as string[];
    expect(files).toContain('./index.html');
    const fonts = files.filter((file) => file.endsWith('.woff2'));
    expect(fonts).toHaveLength(4);
    expect(fonts.reduce((sum, file) => sum + readFileSync(join(folder, file)).length, 0)).toBeLessThan(
      150_000,
    );
    expect(worker).not.toContain("'VERSION'");
  });
});

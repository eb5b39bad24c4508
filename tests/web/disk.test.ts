import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { runJob } from '../../src/record/job.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { openBrowser, openContext, ROOT } from './support.ts';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  // Built as for visitors: the test runner's own setting would build the libraries for development.
  vi.stubEnv('NODE_ENV', 'production');
  folder = mkdtempSync(join(tmpdir(), 'clampwright-disk-'));
  const [, made] = await Promise.all([
    build({
      configFile: join(ROOT, 'vite.config.ts'),
      mode: 'single',
      root: join(ROOT, 'tests/web/fixtures/disk-page'),
      logLevel: 'error',
      build: { outDir: folder, emptyOutDir: false },
    }),
    openBrowser(),
  ]);
  browser = made;
});
afterAll(async () => {
  vi.unstubAllEnvs();
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a page built as one file and opened from a disk', () => {
  test('holds a policy that names its own script and style by hash and lets nothing else in', () => {
    const html = readFileSync(join(folder, 'clampwright.html'), 'utf8');
    const policy = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(html)![1]!;
    expect(policy).toMatch(
      /^default-src 'none'; script-src 'sha256-[\w+/=]+' 'wasm-unsafe-eval'; style-src 'sha256-[\w+/=]+'; img-src data: blob:; font-src data:; worker-src blob: data:; base-uri 'none'; form-action 'none'$/,
    );
    expect(html).not.toMatch(/<(script|link)[^>]+(src|href)="(?!data:)/);
  });

  test('runs its worker and gets the same numbers as the command line, to the last bit', async () => {
    const page = await (await openContext(browser)).newPage();
    const errors: string[] = [];
    page.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
    page.on('pageerror', (error) => errors.push(error.message));
    await page.goto(pathToFileURL(join(folder, 'clampwright.html')).href);
    await page.waitForFunction(() => document.title !== 'working', undefined, { timeout: 10_000 });
    const reading = readScenario(readFileSync(join(ROOT, 'scenarios/one-step.json'), 'utf8'));
    if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
    const here = runJob({ shifts: shiftsOf(reading.scenario), from: 0, count: 3 });
    expect(await page.title()).toBe(`done: ${here.rows[0]!.join(' ')}`);
    expect(errors).toEqual([]);
  });

  test('has its typefaces inside', async () => {
    const page = await (await openContext(browser)).newPage();
    await page.goto(pathToFileURL(join(folder, 'clampwright.html')).href);
    const loaded = await page.evaluate(async () => {
      const faces = await Promise.all([
        document.fonts.load('16px "Vollkorn"'),
        document.fonts.load('16px "Public Sans"'),
      ]);
      return faces.map((found) => found[0]?.status);
    });
    expect(loaded).toEqual(['loaded', 'loaded']);
  });
});

describe('the planner as one file', () => {
  test('is let by its own policy to look as it does when served, and answers', async () => {
    await build({
      configFile: join(ROOT, 'vite.config.ts'),
      mode: 'single',
      logLevel: 'error',
      build: { outDir: join(folder, 'planner'), emptyOutDir: false },
    });
    const page = await (await openContext(browser)).newPage();
    const refused: string[] = [];
    page.on('console', (message) => message.type() === 'error' && refused.push(message.text()));
    await page.goto(pathToFileURL(join(folder, 'planner', 'clampwright.html')).href);
    await page.getByRole('heading', { level: 1 }).filter({ hasText: /adds/ }).waitFor({ timeout: 60_000 });
    expect(
      await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--ink').trim()),
    ).not.toBe('');
    expect(refused).toEqual([]);
  });
});

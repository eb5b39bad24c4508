/** What the tests in a real browser share: finding one, serving the page, opening it, and asking axe. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core';
import { createServer, preview, type Plugin } from 'vite';
import type { Scenario } from '../../src/scenario/schema.ts';
import { shareHash } from '../../web/store/share.ts';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const USUAL = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Browsers that playwright has put where it puts them. */
function ofPlaywright(): string[] {
  const folder = process.env['PLAYWRIGHT_BROWSERS_PATH'] ?? join(homedir(), '.cache', 'ms-playwright');
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.startsWith('chromium'))
    .flatMap((name) =>
      ['chrome-linux/chrome', 'chrome-linux/headless_shell', 'chrome-win/chrome.exe'].map((file) =>
        join(folder, name, file),
      ),
    );
}

/** A browser of the Chromium kind: the one CLAMPWRIGHT_BROWSER names, else one in the usual places. */
export function findBrowser(): string {
  const named = process.env['CLAMPWRIGHT_BROWSER'];
  if (named !== undefined && named !== '') {
    if (!existsSync(named)) throw new Error(`CLAMPWRIGHT_BROWSER names ${named}, which is not there`);
    return named;
  }
  const found = [...USUAL, ...ofPlaywright()].find((path) => existsSync(path));
  if (found === undefined)
    throw new Error(
      'no Chromium found: install one (Debian: apt-get install chromium) or name it in CLAMPWRIGHT_BROWSER',
    );
  return found;
}

export const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: findBrowser(), args: ARGUMENTS });

export interface Served {
  url: string;
  close(): Promise<void>;
}

/** The sources as they are, for pages that are not in the build (the gallery); `plugins` change some. */
export async function serveSources(plugins: Plugin[] = []): Promise<Served> {
  const server = await createServer({
    configFile: join(ROOT, 'vite.config.ts'),
    root: join(ROOT, 'web'),
    logLevel: 'error',
    plugins,
    server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
    cacheDir: join(ROOT, 'node_modules', '.vite-tests'),
  });
  await server.listen();
  return { url: server.resolvedUrls!.local[0]!, close: () => server.close() };
}

/** The built page (`npm run build` first), as a visitor gets it. */
export async function serveBuilt(): Promise<Served> {
  if (!existsSync(join(ROOT, 'dist', 'web', 'index.html')))
    throw new Error('dist/web is not built: run npm run build first');
  const server = await preview({
    configFile: join(ROOT, 'vite.config.ts'),
    logLevel: 'error',
    preview: { port: 0, host: '127.0.0.1' },
  });
  return {
    url: server.resolvedUrls!.local[0]!,
    close: () =>
      new Promise((resolve, reject) =>
        server.httpServer.close((error) => (error ? reject(error) : resolve())),
      ),
  };
}

/** How long a page is waited for, milliseconds: only a fault is to fail, not a machine that is held up. */
const PATIENT = 120_000;

/**
 * A browser’s room of its own, with nothing kept from before. Keeping the page for use without a network is
 * asked for where that is tested: it fetches everything once more.
 */
export async function openContext(
  browser: Browser,
  options: BrowserContextOptions = {},
): Promise<BrowserContext> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    serviceWorkers: 'block',
    ...options,
  });
  context.setDefaultTimeout(PATIENT);
  return context;
}

/**
 * Waits for so many ticks of the page's own clock, `every` so many milliseconds: whatever the page does by
 * that clock has happened by then, however slow the machine is.
 */
export const ticks = (page: Page, many: number, every: number): Promise<void> =>
  page.evaluate(
    ([left, pause]) =>
      new Promise<void>((resolve) => {
        let count = 0;
        const timer = setInterval(() => {
          count += 1;
          if (count < left!) return;
          clearInterval(timer);
          resolve();
        }, pause);
      }),
    [many, every],
  );

export interface Opened {
  page: Page;
  context: BrowserContext;
  /** Errors of the page and what its policy refused, so far. */
  errors: string[];
}

/**
 * A page of its own, with nothing kept from before. Requests to any other address are refused and counted as
 * errors.
 */
export async function openPage(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  const context = await openContext(browser, { locale: 'en-GB', ...options });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  const own = new URL(url);
  page.on('request', (request) => {
    const asked = new URL(request.url());
    if (!['data:', 'blob:'].includes(asked.protocol) && asked.origin !== own.origin)
      errors.push(`asked ${request.url()}`);
  });
  await page.goto(url, { waitUntil: 'load' });
  return { page, context, errors };
}

/**
 * A page of its own that has been handed this cell by a link, at `hash`. How sure an answer is to be stands
 * in the cell: for what pages do with any answer, a few shifts are enough.
 */
export async function openCell(
  browser: Browser,
  url: string,
  cell: object,
  hash: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  const opened = await openPage(browser, `${url}${await shareHash(JSON.stringify(cell))}`, options);
  await opened.page.waitForURL((address) => !address.hash.startsWith('#cell='));
  await opened.page.evaluate((there) => (location.hash = there), `/${hash}`);
  return opened;
}

/** The demo shop, asked for a first answer only. */
export const soon = (): Scenario => ({
  ...(JSON.parse(readFileSync(join(ROOT, 'scenarios/chair-works.json'), 'utf8')) as Scenario),
  study: { precision: 5 },
});

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds against WCAG 2.2 AA, as "rule: where", empty when nothing. */
export async function axe(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    const { axe: checker } = window as unknown as {
      axe: { run(root: Document, options: object): Promise<AxeResult> };
    };
    return checker.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
  });
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.flat().join(' ')}: ${node.failureSummary ?? ''}`),
  );
}

/** What axe finds light and dark, on one page: what it shows is reckoned once. */
export async function axeInBoth(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    found.push(...(await axe(page)).map((one) => `${colorScheme}: ${one}`));
  }
  return found;
}

interface AxeResult {
  violations: { id: string; nodes: { target: (string | string[])[]; failureSummary?: string }[] }[];
}

/** Text as it is read: the space that the layout of the source leaves around and between words is one. */
export const asRead = (text: string | null): string => (text ?? '').replace(/\s+/g, ' ').trim();

/**
 * `npm run bench:web`: the built planner in a real browser, opened as a visitor opens it. Times in milliseconds from the start of the
 * navigation, or from a change; the best and the worst of a few openings, since machines are noisy.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { preview } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
const openings = Number(process.argv[2] ?? 3);
const browserAt = process.env.CLAMPWRIGHT_BROWSER ?? '/usr/bin/chromium';
const browser = await chromium.launch({
  executablePath: browserAt,
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'],
});
const server = await preview({ configFile: join(root, 'vite.config.ts'), logLevel: 'error', preview: { port: 0, host: '127.0.0.1' } });
const url = server.resolvedUrls.local[0];

/** What the page tells of itself: when an answer first stood there, when it was final, tasks over 50 ms. */
function watch() {
  window.longTasks = [];
  new PerformanceObserver((list) => list.getEntries().forEach((entry) => window.longTasks.push(Math.round(entry.duration)))).observe({ type: 'longtask', buffered: true });
  const look = () => {
    const page = document.querySelector('cw-app')?.shadowRoot?.querySelector('cw-compare');
    const sheet = page?.shadowRoot?.querySelector('cw-sheet');
    if (sheet && !/being run/.test(sheet.answer)) window.firstAnswer ??= performance.now();
    if (page?.study?.state.kind === 'done') window.finalAnswer ??= performance.now();
    requestAnimationFrame(look);
  };
  look();
}

/** Changes a value of the cell and waits for what the page makes of it. */
async function change([place, value]) {
  window.longTasks.length = 0;
  const page = document.querySelector('cw-app').shadowRoot.querySelector('cw-compare');
  const began = performance.now();
  const before = page.study.answer;
  page.store.change('bench', place, value);
  let first = 0;
  for (;;) {
    await new Promise((resolve) => requestAnimationFrame(resolve));
    if (first === 0 && page.study.answer !== before) first = performance.now() - began;
    if (first > 0 && page.study.state.kind === 'done') return { first, final: performance.now() - began, longest: Math.max(0, ...window.longTasks) };
  }
}

const rows = { 'opening: first answer': [], 'opening: final, eight options and the base': [], 'opening: longest task': [] };
const note = (name, value) => (rows[name] ??= []).push(value);
for (let i = 0; i < openings; i++) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.addInitScript(watch);
  await page.goto(url);
  await page.waitForFunction(() => window.finalAnswer, null, { timeout: 120_000 });
  const opened = await page.evaluate(() => ({ first: window.firstAnswer, final: window.finalAnswer, longest: Math.max(0, ...window.longTasks) }));
  note('opening: first answer', opened.first);
  note('opening: final, eight options and the base', opened.final);
  note('opening: longest task', opened.longest);
  for (const [name, place, value] of [['one option changed', ['options', 'cold-shop', 'changes', 'steps', 'cure', 'time'], 44], ['the cell changed', ['steps', 'fit', 'time', 'mean'], 14]]) {
    const changed = await page.evaluate(change, [place, value]);
    note(`${name}: first answer`, changed.first);
    note(`${name}: final`, changed.final);
    note(`${name}: longest task`, changed.longest);
  }
  await context.close();
}
await browser.close();
await server.close?.();
server.httpServer.close();

const width = Math.max(...Object.keys(rows).map((name) => name.length));
console.log(`${'ms'.padEnd(width)}  best  worst`);
for (const [name, values] of Object.entries(rows)) {
  console.log(`${name.padEnd(width)}  ${String(Math.round(Math.min(...values))).padStart(4)}  ${String(Math.round(Math.max(...values))).padStart(5)}`);
}
const assets = join(root, 'dist/web/assets');
const scripts = readdirSync(assets).filter((file) => file.endsWith('.js')).map((file) => ({ file, size: gzipSync(readFileSync(join(assets, file))).length }));
console.log(`\nScript, gzip, all pages and the worker: ${Math.round(scripts.reduce((sum, one) => sum + one.size, 0) / 1024)} KB`);
for (const { file, size } of scripts.sort((a, b) => b.size - a.size).slice(0, 6)) console.log(`  ${file.replace(/-[\w-]{8}\.js$/, '.js').padEnd(30)} ${Math.round(size / 1024)} KB`);
process.exit(0);

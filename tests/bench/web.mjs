/**
 * `npm run bench:web`: the built planner in a real browser, opened as a visitor opens it. Times in
 * milliseconds from the start of the navigation, or from a change; the best and the worst of a few openings,
 * since machines are noisy.
 *
 * `-- --openings 5` for more of them; `--slow 4`: every page's processor that many times slower (a phone);
 * `--folder <built pages>` in place of dist/web.
 */
import { readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { preview } from 'vite';
import { tasksDuring } from './web/tasks.mjs';
import { change, turnTo, watch } from './web/watch.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { values: given } = parseArgs({
  options: {
    openings: { type: 'string', default: '3' },
    slow: { type: 'string', default: '1' },
    folder: { type: 'string', default: join(root, 'dist/web') },
  },
});
const slow = Number(given.slow);
const browser = await chromium.launch({
  executablePath: process.env.CLAMPWRIGHT_BROWSER ?? '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
  ],
});
const server = await preview({
  root,
  configFile: false,
  logLevel: 'error',
  build: { outDir: given.folder },
  preview: { port: 0, host: '127.0.0.1' },
});
const url = server.resolvedUrls.local[0];
const listed = [
  ...readFileSync(join(root, 'web/pages/list.ts'), 'utf8').matchAll(/word: '(\w+)'.*tag: '([\w-]+)'/g),
].map(([, word, tag]) => ({ word, tag }));
const CHANGES = [
  ['one option changed', ['options', 'cold-shop', 'changes', 'steps', 'cure', 'time'], 44],
  ['the cell changed', ['steps', 'fit', 'time', 'mean'], 14],
];

const rows = {};
const note = (name, value) => (rows[name] ??= []).push(value);
const noteLongest = (name, { longest, processor }) => {
  note(`${name}: longest task`, longest);
  note(`${name}: longest task, processor time`, processor);
};

async function visit() {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  const scripts = new Set();
  page.on(
    'request',
    (request) => /\.js$/.test(request.url()) && scripts.add(new URL(request.url()).pathname),
  );
  await page.addInitScript(watch);
  if (slow > 1)
    await (await context.newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate: slow });
  const opening = await tasksDuring(page, async () => {
    await page.goto(url);
    await page.waitForFunction(() => window.finalAnswer, null, { timeout: 120_000 });
    return page.evaluate(() => ({ first: window.firstAnswer, final: window.finalAnswer }));
  });
  note('opening: first answer', opening.result.first);
  note('opening: final, eight options and the base', opening.result.final);
  noteLongest('opening', opening);
  const opened = sizesOf(scripts);
  for (const [name, place, value] of CHANGES) {
    const changed = await tasksDuring(page, () => page.evaluate(change, [place, value]));
    note(`${name}: first answer`, changed.result.first);
    note(`${name}: final`, changed.result.final);
    noteLongest(name, changed);
  }
  for (const { word, tag } of [...listed].reverse()) {
    noteLongest(
      `turning to ${word}`,
      await tasksDuring(page, async () => {
        await page.evaluate(turnTo, tag);
        await page.waitForTimeout(1500);
      }),
    );
  }
  await context.close();
  return opened;
}

/** Name and gzipped bytes of every script asked for so far, workers included. */
const sizesOf = (scripts) =>
  [...scripts].map((path) => ({
    file: path.split('/').at(-1),
    size: gzipSync(readFileSync(join(given.folder, path))).length,
  }));

console.log(
  `Load of the machine before: ${loadavg()[0].toFixed(1)}${slow > 1 ? `; processor ${slow} times slower` : ''}`,
);
let opened = [];
for (let i = 0; i < Number(given.openings); i++) opened = await visit();
await browser.close();
server.httpServer.close();

const width = Math.max(...Object.keys(rows).map((name) => name.length));
console.log(`${'ms'.padEnd(width)}  best  worst`);
for (const [name, values] of Object.entries(rows)) {
  console.log(
    `${name.padEnd(width)}  ${String(Math.round(Math.min(...values))).padStart(4)}  ${String(Math.round(Math.max(...values))).padStart(5)}`,
  );
}
const kilobytes = (size) => `${Math.round(size / 1024)} KB`;
console.log(
  `\nScript of the opening page, gzip, its worker included: ${kilobytes(opened.reduce((sum, one) => sum + one.size, 0))}`,
);
for (const { file, size } of opened.sort((a, b) => b.size - a.size).slice(0, 6))
  console.log(`  ${file.replace(/-[\w-]{8}\.js$/, '.js').padEnd(30)} ${kilobytes(size)}`);
process.exit(0);

/**
 * The core in a browser, in the page and in a worker: compiled where the page's policy lets it, plain
 * JavaScript where it does not, and the bits of node both times.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { coreModule } from '../../src/core/compile.mjs';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { generatedDays, printsBy, type Prints } from '../engine/builds/told.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../support/shops.ts';
import { openBrowser, ROOT } from './support.ts';

const days: ResolvedShift[][] = [
  ...SHIPPED.map((name) => shiftsOf(shipped(name))),
  ...SHOPS.map((name) => shiftsOf(shop(name))),
  ...generatedDays(40),
];

let browser: Browser;
let script: string;

beforeAll(async () => {
  const outDir = mkdtempSync(join(tmpdir(), 'clampwright-core-'));
  try {
    await build({
      configFile: false,
      publicDir: false,
      logLevel: 'error',
      build: {
        outDir,
        minify: false,
        lib: {
          entry: join(ROOT, 'tests/engine/builds/told.ts'),
          formats: ['iife'],
          name: 'told',
          fileName: 'told',
        },
      },
      plugins: [coreModule()],
    });
    script = readFileSync(join(outDir, 'told.iife.js'), 'utf8');
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const ANSWER = 'self.onmessage = ({ data }) => self.postMessage(told.printsBy("own", data));';

/** What the page and a worker of its own tell under a policy for scripts. */
async function toldUnder(policy: string): Promise<Prints[]> {
  const page = await browser.newPage();
  const safe = script.replaceAll('</script', '<\\/script');
  await page.setContent(
    `<meta http-equiv="Content-Security-Policy" content="script-src 'nonce-own' blob: ${policy}; worker-src blob:"><script nonce="own">${safe}</script>`,
  );
  const prints = await page.evaluate(
    async ({ asked, source }) => {
      const { told } = self as unknown as { told: { printsBy(core: 'own', days: unknown): Prints } };
      const inPage = told.printsBy('own', asked);
      const worker = new Worker(URL.createObjectURL(new Blob([source])));
      const inWorker = await new Promise<Prints>((resolve, reject) => {
        worker.onmessage = ({ data }: MessageEvent<Prints>) => resolve(data);
        worker.onerror = ({ message }) => reject(new Error(message));
        worker.postMessage(asked);
      });
      worker.terminate();
      return [inPage, inWorker];
    },
    { asked: days, source: `${script};${ANSWER}` },
  );
  await page.close();
  return prints;
}

test.each([
  ['compiled, where the policy has the word for it', "'wasm-unsafe-eval'", 'WebAssembly'],
  ['as plain JavaScript, where the policy refuses to compile', '', 'JavaScript'],
])('page and worker tell what node tells: %s', async (_, policy, kind) => {
  const { prints } = printsBy('WebAssembly', days);
  expect(await toldUnder(policy)).toEqual([
    { kind, prints },
    { kind, prints },
  ]);
});

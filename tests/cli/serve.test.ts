import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, get, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { serve, type Serving } from '../../src/cli/serve.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-serve-'));
const pages = pathToFileURL(`${folder}/`);
writeFileSync(
  join(folder, 'index.html'),
  `<!doctype html><meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'">`,
);
mkdirSync(join(folder, 'assets'));
writeFileSync(join(folder, 'assets/worker-1234.js'), 'self.onmessage = null;');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Here = Extract<Serving, { kind: 'serving' }>;
const open: Here[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});
async function started(port: number, name = 'clampwright 1'): Promise<Here> {
  const serving = await serve(pages, port, name);
  if (serving.kind !== 'serving') expect.fail('a port was to be free');
  open.push(serving);
  return serving;
}
const portOf = ({ address }: { address: string }): number => Number(new URL(address).port);

function asked(
  address: string,
  host?: string,
): Promise<{ status: number | undefined; headers: IncomingHttpHeaders }> {
  return new Promise((resolve, reject) => {
    get(address, { ...(host === undefined ? {} : { headers: { host } }) }, (response) => {
      response.resume();
      resolve({ status: response.statusCode, headers: response.headers });
    }).on('error', reject);
  });
}

describe('the server', () => {
  it('sends the page’s policy with every file, workers too, and lets nobody put it in a frame', async () => {
    const { address } = await started(0);
    for (const path of ['', 'assets/worker-1234.js', 'nothing.js']) {
      const { headers } = await asked(`${address}${path}`);
      expect(headers['content-security-policy']).toBe(
        "default-src 'none'; script-src 'self'; frame-ancestors 'none'",
      );
      expect(headers['x-content-type-options']).toBe('nosniff');
    }
  });

  it('answers to this machine’s names only', async () => {
    const serving = await started(0);
    const port = portOf(serving);
    for (const host of [`127.0.0.1:${port}`, `localhost:${port}`, `LocalHost:${port}`])
      expect((await asked(serving.address, host)).status, host).toBe(200);
    for (const host of [
      'example.com',
      `example.com:${port}`,
      `127.0.0.1:${port + 1}`,
      'localhost',
      `0.0.0.0:${port}`,
    ])
      expect((await asked(serving.address, host)).status, host).toBe(421);
  });

  it('takes the next port where one is taken, and says which it was to be', async () => {
    const other = createServer((_, response) => response.end('something else'));
    const port = await new Promise<number>((resolve) =>
      other.listen(0, '127.0.0.1', () => resolve((other.address() as { port: number }).port)),
    );
    try {
      const serving = await started(port);
      expect(portOf(serving)).toBeGreaterThan(port);
      expect(serving.instead).toBe(`http://127.0.0.1:${port}/`);
    } finally {
      other.close();
    }
  });

  it('uses one of its own that is running already, but none of another version', async () => {
    const first = await started(0);
    expect(first.instead).toBeNull();
    expect(await serve(pages, portOf(first), 'clampwright 1')).toEqual({
      kind: 'running already',
      address: first.address,
    });
    const later = await started(portOf(first), 'clampwright 2');
    expect(later.instead).toBe(first.address);
  });
});

/** WebKitGTK, the engine of tablets, through its own driver over HTTP; without a screen, with Xvfb. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { Session, type Command, type Transport } from './session.ts';

export interface WebKitPlaces {
  driver: string;
  browser: string;
  /** Null where there is a screen. */
  screen: string | null;
}

const LIBRARIES = ['/usr/lib/x86_64-linux-gnu', '/usr/lib/aarch64-linux-gnu', '/usr/lib', '/usr/libexec'];

/** Null where any part is missing (Debian: webkit2gtk-driver, xvfb). */
export function findWebKit(): WebKitPlaces | null {
  const driver = ['/usr/bin/WebKitWebDriver', '/usr/lib/webkit2gtk-4.1/WebKitWebDriver'].find(existsSync);
  const browser = LIBRARIES.filter(existsSync)
    .flatMap((folder) =>
      readdirSync(folder)
        .filter((name) => name.startsWith('webkit'))
        .map((name) => `${folder}/${name}/MiniBrowser`),
    )
    .find(existsSync);
  const screen = process.env['DISPLAY'] ? null : (['/usr/bin/Xvfb'].find(existsSync) ?? 'none');
  return driver === undefined || browser === undefined || screen === 'none'
    ? null
    : { driver, browser, screen };
}

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

export async function openWebKit({ driver, browser, screen }: WebKitPlaces): Promise<Session> {
  const children: ChildProcess[] = [];
  const end = (): void => children.forEach((child) => child.kill('SIGKILL'));
  try {
    const display = screen === null ? process.env['DISPLAY']! : await openScreen(screen, children);
    const port = await freePort();
    children.push(
      spawn(driver, [`--port=${port}`], { stdio: 'ignore', env: { ...process.env, DISPLAY: display } }),
    );
    const base = `http://127.0.0.1:${port}/session`;
    const made = (await patiently(() =>
      ask(base, 'POST', {
        capabilities: {
          alwaysMatch: { 'webkitgtk:browserOptions': { binary: browser, args: ['--automation'] } },
        },
      }),
    )) as { sessionId: string; capabilities: { browserVersion: string } };
    const transport = new DriverOverHttp(`${base}/${made.sessionId}`, end);
    return new Session(`WebKitGTK ${made.capabilities.browserVersion}`, transport);
  } catch (error) {
    end();
    throw error;
  }
}

/** A screen nobody sees; Xvfb chooses the number and writes it down. */
function openScreen(path: string, children: ChildProcess[]): Promise<string> {
  const child = spawn(path, ['-displayfd', '1', '-screen', '0', '1280x900x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  children.push(child);
  return new Promise((resolve, reject) => {
    child.once('exit', () => reject(new Error('Xvfb ended at once')));
    child.stdout.once('data', (data: Buffer) => resolve(`:${data.toString().trim()}`));
  });
}

/** The driver takes a moment to listen. */
async function patiently<T>(act: () => Promise<T>): Promise<T> {
  for (let tries = 0; ; tries++) {
    try {
      return await act();
    } catch (error) {
      if (tries >= 50 || !(error instanceof TypeError)) throw error;
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
  }
}

async function ask(url: string, method: string, body?: unknown): Promise<unknown> {
  const answer = await fetch(url, { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
  const { value } = (await answer.json()) as { value: unknown };
  if (!answer.ok) throw new Error(`${method} ${url}: ${(value as { message?: string } | null)?.message}`);
  return value;
}

class DriverOverHttp implements Transport {
  private readonly base: string;
  private readonly end: () => void;

  constructor(base: string, end: () => void) {
    this.base = base;
    this.end = end;
  }

  send({ http: [method, path] }: Command, parameters?: Record<string, unknown>): Promise<unknown> {
    return ask(`${this.base}${path}`, method, method === 'POST' ? (parameters ?? {}) : undefined);
  }

  async close(): Promise<void> {
    await ask(this.base, 'DELETE').catch(() => {});
    this.end();
  }
}

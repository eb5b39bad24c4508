/** Firefox through its own remote socket (Marionette): WebDriver's commands, each with its length before. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Session, type Transport } from './session.ts';

const PLACES = [
  '/usr/bin/firefox-esr',
  '/usr/bin/firefox',
  '/snap/bin/firefox',
  '/Applications/Firefox.app/Contents/MacOS/firefox',
  'C:\\Program Files\\Mozilla Firefox\\firefox.exe',
];

/** The Firefox that CLAMPWRIGHT_FIREFOX names, else one in the usual places; null where there is none. */
export function findFirefox(): string | null {
  const named = process.env['CLAMPWRIGHT_FIREFOX'];
  return [...(named === undefined || named === '' ? [] : [named]), ...PLACES].find(existsSync) ?? null;
}

/** Nothing asks the network by itself, and nothing asks the visitor. */
const SETTINGS: Record<string, string | number | boolean> = {
  'marionette.port': 0,
  'app.update.disabledForTesting': true,
  'browser.shell.checkDefaultBrowser': false,
  'datareporting.policy.dataSubmissionEnabled': false,
  'toolkit.telemetry.server': '',
  'services.settings.server': 'data:,',
  'network.captive-portal-service.enabled': false,
  'network.connectivity-service.enabled': false,
  'extensions.update.enabled': false,
  'browser.aboutwelcome.enabled': false,
};

const waits = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export async function openFirefox(path: string): Promise<Session> {
  const profile = mkdtempSync(join(tmpdir(), 'clampwright-firefox-'));
  const lines = Object.entries(SETTINGS).map(
    ([key, value]) => `user_pref(${JSON.stringify(key)}, ${JSON.stringify(value)});\n`,
  );
  writeFileSync(join(profile, 'user.js'), lines.join(''));
  const child = spawn(path, ['--headless', '--marionette', '--no-remote', '--profile', profile], {
    stdio: 'ignore',
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const clean = async (): Promise<void> => {
    await Promise.race([ended, waits(5000)]);
    child.kill('SIGKILL');
    await ended;
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    const port = await portOf(join(profile, 'MarionetteActivePort'));
    const transport = new MarionetteSocket(await socketTo(port), clean);
    const made = (await transport.send(
      { name: 'WebDriver:NewSession' },
      { capabilities: { alwaysMatch: {} } },
    )) as { capabilities: { browserVersion: string } };
    return new Session(`Firefox ${made.capabilities.browserVersion}`, transport);
  } catch (error) {
    child.kill('SIGKILL');
    await clean();
    throw error;
  }
}

async function portOf(file: string): Promise<number> {
  for (let tries = 0; tries < 600; tries++) {
    const port = existsSync(file) ? Number(readFileSync(file, 'utf8')) : 0;
    if (port > 0) return port;
    await waits(100);
  }
  throw new Error('Firefox did not open its remote socket in a minute');
}

const socketTo = (port: number): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket));
    socket.once('error', reject);
  });

type Answer = [kind: number, id: number, error: { message: string } | null, result: unknown];

class MarionetteSocket implements Transport {
  private readonly socket: Socket;
  private readonly clean: () => Promise<void>;
  private readonly waiting = new Map<number, (answer: Answer) => void>();
  private heard = Buffer.alloc(0);
  private count = 0;

  constructor(socket: Socket, clean: () => Promise<void>) {
    this.socket = socket;
    this.clean = clean;
    socket.on('data', (data) => {
      this.heard = Buffer.concat([this.heard, data]);
      while (this.next());
    });
    socket.on('error', () => {});
    socket.on('close', () => {
      for (const [id, answer] of this.waiting) answer([1, id, { message: 'the browser is gone' }, null]);
      this.waiting.clear();
    });
  }

  /** One message, `length:json`; false where there is no whole one yet. */
  private next(): boolean {
    const colon = this.heard.indexOf(':');
    const length = Number(this.heard.subarray(0, Math.max(0, colon)).toString());
    if (colon < 0 || this.heard.length < colon + 1 + length) return false;
    const message: unknown = JSON.parse(this.heard.subarray(colon + 1, colon + 1 + length).toString());
    this.heard = this.heard.subarray(colon + 1 + length);
    if (Array.isArray(message)) {
      const answer = message as Answer;
      this.waiting.get(answer[1])?.(answer);
      this.waiting.delete(answer[1]);
    }
    return true;
  }

  async send({ name }: { name: string }, parameters: Record<string, unknown> = {}): Promise<unknown> {
    const id = (this.count += 1);
    const text = JSON.stringify([0, id, name, parameters]);
    const [, , error, result] = await new Promise<Answer>((resolve) => {
      this.waiting.set(id, resolve);
      this.socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
    if (error !== null) throw new Error(`${name}: ${error.message}`);
    // Most answers are wrapped in a `value`; those that are not are groups of their own.
    return typeof result === 'object' && result !== null && 'value' in result ? result.value : result;
  }

  async close(): Promise<void> {
    await this.send({ name: 'Marionette:Quit' }, { flags: ['eForceQuit'] }).catch(() => {});
    this.socket.destroy();
    await this.clean();
  }
}

/** A whole browser killed while somebody types: what it said was kept is there when it opens again. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { ARGUMENTS, findBrowser } from '../support.ts';

export class OwnBrowser {
  private readonly profile = mkdtempSync(join(tmpdir(), 'clampwright-kill-'));
  private child: ChildProcess | null = null;
  private browser: Browser | null = null;

  async open(url: string): Promise<Page> {
    const portFile = join(this.profile, 'DevToolsActivePort');
    rmSync(portFile, { force: true });
    this.child = spawn(
      findBrowser(),
      [
        ...ARGUMENTS,
        '--headless=new',
        '--remote-debugging-port=0',
        `--user-data-dir=${this.profile}`,
        'about:blank',
      ],
      { stdio: 'ignore', detached: true },
    );
    for (let tries = 0; !existsSync(portFile); tries++) {
      if (tries > 600) throw new Error('the browser did not open its port in a minute');
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    const [port] = readFileSync(portFile, 'utf8').split('\n');
    this.browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const page = await this.browser.contexts()[0]!.newPage();
    await page.goto(url);
    return page;
  }

  /** Without a word, all of its processes at once. */
  async kill(): Promise<void> {
    const { child } = this;
    if (child?.pid === undefined) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    process.kill(-child.pid, 'SIGKILL');
    await ended;
    await this.browser?.close().catch(() => {});
    this.child = null;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 10 });
  }
}

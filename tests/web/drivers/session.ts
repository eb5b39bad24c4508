/**
 * A browser driven by the W3C's WebDriver commands (w3.org/TR/webdriver2), whichever way they travel: over
 * HTTP to WebKit's driver, or over Firefox's own socket, which needs no driver beside it.
 */

/** One command: its name on Firefox's socket, its method and path over HTTP. */
export interface Command {
  name: string;
  http: [method: 'GET' | 'POST' | 'DELETE', path: string];
}

export interface Transport {
  /** @throws an Error with the browser's words where it refuses. */
  send(command: Command, parameters?: Record<string, unknown>): Promise<unknown>;
  close(): Promise<void>;
}

const GO: Command = { name: 'WebDriver:Navigate', http: ['POST', '/url'] };
const RELOAD: Command = { name: 'WebDriver:Refresh', http: ['POST', '/refresh'] };
const RUN: Command = { name: 'WebDriver:ExecuteScript', http: ['POST', '/execute/sync'] };
const SHOT: Command = { name: 'WebDriver:TakeScreenshot', http: ['GET', '/screenshot'] };
const NEW_TAB: Command = { name: 'WebDriver:NewWindow', http: ['POST', '/window/new'] };
const TO_TAB: Command = { name: 'WebDriver:SwitchToWindow', http: ['POST', '/window'] };
const TAB: Command = { name: 'WebDriver:GetWindowHandle', http: ['GET', '/window'] };
const PRINT: Command = { name: 'WebDriver:Print', http: ['POST', '/print'] };
const keysTo = (id: string): Command => ({
  name: 'WebDriver:ElementSendKeys',
  http: ['POST', `/element/${id}/value`],
});

/** The key under which an element is handed over (WebDriver, "web element identifier"). */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

/**
 * What every script may use: `deep(selector)` finds an element through all shadow roots, `deepAll` all of
 * them, `byText(selector, text)` the first whose text has `text` in it.
 */
const HELPERS = `
  const deepAll = (selector, root = document) => [
    ...root.querySelectorAll(selector),
    ...[...root.querySelectorAll('*')].flatMap((one) => (one.shadowRoot ? deepAll(selector, one.shadowRoot) : [])),
  ];
  const deep = (selector) => deepAll(selector)[0] ?? null;
  const byText = (selector, text) => deepAll(selector).find((one) => one.textContent.includes(text)) ?? null;
  const app = () => document.querySelector('cw-app');
`;

export class Session {
  readonly name: string;
  private readonly transport: Transport;

  constructor(name: string, transport: Transport) {
    this.name = name;
    this.transport = transport;
  }

  async go(url: string): Promise<void> {
    await this.transport.send(GO, { url });
  }

  async reload(): Promise<void> {
    await this.transport.send(RELOAD, {});
  }

  /** Runs the body of a function in the page; see HELPERS for what it may use. */
  async run<T>(body: string, ...args: unknown[]): Promise<T> {
    return (await this.transport.send(RUN, { script: HELPERS + body, args })) as T;
  }

  /** Runs it again until it gives something true. @throws where it does not in time, with what it gave. */
  async until<T>(body: string, args: unknown[] = [], ms = 60_000): Promise<T> {
    const end = Date.now() + ms;
    for (let last: unknown = null; ;) {
      try {
        last = await this.run(body, ...args);
        if (last !== null && last !== false && last !== '' && last !== undefined) return last as T;
      } catch (error) {
        last = error;
      }
      if (Date.now() > end)
        throw new Error(`${this.name}: not in ${ms} ms: ${body}; the last: ${String(last)}`);
      await new Promise((resolve) => setTimeout(resolve, 150));
    }
  }

  /** Real keys into the element that a script returns; for a file field, the path of the file. */
  async keys(body: string, text: string): Promise<void> {
    const found = await this.until<Record<string, string>>(body);
    await this.transport.send(keysTo(found[ELEMENT]!), { id: found[ELEMENT], text });
  }

  async newTab(): Promise<string> {
    return ((await this.transport.send(NEW_TAB, { type: 'tab' })) as { handle: string }).handle;
  }

  async tab(): Promise<string> {
    return (await this.transport.send(TAB)) as string;
  }

  async toTab(handle: string): Promise<void> {
    await this.transport.send(TO_TAB, { handle });
  }

  async shot(): Promise<Buffer> {
    return Buffer.from((await this.transport.send(SHOT, { full: false })) as string, 'base64');
  }

  /** The page as PDF. @throws where the browser cannot. */
  async print(): Promise<Buffer> {
    return Buffer.from((await this.transport.send(PRINT, {})) as string, 'base64');
  }

  end(): Promise<void> {
    return this.transport.close();
  }
}

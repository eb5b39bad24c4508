/** Serves the built pages, to this machine alone. */
import { createReadStream } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import { createServer, get, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const HOST = '127.0.0.1';
/** Names of this machine that a browser may have come by; any other means a page from elsewhere asks. */
const NAMES = ['127.0.0.1', 'localhost', '[::1]'];
/** The next free port is looked for so far up. */
const PORTS = 50;

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
};

export type Serving =
  /** `instead`: the address asked for first, which something else has; null where it was free. */
  | { kind: 'serving'; address: string; instead: string | null; close(): Promise<void> }
  /** The same planner is being served there already. */
  | { kind: 'running already'; address: string };

const addressOf = (port: number): string => `http://${HOST}:${port}/`;

/**
 * @param folder holds index.html. @param port the first one tried; 0: any free one. @param name what the
 * server calls itself: "clampwright 0.2.0"; one of the same name that runs already is used.
 * @throws Error where there is nothing to serve, or no port is free.
 */
export async function serve(folder: URL, port: number, name: string): Promise<Serving> {
  const root = await realpath(fileURLToPath(folder)).catch(() => null);
  if (root === null || !(await isFile(join(root, 'index.html'))))
    throw new Error('The pages are not built. Build them first: npm run build');
  const always = {
    Server: name,
    // The page's own policy, which is a meta element there, for every file: workers have no other. That
    // nobody may put the page into a frame can be said in a header only.
    'Content-Security-Policy': `${policyOf(await readFile(join(root, 'index.html'), 'utf8'))}frame-ancestors 'none'`,
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Resource-Policy': 'same-origin',
  };
  const server = createServer((request, response) => {
    for (const [key, value] of Object.entries(always)) response.setHeader(key, value);
    void answer(root, request, response);
  });
  const taken = await listen(server, port, name);
  if (taken.kind === 'ours') return { kind: 'running already', address: addressOf(taken.port) };
  return {
    kind: 'serving',
    address: addressOf(taken.port),
    instead: port === 0 || taken.port === port ? null : addressOf(port),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** The policy of the page's meta element, ready to be added to; '' where it has none. */
function policyOf(html: string): string {
  const found = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(html)?.[1];
  return found === undefined ? '' : `${found}; `;
}

type Found = { kind: 'free' | 'ours'; port: number };

async function listen(server: Server, first: number, name: string): Promise<Found> {
  for (let port = first; port < first + PORTS; port++) {
    const taken = await tryPort(server, port);
    if (taken !== null) return { kind: 'free', port: taken };
    if ((await serverAt(port)) === name) return { kind: 'ours', port };
  }
  throw new Error(`No port from ${first} to ${first + PORTS - 1} is free. Name another: --port 8000`);
}

/** What the server at a port of this machine calls itself; '' where it says nothing within a second. */
function serverAt(port: number): Promise<string> {
  return new Promise((resolve) => {
    const request = get({ host: HOST, port, path: '/', timeout: 1000 }, (response) => {
      response.resume();
      resolve(String(response.headers.server ?? ''));
    });
    request.on('timeout', () => request.destroy());
    request.on('error', () => resolve(''));
  });
}

/** The port listened on, or null where it is taken. */
function tryPort(server: Server, port: number): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const onError = (error: NodeJS.ErrnoException): void => {
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') resolve(null);
      else reject(error);
    };
    server.once('error', onError);
    server.listen(port, HOST, () => {
      server.off('error', onError);
      const address = server.address();
      resolve(typeof address === 'object' && address !== null ? address.port : port);
    });
  });
}

async function answer(root: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (!isHere(request)) return plain(response, 421, 'This planner answers to this machine only.');
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return plain(response, 405, 'Only pages are served here.');
  const path = await fileOf(root, request.url ?? '/');
  if (path === null) return plain(response, 404, 'There is no such page.');
  response.writeHead(200, {
    'Content-Type': TYPES[extname(path).toLowerCase()] ?? 'application/octet-stream',
    // Names of built files carry a hash of what is in them; the page and the service worker do not.
    'Cache-Control': path.includes(`${sep}assets${sep}`) ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  createReadStream(path)
    .on('error', () => response.destroy())
    .pipe(response);
}

/**
 * Whether the request names this machine. A page from elsewhere that has its own name lead to 127.0.0.1 (DNS
 * rebinding) gives itself away by it.
 */
function isHere({ headers, socket }: IncomingMessage): boolean {
  const host = headers.host?.toLowerCase() ?? '';
  const port = socket.localPort ?? 0;
  return NAMES.some((name) => host === `${name}:${port}` || (port === 80 && host === name));
}

/**
 * The file an address stands for, or null: nothing outside the folder is ever served, by way of a link
 * either.
 */
async function fileOf(root: string, url: string): Promise<string | null> {
  try {
    const { pathname } = new URL(url, `http://${HOST}`);
    const wanted = join(root, decodeURIComponent(pathname));
    const path = await realpath((await isFile(wanted)) ? wanted : join(wanted, 'index.html'));
    return path.startsWith(root + sep) ? path : null;
  } catch {
    return null;
  }
}

const isFile = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isFile(),
    () => false,
  );

function plain(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8' }).end(`${text}\n`);
}

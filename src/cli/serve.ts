/** Serves the built pages, to this machine alone. */
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const HOST = '127.0.0.1';
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

export interface Serving {
  address: string;
  close(): Promise<void>;
}

/**
 * @param folder holds index.html. @param port the first one tried; 0: any free one.
 * @throws Error where there is nothing to serve, or no port is free.
 */
export async function serve(folder: URL, port: number): Promise<Serving> {
  const root = await realpath(fileURLToPath(folder)).catch(() => null);
  if (root === null || !(await isFile(join(root, 'index.html'))))
    throw new Error('The pages are not built. Build them first: npm run build');
  const server = createServer((request, response) => void answer(root, request, response));
  const taken = await listen(server, port);
  return {
    address: `http://${HOST}:${taken}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

async function listen(server: Server, first: number): Promise<number> {
  for (let port = first; port < first + PORTS; port++) {
    const taken = await tryPort(server, port);
    if (taken !== null) return taken;
  }
  throw new Error(`No port from ${first} to ${first + PORTS - 1} is free. Name another: --port 8000`);
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
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return plain(response, 405, 'Only pages are served here.');
  const path = await fileOf(root, request.url ?? '/');
  if (path === null) return plain(response, 404, 'There is no such page.');
  response.writeHead(200, {
    'Content-Type': TYPES[extname(path).toLowerCase()] ?? 'application/octet-stream',
    'X-Content-Type-Options': 'nosniff',
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

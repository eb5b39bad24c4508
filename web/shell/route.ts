/** The address: `#/compare`, `#/replay/17`; a shared cell is `#cell=…` (store/share.ts). */
import { Value } from '../store/value.ts';

export interface Route {
  page: string;
  /** What follows the page, decoded. */
  rest: string[];
}

export function readRoute(hash: string): Route {
  const [page = '', ...rest] = hash
    .replace(/^#\/?/, '')
    .split('/')
    .map((part) => {
      try {
        return decodeURIComponent(part);
      } catch {
        return part;
      }
    });
  return { page, rest };
}

export const addressOf = (page: string, ...rest: string[]): string =>
  `#/${[page, ...rest].map(encodeURIComponent).join('/')}`;

/** The route now; set by the address bar and by links. */
export const route = new Value<Route>(readRoute(globalThis.location?.hash ?? ''));
globalThis.addEventListener?.('hashchange', () => route.set(readRoute(location.hash)));

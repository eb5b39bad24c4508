import { say } from '../parts/notice.ts';

/** Says on the page that a worker was lost; what it was at is begun again by another. */
export const sayLost = (why: string): void =>
  say(`A worker ${why}. Another has taken its place and begins the same work again.`, { kind: 'wrong' });

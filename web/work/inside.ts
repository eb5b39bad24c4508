/**
 * A worker's end of the line in a browser. In the single file a worker is a classic script in a blob: no
 * top-level await and no import() in a worker or in what it imports.
 */
import type { Port } from '../../src/work/serve.ts';
import { aTurn } from './turn.ts';

export const port: Port = {
  post: (message, transfer = []) => (self as unknown as Worker).postMessage(message, transfer),
  listen: (hear) => {
    self.onmessage = ({ data }: MessageEvent<unknown>) => hear(data);
  },
  turn: aTurn,
};

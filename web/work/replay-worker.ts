/** The inside of the worker that writes down one shift, minute by minute. Classic script in the single file: no top-level await, no import(). */
import { recordReplay } from '../../src/record/replay.ts';
import type { FromReplay, ToReplay } from './replay.ts';

self.onmessage = ({ data }: MessageEvent<ToReplay>): void => {
  const tell = (message: FromReplay): void => (self as unknown as Worker).postMessage(message);
  try {
    tell({ kind: 'told', id: data.id, shifts: recordReplay(data.shifts, data.replication) });
  } catch (error) {
    tell({ kind: 'failed', id: data.id, message: error instanceof Error ? error.message : String(error) });
  }
};

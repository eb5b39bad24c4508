/** The inside of a thread that runs jobs. */
import { parentPort } from 'node:worker_threads';
import { serveJobs } from './serve-jobs.ts';

if (parentPort === null) throw new Error('this file is the inside of a thread and does nothing on its own');
const port = parentPort;

serveJobs({
  post: (message, transfer) => port.postMessage(message, transfer),
  listen: (hear) => port.on('message', hear),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
});

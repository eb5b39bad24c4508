// Runs the cases it is told, until it is told null.
import { parentPort, workerData } from 'node:worker_threads';

const { caseRows } = await import(workerData.module);
parentPort.on('message', (at) => {
  if (at === null) parentPort.close();
  else parentPort.postMessage({ at, rows: caseRows(at, workerData.length, workerData.markdown) });
});

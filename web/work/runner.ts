/** The one runner of the whole app, started when it is first asked for. */
import type { Runner } from '../../src/record/job.ts';
import { sayLost } from './lost.ts';
import { rememberingRunner } from './remembering.ts';
import Maker from './study-worker.ts?worker';
import { usualWidth, workerRunner } from './worker-runner.ts';

const MOST_WORKERS = 4;
let shared: Runner | null = null;

export function appRunner(): Runner {
  shared ??= rememberingRunner(
    workerRunner({
      make: () => new Maker(),
      width: Math.min(MOST_WORKERS, usualWidth()),
      lost: sayLost,
    }),
  );
  return shared;
}

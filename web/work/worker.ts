/**
 * The pool's workers as workers of a browser.
 *
 * How a worker gets into the page, here and for any other: `import Maker from './some-worker.ts?worker'` and
 * `new Maker()`. Never `new Worker(new URL(…))`: in the single file the worker travels inside the page, and
 * only the first form is turned into that.
 */
import type { FromWorker, Transport } from '../../src/work/messages.ts';

/** @param make makes a worker whose inside serves (inside.ts). */
export const workers =
  <Question, Answer, Stage>(make: () => Worker): Transport<Question, Answer, Stage> =>
  (hear, lost) => {
    const worker = make();
    worker.onmessage = ({ data }: MessageEvent<FromWorker<Answer, Stage>>) => hear(data);
    worker.onmessageerror = () => lost('said something that cannot be read');
    worker.onerror = (event) => {
      event.preventDefault();
      lost(event.message === undefined ? 'could not be started' : `ended: ${event.message}`);
    };
    return {
      send: (message) => worker.postMessage(message),
      end: () => {
        worker.terminate();
        return Promise.resolve();
      },
    };
  };

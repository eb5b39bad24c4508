/** The program as a function, which a thread of its own waits for: to whoever calls it is a plain call. */
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';

export interface Ended {
  code: number | null;
  out: string;
  err: string;
}

/** No command of the tests takes as long, milliseconds. */
const LONGEST = 240_000;

/** @param program the address of the built src/cli/program.ts */
export function calledFrom(program: URL): (words: string[]) => Ended {
  const done = new Int32Array(new SharedArrayBuffer(4));
  const { port1, port2 } = new MessageChannel();
  const worker = new Worker(new URL('./called.mjs', import.meta.url), {
    workerData: { port: port2, done, program: program.href },
    transferList: [port2],
  });
  worker.unref();
  return (words) => {
    Atomics.store(done, 0, 0);
    port1.postMessage(words);
    if (Atomics.wait(done, 0, 0, LONGEST) === 'timed-out') throw new Error(`no end: ${words.join(' ')}`);
    return (receiveMessageOnPort(port1) as { message: Ended }).message;
  };
}

// The inside of a thread that calls the built program's function, one command after another.
import { workerData } from 'node:worker_threads';

const { port, done, program } = workerData;
const { main } = await import(program);

port.on('message', async (words) => {
  let [out, err] = ['', ''];
  const code = await main(words, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    alone: true,
  });
  port.postMessage({ code, out, err });
  Atomics.store(done, 0, 1);
  Atomics.notify(done, 0);
});

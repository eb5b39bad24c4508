import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { runJob, type Job, type Runner } from '../../src/record/job.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { threadRunner } from '../../src/work/threads.ts';

const ENTRY = new URL('../../dist/cli/thread.js', import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'clampwright-threads-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const shift = resolve({
  format: 1,
  name: 'One step',
  steps: { glue: { time: { mean: 12, cv: 0.3 } } },
  people: { ada: { covers: ['glue'] } },
});
const job = (from: number, count: number): Job => ({ shifts: [shift], from, count });

let runner: Runner | null = null;
afterEach(async () => {
  await runner?.close();
  runner = null;
});

/**
 * An entry that behaves badly as `first` says while `flag` is not there yet, and is the real one afterwards.
 */
function badEntry(name: string, first: string): URL {
  const flag = join(folder, `${name}.flag`);
  const path = join(folder, `${name}.mjs`);
  writeFileSync(
    path,
    `
    import { existsSync, writeFileSync } from 'node:fs';
    import { parentPort } from 'node:worker_threads';
    if (existsSync(${JSON.stringify(flag)})) await import(${JSON.stringify(ENTRY.href)});
    else { writeFileSync(${JSON.stringify(flag)}, ''); parentPort.on('message', () => { ${first} }); }
  `,
  );
  return pathToFileURL(path);
}

/** An entry that never does its work. */
function hopelessEntry(name: string, always: string): URL {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(
    path,
    `import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => { ${always} });`,
  );
  return pathToFileURL(path);
}

describe('threads', () => {
  it('give the rows a run in line gives, whatever their number and the size of the jobs', async () => {
    const whole = runJob(job(0, 40)).rows[0]!;
    for (const width of [1, 3]) {
      runner = threadRunner({ width, entry: ENTRY });
      const parts = await Promise.all([job(0, 7), job(7, 1), job(8, 32)].map((one) => runner!.run(one)));
      expect(parts.flatMap((part) => [...part.rows[0]!])).toEqual([...whole]);
      await runner.close();
    }
    expect([...(await inLineRunner().run(job(0, 40))).rows[0]!]).toEqual([...whole]);
  });

  it('do a job again on another thread where one dies', async () => {
    runner = threadRunner({ width: 1, entry: badEntry('dies', 'process.exit(7);') });
    expect((await runner.run(job(0, 10))).rows[0]).toEqual(runJob(job(0, 10)).rows[0]);
  });

  it('do a job again on another thread where one hangs', async () => {
    runner = threadRunner({ width: 1, entry: badEntry('hangs', 'for (;;);'), silence: 4000 });
    expect((await runner.run(job(3, 10))).rows[0]).toEqual(runJob(job(3, 10)).rows[0]);
  });

  it('give a job up that ends three threads in a row, and say so', async () => {
    runner = threadRunner({ width: 2, entry: hopelessEntry('always-dies', 'process.exit(7);') });
    await expect(runner.run(job(0, 10))).rejects.toThrow(
      /3 threads in a row were lost with them; the last one ended with code 7/,
    );
  });

  it('stop at once when asked to, busy ones too, and take new work afterwards', async () => {
    runner = threadRunner({ width: 1, entry: badEntry('stops', 'for (;;);') });
    const stop = new AbortController();
    const outcomes = Promise.allSettled([
      runner.run(job(0, 10), stop.signal),
      runner.run(job(10, 10), stop.signal),
    ]);
    // The flag says that the thread is up; the job it is asked for then never ends.
    await expect.poll(() => existsSync(join(folder, 'stops.flag')), { timeout: 30_000 }).toBe(true);
    stop.abort(new Error('enough'));
    for (const outcome of await outcomes)
      expect(outcome).toMatchObject({ status: 'rejected', reason: { message: 'enough' } });
    // The thread never ends by itself, and there is no other: it was ended.
    await expect(runner.run(job(0, 5), stop.signal)).rejects.toThrow('enough');
    expect((await runner.run(job(0, 5))).count).toBe(5);
  });

  it('hand a shift that never ends back as an error with its name, and live on', async () => {
    const round = resolve({
      format: 1,
      name: 'Round',
      people: { ada: { covers: ['a', 'b'] } },
      intake: { kind: 'at start', units: 2 },
      steps: { a: { time: 0 }, b: { time: 0, rework: [{ to: 'a', percent: 100 }] } },
    });
    runner = threadRunner({ width: 1, entry: ENTRY });
    await expect(runner.run({ shifts: [round], from: 0, count: 1 })).rejects.toMatchObject({
      name: 'RunawayError',
      message: expect.stringContaining('units go round') as string,
    });
    expect((await runner.run(job(0, 5))).count).toBe(5);
  });

  it('leave nothing waiting when closed', async () => {
    const closing = threadRunner({ width: 1, entry: hopelessEntry('never', '') });
    const waiting = Promise.allSettled([closing.run(job(0, 5)), closing.run(job(5, 5))]);
    await closing.close();
    expect((await waiting).map((one) => one.status)).toEqual(['rejected', 'rejected']);
  });

  it('refuse a number of threads that is none', () => {
    expect(() => threadRunner({ width: 0, entry: ENTRY })).toThrow(RangeError);
    expect(() => threadRunner({ width: 1.5, entry: ENTRY })).toThrow(RangeError);
  });
});

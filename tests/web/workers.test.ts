import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runJob, type Job } from '../../src/record/job.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type * as RunnerModule from '../../web/work/worker-runner.ts';
import { openBrowser, openPage, ROOT, serveSources, type Served } from './support.ts';

let browser: Browser;
let served: Served;
let page: Page;
let job: Job;

interface Loaded {
  runner: typeof RunnerModule;
  Maker: new () => Worker;
}
declare global {
  interface Window {
    loaded: Promise<Loaded>;
  }
}

beforeAll(async () => {
  const reading = readScenario(readFileSync(join(ROOT, 'scenarios/chair-works.json'), 'utf8'));
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  job = { shifts: shiftsOf(reading.scenario), from: 0, count: 40 };
  [browser, served] = await Promise.all([openBrowser(), serveSources()]);
  ({ page } = await openPage(browser, `${served.url}gallery/index.html`));
  await page.evaluate(
    `window.loaded = Promise.all([import('/work/worker-runner.ts'), import('/work/study-worker.ts?worker')]).then(([runner, worker]) => ({ runner, Maker: worker.default }))`,
  );
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

describe('the workers of the page', () => {
  test('give the numbers of the command line to the last bit, whatever their number', async () => {
    const there = await page.evaluate(async (asked) => {
      const { runner, Maker } = await window.loaded;
      const two = runner.workerRunner({ make: () => new Maker(), width: 2 });
      const parts = await Promise.all(
        [0, 1, 2, 3].map((i) => two.run({ ...asked, from: i * 10, count: 10 })),
      );
      await two.close();
      return parts.flatMap((part) => [...part.rows[0]!]).map(String);
    }, job);
    expect(there).toEqual([...runJob(job).rows[0]!].map(String));
  });

  test('stop a long job when asked to, and take the next one on the same worker at once', async () => {
    const { reason, made } = await page.evaluate(async (asked) => {
      const { runner, Maker } = await window.loaded;
      let workers = 0;
      const one = runner.workerRunner({ make: () => ((workers += 1), new Maker()), width: 1 });
      await one.run({ ...asked, count: 1 });
      const stop = new AbortController();
      const long = one
        .run({ ...asked, count: 100_000_000 }, stop.signal)
        .catch((error: unknown) => String(error));
      stop.abort('enough');
      // Answered at all: the long job would have kept the worker for hours.
      await one.run({ ...asked, count: 1 });
      await one.close();
      return { reason: await long, made: workers };
    }, job);
    expect(reason).toBe('enough');
    expect(made).toBe(1);
  });

  test('are replaced when one hangs, the loss is said, and the job is done all the same', async () => {
    const { said, good } = await page.evaluate(async (asked) => {
      const { runner, Maker } = await window.loaded;
      const hang = URL.createObjectURL(
        new Blob(['onmessage = () => { for (;;); }'], { type: 'text/javascript' }),
      );
      const lost: string[] = [];
      let first = true;
      const make = (): Worker => (first ? ((first = false), new Worker(hang)) : new Maker());
      const one = runner.workerRunner({ make, width: 1, silence: 10_000, lost: (why) => lost.push(why) });
      const { rows } = await one.run({ ...asked, count: 2 });
      await one.close();
      return { said: lost, good: rows[0]!.length };
    }, job);
    expect(said).toEqual(['gave no sign of life for 10 s']);
    expect(good).toBeGreaterThan(0);
  });

  test('give a job up that ends three of them in a row, in words', async () => {
    const said = await page.evaluate(async (asked) => {
      const { runner } = await window.loaded;
      const die = URL.createObjectURL(
        new Blob(['onmessage = () => { throw new Error("out of memory"); }'], { type: 'text/javascript' }),
      );
      const one = runner.workerRunner({ make: () => new Worker(die), width: 1 });
      const answer = await one.run(asked).then(
        () => 'done',
        (error: unknown) => String(error),
      );
      await one.close();
      return answer;
    }, job);
    expect(said).toContain(
      '3 workers in a row were lost with them; the last one ended: Uncaught Error: out of memory',
    );
  });

  test('say a job that cannot be run as the failure it is, and live on', async () => {
    const { said, after } = await page.evaluate(async (asked) => {
      const { runner, Maker } = await window.loaded;
      const one = runner.workerRunner({ make: () => new Maker(), width: 1 });
      const answer = await one
        .run({ ...asked, shifts: [{ ...asked.shifts[0]!, steps: null as never }] })
        .then(
          () => 'done',
          (error: unknown) => (error as Error).name,
        );
      const { rows } = await one.run({ ...asked, count: 1 });
      await one.close();
      return { said: answer, after: rows.length };
    }, job);
    expect(said).toBe('TypeError');
    expect(after).toBe(1);
  });
});

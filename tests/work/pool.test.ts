import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Connection, FromWorker, ToWorker, Transport } from '../../src/work/messages.ts';
import { pool } from '../../src/work/pool.ts';
import { holds } from '../support/holds.ts';

type Hear = (message: FromWorker<number, string>) => void;

/** A worker in this very thread, to be told what to say. */
interface Puppet extends Connection<number> {
  hear: Hear;
  lost: (why: string) => void;
  heard: ToWorker<number>[];
  ended: boolean;
}

/** A transport of puppets, in the order they were started; `act` answers for them. */
function puppets(act: (puppet: Puppet, message: ToWorker<number>) => void = () => {}): {
  made: Puppet[];
  transport: Transport<number, number, string>;
} {
  const made: Puppet[] = [];
  return {
    made,
    transport: (hear, lost) => {
      const puppet: Puppet = {
        hear,
        lost,
        heard: [],
        ended: false,
        send: (message) => {
          puppet.heard.push(message);
          act(puppet, message);
        },
        end: () => {
          puppet.ended = true;
          return Promise.resolve();
        },
      };
      made.push(puppet);
      return puppet;
    },
  };
}

const idOf = (puppet: Puppet): number => puppet.heard.at(-1)!.id;
/** The square of what it was asked, a moment later. */
const squaring = (puppet: Puppet, message: ToWorker<number>): void => {
  if (message.kind === 'ask')
    void Promise.resolve().then(() =>
      puppet.hear({ kind: 'done', id: message.id, answer: message.question ** 2 }),
    );
};

describe('a pool', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('asks as many at a time as there are workers, the others in the order they came', async () => {
    const { made, transport } = puppets();
    const two = pool<number, number, string>({ transport, width: 2, silence: 1000 });
    const answers = [1, 2, 3].map((n) => two.ask(() => n));
    expect(made.map(({ heard }) => heard.length)).toEqual([1, 1]);
    made[1]!.hear({ kind: 'done', id: idOf(made[1]!), answer: 20 });
    expect(made[1]!.heard.at(-1)).toMatchObject({ kind: 'ask', question: 3 });
    made[1]!.hear({ kind: 'done', id: idOf(made[1]!), answer: 30 });
    made[0]!.hear({ kind: 'done', id: idOf(made[0]!), answer: 10 });
    expect(await Promise.all(answers)).toEqual([10, 20, 30]);
  });

  it('takes a worker for hung that says nothing for too long, but not one that gives signs of life', async () => {
    const lost: string[] = [];
    const { made, transport } = puppets();
    const one = pool<number, number, string>({
      transport,
      width: 1,
      silence: 1000,
      lost: (why) => lost.push(why),
    });
    const answer = one.ask(() => 7);
    for (let i = 0; i < 5; i++) {
      await vi.advanceTimersByTimeAsync(900);
      made[0]!.hear({ kind: 'alive' });
    }
    expect(lost).toEqual([]);
    await vi.advanceTimersByTimeAsync(1100);
    expect(lost).toEqual(['gave no sign of life for 1 s']);
    expect([made[0]!.ended, made[1]!.ended]).toEqual([true, false]);
    made[1]!.hear({ kind: 'done', id: idOf(made[1]!), answer: 49 });
    expect(await answer).toBe(49);
  });

  it('asks again on another worker, and gives a question up that loses as many as it may', async () => {
    const { made, transport } = puppets();
    const one = pool<number, number, string>({ transport, width: 1, silence: 1000, tries: 2 });
    const answer = one.ask(() => 7);
    made[0]!.lost('ended with code 7');
    made[1]!.lost('ended with code 9');
    await expect(answer).rejects.toThrow(
      'This could not be worked out: 2 workers in a row were lost with it; the last one ended with code 9.',
    );
    const next = one.ask(() => 8);
    made[2]!.hear({ kind: 'done', id: idOf(made[2]!), answer: 64 });
    expect(await next).toBe(64);
  });

  it('tells a new worker anew what the lost one kept', async () => {
    const { made, transport } = puppets();
    const one = pool<number, number, string>({ transport, width: 1, silence: 1000 });
    const spell = (kept: Set<unknown>): number => {
      const known = kept.has('the day') ? 1 : 0;
      kept.add('the day');
      return known;
    };
    void one.ask(spell);
    made[0]!.hear({ kind: 'done', id: idOf(made[0]!), answer: 0 });
    void one.ask(spell);
    made[0]!.lost('ended');
    const questions = made.flatMap(({ heard }) =>
      heard.flatMap((said) => (said.kind === 'ask' ? said.question : [])),
    );
    expect(questions).toEqual([0, 1, 0]);
  });

  it('tells a busy worker to stop, and ends it where it does not', async () => {
    const { made, transport } = puppets();
    const one = pool<number, number, string>({ transport, width: 1, silence: 60_000, patience: 500 });
    const stop = new AbortController();
    const first = one.ask(() => 1, { signal: stop.signal });
    const second = one.ask(() => 2);
    stop.abort(new Error('enough'));
    await expect(first).rejects.toThrow('enough');
    expect(made[0]!.heard.at(-1)!.kind).toBe('stop');
    await vi.advanceTimersByTimeAsync(600);
    expect(made[0]!.ended).toBe(true);
    made[1]!.hear({ kind: 'done', id: idOf(made[1]!), answer: 4 });
    expect(await second).toBe(4);
  });

  it('goes on with a worker that stops when told, without a new one', async () => {
    const { made, transport } = puppets((puppet, message) => {
      if (message.kind === 'stop') puppet.hear({ kind: 'stopped', id: message.id });
    });
    const one = pool<number, number, string>({ transport, width: 1, silence: 60_000 });
    const stop = new AbortController();
    const first = one.ask(() => 1, { signal: stop.signal });
    const second = one.ask(() => 2);
    stop.abort(new Error('enough'));
    await expect(first).rejects.toThrow('enough');
    made[0]!.hear({ kind: 'done', id: idOf(made[0]!), answer: 4 });
    expect(await second).toBe(4);
    expect(made).toHaveLength(1);
  });

  it('ends a worker at once whose work cannot be interrupted', async () => {
    const { made, transport } = puppets();
    const one = pool<number, number, string>({ transport, width: 1, silence: 60_000, patience: 0 });
    const stop = new AbortController();
    const asked = one.ask(() => 1, { signal: stop.signal });
    stop.abort(new Error('enough'));
    await expect(asked).rejects.toThrow('enough');
    expect(made.map(({ ended }) => ended)).toEqual([true]);
  });

  it('tells how far a question has come, and a failure by its name', async () => {
    const { made, transport } = puppets();
    const one = pool<number, number, string>({ transport, width: 1, silence: 1000 });
    const stages: string[] = [];
    const asked = one.ask(() => 1, { onStage: (stage) => stages.push(stage) });
    const id = idOf(made[0]!);
    made[0]!.hear({ kind: 'stage', id, stage: 'half' });
    made[0]!.hear({ kind: 'stage', id: id + 1, stage: 'of another question' });
    made[0]!.hear({ kind: 'failed', id, name: 'RunawayError', message: 'units go round' });
    await expect(asked).rejects.toMatchObject({ name: 'RunawayError', message: 'units go round' });
    expect(stages).toEqual(['half']);
  });

  it('rejects what is under way when it is closed, and ends every worker', async () => {
    const { made, transport } = puppets();
    const two = pool<number, number, string>({ transport, width: 2, silence: 1000, early: true });
    expect(made).toHaveLength(2);
    const asked = Promise.allSettled([1, 2, 3].map((n) => two.ask(() => n)));
    await two.close();
    expect((await asked).map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected']);
    expect(made.map(({ ended }) => ended)).toEqual([true, true]);
    expect(vi.getTimerCount()).toBe(0);
  });

  it('refuses a number of workers that is none', () => {
    const { transport } = puppets();
    for (const width of [0, -1, 1.5])
      expect(() => pool<number, number, string>({ transport, width, silence: 1 })).toThrow(RangeError);
  });

  it('answers every question rightly, whatever its width and whichever workers are lost', async () => {
    await holds(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 5 }),
        fc.array(fc.integer({ min: -1000, max: 1000 }), { maxLength: 30 }),
        fc.infiniteStream(fc.boolean()),
        async (width, questions, luck) => {
          const tried = new Map<number, number>();
          const { transport } = puppets((puppet, message) => {
            const times = (tried.get(message.id) ?? 0) + 1;
            tried.set(message.id, times);
            if (times < 3 && luck.next().value === true)
              void Promise.resolve().then(() => puppet.lost('ended'));
            else squaring(puppet, message);
          });
          const some = pool<number, number, string>({ transport, width, silence: 1000 });
          const answers = await Promise.all(questions.map((n) => some.ask(() => n)));
          expect(answers).toEqual(questions.map((n) => n ** 2));
          await some.close();
        },
      ),
      { seed: 20_261_127, numRuns: 200 },
    );
  });
});

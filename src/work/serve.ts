/**
 * The inside of a worker: answers one question at a time, and between two pieces of the work lets messages in
 * and gives a sign of life. What the pool (pool.ts) speaks to, on threads of node and in a browser alike.
 */
import type { FromWorker, ToWorker } from './messages.ts';

/** The worker's end of the line. */
export interface Port {
  /** @param transfer buffers handed over instead of copied. */
  post(message: unknown, transfer?: ArrayBuffer[]): void;
  listen(hear: (message: unknown) => void): void;
  /** Lets everything else that waits have its turn first, messages above all. */
  turn(): Promise<void>;
}

export interface Tools<Stage> {
  /** Says how far the work has come. */
  stage(stage: Stage): void;
  /**
   * Called between two pieces of the work, as often as liked; null: go on. Otherwise to be awaited.
   * @throws Stopped where nobody waits for the answer any more.
   */
  breathe(): Promise<void> | null;
}

export interface Served<Question, Answer, Stage> {
  answer: (question: Question, tools: Tools<Stage>) => Answer | Promise<Answer>;
  /** Buffers of the answer that are handed over instead of copied. */
  transfer?: (answer: Answer) => ArrayBuffer[];
}

/** Milliseconds between two turns for messages, and between two signs of life: each weighs on who asks. */
const BETWEEN_TURNS = 8;
const BETWEEN_SIGNS = 250;

class Stopped extends Error {}

export function serve<Question, Answer, Stage = never>(
  port: Port,
  { answer, transfer = () => [] }: Served<Question, Answer, Stage>,
): void {
  const stopped = new Set<number>();
  const say = (message: FromWorker<Answer, Stage>, buffers: ArrayBuffer[] = []): void =>
    port.post(message, buffers);

  function toolsFor(id: number): Tools<Stage> {
    let [turned, told] = [performance.now(), performance.now()];
    async function turn(): Promise<void> {
      if (performance.now() - told > BETWEEN_SIGNS) {
        say({ kind: 'alive' });
        told = performance.now();
      }
      await port.turn();
      if (stopped.delete(id)) throw new Stopped();
      turned = performance.now();
    }
    return {
      stage: (stage) => say({ kind: 'stage', id, stage }),
      breathe: () => (performance.now() - turned < BETWEEN_TURNS ? null : turn()),
    };
  }

  async function work(id: number, question: Question): Promise<void> {
    stopped.clear();
    try {
      const told = await answer(question, toolsFor(id));
      say({ kind: 'done', id, answer: told }, transfer(told));
    } catch (error) {
      if (error instanceof Stopped) return say({ kind: 'stopped', id });
      const { name, message } = error instanceof Error ? error : new Error(String(error));
      say({ kind: 'failed', id, name, message });
    }
  }

  port.listen((heard) => {
    const message = heard as ToWorker<Question>;
    if (message.kind === 'stop') stopped.add(message.id);
    else void work(message.id, message.question);
  });
  say({ kind: 'alive' });
}

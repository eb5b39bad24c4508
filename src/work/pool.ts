/**
 * Questions answered by workers, as many at a time as there are workers; the others wait their turn. A worker
 * that dies, or is silent for too long, is replaced and its question asked again; a question that loses
 * workers time and again is given up. Aborting stops the work itself: a waiting question is dropped, a busy
 * worker is told, and ended where it does not stop in time.
 *
 * What a worker is made of is the transport's: threads of node (threads.ts) or workers of a browser (web).
 */
import type { Connection, FromWorker, Transport } from './messages.ts';

export interface PoolSettings<Question, Answer, Stage> {
  transport: Transport<Question, Answer, Stage>;
  /** Workers, 1 or more. */
  width: number;
  /** A busy worker without a sign of life for so long is taken for hung, milliseconds. */
  silence: number;
  /**
   * So long a worker may take to stop when it is told to, milliseconds; 0: it is ended at once, since its
   * work cannot be interrupted.
   */
  patience?: number;
  /** A question is tried on so many workers before it is given up. */
  tries?: number;
  /** Workers are started before they are asked: the first answer need not wait for them. */
  early?: boolean;
  /** Told in words when a worker was lost and is replaced. */
  lost?: (why: string) => void;
}

/** What a worker keeps from earlier questions; a new worker keeps nothing. */
export type Kept = Set<unknown>;

export interface Asking<Stage> {
  signal?: AbortSignal | undefined;
  onStage?: (stage: Stage) => void;
  /** What is said where the question is given up: workers lost with it, and why the last one was. */
  givenUp?: (tries: number, why: string) => string;
}

export interface Pool<Question, Answer, Stage> {
  readonly width: number;
  /**
   * Made for the worker that is to answer, which keeps what it was told before.
   * @throws the signal's reason once it is aborted; an Error in words where the question cannot be answered.
   */
  ask(spell: (kept: Kept) => Question, asking?: Asking<Stage>): Promise<Answer>;
  /** Ends all workers; questions under way are rejected. */
  close(): Promise<void>;
}

interface Task<Question, Answer, Stage> {
  id: number;
  spell: (kept: Kept) => Question;
  asking: Asking<Stage>;
  tries: number;
  resolve: (answer: Answer) => void;
  reject: (reason: unknown) => void;
}

/** A worker's place. `stopping`: at a question nobody waits for any more. */
interface Seat<Question, Answer, Stage> {
  worker: Connection<Question> | null;
  kept: Kept;
  task: Task<Question, Answer, Stage> | null;
  stopping: boolean;
  timer: ReturnType<typeof setTimeout> | undefined;
}

const USUAL_TRIES = 3;
/** Plenty for a worker that looks up every few milliseconds, on a machine that is held up too. */
const USUAL_PATIENCE = 5000;

export function pool<Question, Answer, Stage = never>({
  transport,
  width,
  silence,
  patience = USUAL_PATIENCE,
  tries = USUAL_TRIES,
  early = false,
  lost,
}: PoolSettings<Question, Answer, Stage>): Pool<Question, Answer, Stage> {
  type Asked = Task<Question, Answer, Stage>;
  type Place = Seat<Question, Answer, Stage>;
  if (!Number.isInteger(width) || width < 1)
    throw new RangeError(`workers must be a whole number from 1, not ${width}`);
  const seats = Array.from({ length: width }, (): Place => empty());
  const waiting: Asked[] = [];
  let count = 0;

  function open(seat: Place): Connection<Question> {
    const worker = transport(
      (message) => seat.worker === worker && hear(seat, message),
      (why) => seat.worker === worker && failed(seat, why),
    );
    seat.worker = worker;
    return worker;
  }

  /** Puts off the moment at which the seat's worker is taken for hung. */
  function watch(seat: Place, time: number): void {
    clearTimeout(seat.timer);
    seat.timer = setTimeout(() => {
      // What the worker has said may wait behind this very turn, where the page or the machine was held up.
      seat.timer = setTimeout(() => overdue(seat), 0);
    }, time);
  }

  function overdue(seat: Place): void {
    if (seat.stopping) replace(seat);
    else failed(seat, `gave no sign of life for ${Math.round(silence / 100) / 10} s`);
  }

  /** The seat's worker is of no more use: another takes its place, and its question. */
  function failed(seat: Place, why: string): void {
    const { task, stopping } = seat;
    if (task !== null && !stopping) {
      if (task.tries < tries) waiting.unshift(task);
      else task.reject(new Error((task.asking.givenUp ?? givenUp)(task.tries, why)));
    }
    lost?.(why);
    replace(seat);
  }

  function replace(seat: Place): void {
    void clear(seat);
    next();
  }

  function hear(seat: Place, message: FromWorker<Answer, Stage>): void {
    const { task, stopping } = seat;
    if (task === null) return;
    if (!stopping) watch(seat, silence);
    if (message.kind === 'alive' || message.id !== task.id) return;
    if (message.kind === 'stage') {
      if (!stopping) task.asking.onStage?.(message.stage);
      return;
    }
    clearTimeout(seat.timer);
    seat.task = null;
    seat.stopping = false;
    if (!stopping && message.kind === 'done') task.resolve(message.answer);
    if (!stopping && message.kind === 'failed')
      task.reject(Object.assign(new Error(message.message), { name: message.name }));
    next();
  }

  function next(): void {
    for (const seat of seats) {
      if (seat.task !== null) continue;
      const task = waiting.shift();
      if (task === undefined) return;
      begin(seat, task);
    }
  }

  function begin(seat: Place, task: Asked): void {
    const worker = seat.worker ?? open(seat);
    seat.task = task;
    task.tries += 1;
    watch(seat, silence);
    worker.send({ kind: 'ask', id: task.id, question: task.spell(seat.kept) });
  }

  /** Nobody waits for it any more. */
  function drop(task: Asked): void {
    const place = waiting.indexOf(task);
    if (place >= 0) waiting.splice(place, 1);
    const seat = seats.find((one) => one.task === task);
    if (seat === undefined) return;
    if (patience === 0) return replace(seat);
    seat.stopping = true;
    watch(seat, patience);
    seat.worker?.send({ kind: 'stop', id: task.id });
  }

  if (early) seats.forEach(open);

  return {
    width,
    ask: (spell, asking = {}) =>
      new Promise<Answer>((resolve, reject) => {
        const { signal } = asking;
        if (signal?.aborted === true) return reject(signal.reason);
        const settled =
          <T>(settle: (value: T) => void) =>
          (value: T): void => {
            signal?.removeEventListener('abort', aborted);
            settle(value);
          };
        const task: Asked = {
          id: (count += 1),
          spell,
          asking,
          tries: 0,
          resolve: settled(resolve),
          reject: settled(reject),
        };
        const aborted = (): void => {
          drop(task);
          task.reject(signal!.reason);
        };
        signal?.addEventListener('abort', aborted, { once: true });
        waiting.push(task);
        next();
      }),
    close: async () => {
      const left = [
        ...waiting.splice(0),
        ...seats.flatMap(({ task, stopping }) => (stopping ? [] : (task ?? []))),
      ];
      const ended = seats.map(clear);
      for (const task of left) task.reject(new Error('The workers were closed.'));
      await Promise.all(ended);
    },
  };
}

const empty = <Question, Answer, Stage>(): Seat<Question, Answer, Stage> => ({
  worker: null,
  kept: new Set(),
  task: null,
  stopping: false,
  timer: undefined,
});

/** Ends the seat's worker at once, whatever it is doing. */
function clear<Question, Answer, Stage>(seat: Seat<Question, Answer, Stage>): Promise<void> | undefined {
  const { worker, timer } = seat;
  clearTimeout(timer);
  Object.assign(seat, empty());
  return worker?.end();
}

const givenUp = (tries: number, why: string): string =>
  `This could not be worked out: ${tries} workers in a row were lost with it; the last one ${why}.`;

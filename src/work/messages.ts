/** What a pool and its workers say to each other, on threads of node and in a browser alike. Types only. */

export type ToWorker<Question> =
  | { kind: 'ask'; id: number; question: Question }
  /** The question with this number is no longer of interest. */
  | { kind: 'stop'; id: number };

/**
 * `alive`: a sign of life. `stage`: how far the question has come. `failed`: the question itself cannot be
 * answered (not: the worker died).
 */
export type FromWorker<Answer, Stage> =
  | { kind: 'alive' }
  | { kind: 'stage'; id: number; stage: Stage }
  | { kind: 'done'; id: number; answer: Answer }
  | { kind: 'stopped'; id: number }
  | { kind: 'failed'; id: number; name: string; message: string };

/** One worker as its pool sees it. */
export interface Connection<Question> {
  send(message: ToWorker<Question>): void;
  /** Ends the worker at once, whatever it is doing; nothing is heard of it afterwards. */
  end(): Promise<void>;
}

/** Starts a worker. `lost`: it is of no more use, and why, as in "ended with code 7". */
export type Transport<Question, Answer, Stage> = (
  hear: (message: FromWorker<Answer, Stage>) => void,
  lost: (why: string) => void,
) => Connection<Question>;

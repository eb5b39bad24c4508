/** What a desk and its worker say to each other. Types only. */
export interface ToDesk<Question> {
  id: number;
  question: Question;
}

/**
 * `stage`: how far it has come, and a sign of life. `failed`: the question cannot be answered (not: the
 * worker died).
 */
export type FromDesk<Answer, Stage> =
  | { kind: 'stage'; id: number; stage: Stage }
  | { kind: 'done'; id: number; answer: Answer }
  | { kind: 'failed'; id: number; message: string };

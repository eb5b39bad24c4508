/** The inside of a desk's worker. Classic script in the single file: no top-level await, no import(). */
import type { FromDesk, ToDesk } from './desk-messages.ts';

export function serve<Question, Answer, Stage = never>(
  answer: (question: Question, tell: (stage: Stage) => void) => Answer | Promise<Answer>,
): void {
  self.onmessage = ({ data: { id, question } }: MessageEvent<ToDesk<Question>>): void => {
    const say = (message: FromDesk<Answer, Stage>): void => (self as unknown as Worker).postMessage(message);
    const work = async (): Promise<Answer> => answer(question, (stage) => say({ kind: 'stage', id, stage }));
    work().then(
      (told) => say({ kind: 'done', id, answer: told }),
      (error: unknown) =>
        say({ kind: 'failed', id, message: error instanceof Error ? error.message : String(error) }),
    );
  };
}

/**
 * A worker for one question at a time, kept for the next one. Where it dies or is silent for too long it is
 * replaced and asked again, once; an aborted question ends it, so that the work itself stops.
 */
import type { FromDesk, ToDesk } from './desk-messages.ts';

export interface DeskSettings {
  /** Makes a worker whose inside calls `serve` (desk-inside.ts). */
  make: () => Worker;
  /** Without a sign of life for so long it is taken for hung, milliseconds. */
  silence: number;
  /** Told in words when a worker was lost and replaced. */
  lost?: (why: string) => void;
}

export interface Asking<Stage> {
  signal: AbortSignal;
  onStage?: (stage: Stage) => void;
}

const MOST_TRIES = 2;

/** Of a worker, not of the question: another one may do better. */
class WorkerLost extends Error {}

export class Desk<Question, Answer, Stage = never> {
  private worker: Worker | null = null;
  private count = 0;
  private readonly settings: DeskSettings;

  constructor(settings: DeskSettings) {
    this.settings = settings;
  }

  /**
   * @param question made anew for every worker; `fresh`: it has not been asked anything yet.
   * @throws the signal's reason; an Error in words where the question cannot be answered or workers are lost
   *   with it again.
   */
  async ask(question: (fresh: boolean) => Question, asking: Asking<Stage>): Promise<Answer> {
    for (let tries = 1; ; tries++) {
      try {
        return await this.once(question, asking);
      } catch (error) {
        if (!(error instanceof WorkerLost)) throw error;
        if (tries >= MOST_TRIES)
          throw new Error(
            `This could not be worked out: ${tries} workers in a row were lost with it; the last one ${error.message}.`,
            { cause: error },
          );
        this.settings.lost?.(error.message);
      }
    }
  }

  /** Ends the worker; what it kept is gone. */
  close(): void {
    this.worker?.terminate();
    this.worker = null;
  }

  private once(question: (fresh: boolean) => Question, { signal, onStage }: Asking<Stage>): Promise<Answer> {
    return new Promise((resolve, reject) => {
      if (signal.aborted) return reject(signal.reason);
      const fresh = this.worker === null;
      const worker = (this.worker ??= this.settings.make());
      const id = (this.count += 1);
      let timer: ReturnType<typeof setTimeout> | undefined;
      const over = (settle: () => void, end: boolean): void => {
        clearTimeout(timer);
        signal.removeEventListener('abort', stopped);
        worker.onmessage = null;
        worker.onerror = null;
        if (end) this.close();
        settle();
      };
      const stopped = (): void => over(() => reject(signal.reason), true);
      const lost = (why: string): void => over(() => reject(new WorkerLost(why)), true);
      const heard = (): void => {
        clearTimeout(timer);
        timer = setTimeout(
          () => lost(`gave no sign of life for ${Math.round(this.settings.silence / 100) / 10} s`),
          this.settings.silence,
        );
      };
      worker.onmessage = ({ data }: MessageEvent<FromDesk<Answer, Stage>>) => {
        if (data.id !== id) return;
        heard();
        if (data.kind === 'stage') onStage?.(data.stage);
        else if (data.kind === 'done') over(() => resolve(data.answer), false);
        else over(() => reject(new Error(data.message)), false);
      };
      worker.onerror = (event) => {
        event.preventDefault();
        lost(event.message === undefined ? 'could not be started' : `ended: ${event.message}`);
      };
      signal.addEventListener('abort', stopped, { once: true });
      heard();
      worker.postMessage({ id, question: question(fresh) } satisfies ToDesk<Question>);
    });
  }
}

/**
 * Work that follows its question: asked something new, it drops what it was at (the workers really stop) and
 * begins again, while the last answer stays to be read until the new one comes.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Runner } from '../../src/record/job.ts';
import { appRunner } from './runner.ts';
import { same } from './same.ts';
import { aTurn } from './turn.ts';

export interface Tools<Answer> {
  runner: Runner;
  /** Aborted when it is stopped by hand and when something newer is asked. */
  signal: AbortSignal;
  /** Shows an answer, as often as there is a better one. */
  show(answer: Answer): void;
}

export interface Task<Answer> {
  /** The same question has the same key, and is not asked twice. */
  key: string;
  run(tools: Tools<Answer>): Promise<void>;
}

export type LiveState =
  | { kind: 'waiting' }
  | { kind: 'running' }
  | { kind: 'done' }
  | { kind: 'stopped' }
  | { kind: 'failed'; message: string };

/**
 * Questions that come closer together than this, milliseconds (a number being dragged), wait until so long
 * nothing newer has come.
 */
const SETTLING = 25;

export class Live<Answer> implements ReactiveController {
  /** The last answer shown, and the key of the question it answers; null before there is any. */
  answer: Answer | null = null;
  answered = '';
  state: LiveState = { kind: 'waiting' };
  private readonly host: ReactiveControllerHost;
  private task: Task<Answer> | null = null;
  private control: AbortController | null = null;
  private askedAt = -Infinity;
  /** What the question at hand was made of, where that was said. */
  private of: readonly unknown[] | null = null;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /**
   * Asks where one of the things the question depends on is another; only then is the question made. Meant to
   * be called on every drawing.
   */
  askOf(of: readonly unknown[], make: () => Task<Answer> | null): void {
    if (this.of !== null && same(this.of, of)) return;
    this.ask(make());
    this.of = of;
  }

  /** Asks; null: nothing is to be asked for now. The same question is not asked twice. */
  ask(task: Task<Answer> | null): void {
    this.of = null;
    if (task?.key === this.task?.key) return;
    this.drop();
    this.task = task;
    this.state = { kind: task === null ? 'waiting' : 'running' };
    if (task === null) return;
    const hurried = performance.now() - this.askedAt < SETTLING;
    this.askedAt = performance.now();
    void this.begin(task, hurried ? settled : aTurn);
  }

  /** Whether the answer shown is one to the question asked last. */
  get current(): boolean {
    return this.answer !== null && this.answered === this.task?.key;
  }

  /** Whether the answer shown is one to the question made of these. */
  answersTo(of: readonly unknown[]): boolean {
    return this.current && this.of !== null && same(this.of, of);
  }

  get running(): boolean {
    return this.state.kind === 'running';
  }

  /** Stops the work; what is known by then stays. */
  stop(): void {
    if (!this.running) return;
    this.state = { kind: 'stopped' };
    this.control?.abort(new DOMException('stopped by hand', 'AbortError'));
    this.host.requestUpdate();
  }

  /** Goes on after a stop or a failure. */
  again(): void {
    const { task, of } = this;
    this.task = null;
    this.ask(task);
    this.of = of;
    this.host.requestUpdate();
  }

  /** What was asked is forgotten too: a page that comes back asks again. */
  hostDisconnected(): void {
    this.drop();
    this.task = null;
    this.of = null;
    if (this.running) this.state = { kind: 'waiting' };
  }

  private drop(): void {
    const { control } = this;
    this.control = null;
    control?.abort(new DOMException('something newer was asked', 'AbortError'));
  }

  /** @param when what to wait for before the work begins: at least until who asked has drawn. */
  private async begin(task: Task<Answer>, when: () => Promise<void>): Promise<void> {
    const control = new AbortController();
    this.control = control;
    await when();
    if (control.signal.aborted) return;
    const mine = (): boolean => this.control === control;
    const show = (answer: Answer): void => {
      if (!mine()) return;
      this.answer = answer;
      this.answered = task.key;
      this.host.requestUpdate();
    };
    try {
      await task.run({ runner: appRunner(), signal: control.signal, show });
      if (mine() && this.running) this.state = { kind: 'done' };
    } catch (error) {
      if (mine() && this.running)
        this.state = { kind: 'failed', message: error instanceof Error ? error.message : String(error) };
    }
    if (mine()) this.host.requestUpdate();
  }
}

const settled = (): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, SETTLING);
  });

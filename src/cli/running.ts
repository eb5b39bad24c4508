/** A study on threads, with a bar on a terminal and a Ctrl-C that leaves the answer so far. */
import { setMaxListeners } from 'node:events';
import { SingleBar } from 'cli-progress';
import type { Runner } from '../record/job.ts';
import type { StudyState } from '../study/study.ts';
import { inLineRunner } from '../work/in-line.ts';
import { threadRunner } from '../work/threads.ts';
import { say } from './print.ts';
import { leavePartial, surroundings } from './surroundings.ts';
import { scenarioWrong } from './trouble.ts';
import { faultAt } from '../scenario/reading/fault.ts';

export interface Run {
  runner: Runner;
  signal: AbortSignal;
  /** To be told after every block; `label` says what is being run. */
  onLook: (label: string) => (state: StudyState) => void;
  /** For work that is more than one study: so many shifts of about so many. */
  onShifts: (label: string, done: number, of: number) => void;
}

/**
 * Something asked on the command line: how it is worked out, and how what came of it is printed. Apart, so
 * that the same can be worked out from shifts that were played elsewhere.
 */
export interface Question {
  answer(run: Run): Promise<Printed>;
}

/** Prints the answer. False where it was stopped by hand and is not the whole of it. */
export type Printed = () => boolean;

export const answered = async (threads: number, { answer }: Question): Promise<boolean> =>
  (await running(threads, answer))();

/**
 * Sets everything up, runs `work`, and clears up whatever happens.
 * @param around what the runner of threads is wrapped into; it is closed with it.
 */
export async function running<T>(
  threads: number,
  work: (run: Run) => Promise<T>,
  around: (runner: Runner) => Runner = (runner) => runner,
): Promise<T> {
  const runner = around(
    surroundings().alone === true
      ? inLineRunner()
      : threadRunner({ width: threads, entry: new URL('./thread.js', import.meta.url) }),
  );
  const stop = new AbortController();
  // Every job under way listens.
  setMaxListeners(0, stop.signal);
  // A bar moves the cursor, which a plain terminal cannot.
  const bar = process.stderr.isTTY && process.env['TERM'] !== 'dumb' ? progressBar() : null;
  const onInterrupt = (): void => {
    if (stop.signal.aborted) process.exit(130);
    bar?.end();
    say('Stopping; the answer so far follows. Ctrl-C once more ends at once.');
    leavePartial();
    stop.abort(new Error('stopped by hand'));
  };
  process.on('SIGINT', onInterrupt);
  try {
    return await work({
      runner,
      signal: stop.signal,
      onLook: (label) => (state) => bar?.look(label, state),
      onShifts: (label, done, of) => bar?.show(label, done, of),
    });
  } catch (error) {
    throw troubleOf(error);
  } finally {
    bar?.end();
    process.off('SIGINT', onInterrupt);
    await runner.close();
  }
}

/** Runs something here and now; a scenario without an end is told as what it is. */
export function endless<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw troubleOf(error);
  }
}

/**
 * A scenario without an end, or with too little gear for what stands over, is the file's fault, and is told
 * like any other; anything else stays what it is.
 */
function troubleOf(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  if (error.name === 'HandoverError') return standsOver(error.message);
  if (error.name !== 'RunawayError') return error;
  const fault = faultAt(
    ['steps'],
    'a shift that never ends',
    'shifts that come to an end',
    'give the steps that go round a time, or their rework an end',
  );
  return scenarioWrong('The scenario', [{ ...fault, text: `The shift never ends: ${error.message}` }]);
}

function standsOver(message: string): unknown {
  const fault = faultAt(
    ['nextShifts'],
    'fewer than the pieces that stand over hold',
    'as many of each thing as pieces hold when the shift before ends, or more',
    'give the shift that follows more of it, or let fewer pieces stand over',
  );
  return scenarioWrong('The scenario', [{ ...fault, text: `A shift that follows has too few: ${message}.` }]);
}

interface Bar {
  look(label: string, state: StudyState): void;
  show(label: string, done: number, of: number): void;
  end(): void;
}

function progressBar(): Bar {
  const bar = new SingleBar({
    format: '{label} {bar} {value} of {total} shifts',
    stream: process.stderr,
    clearOnComplete: true,
    hideCursor: true,
    barsize: 30,
    linewrap: null,
    barCompleteChar: '█',
    barIncompleteChar: '░',
  });
  let begun = false;
  const show = (label: string, done: number, of: number): void => {
    if (!begun) bar.start(of, done, { label });
    begun = true;
    bar.setTotal(of);
    bar.update(done, { label });
  };
  return {
    show,
    look: (label, { request, look }) =>
      show(label, look.done * request.cases.length, look.needed * request.cases.length),
    end() {
      if (begun) bar.stop();
      begun = false;
    },
  };
}

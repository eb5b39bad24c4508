/** Long work in pieces, so that the page can draw and hear in between. */

/** A piece is over after so many milliseconds: half a frame. */
const PIECE = 8;

/** Missing in some browsers. */
const { scheduler } = globalThis as { scheduler?: { postTask(act: () => void): Promise<void> } };

/**
 * Where there is no scheduler: a channel, not a timer, since nested timers are held back to four milliseconds
 * each.
 */
function channel(): (act: () => void) => void {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  return (act) => {
    waiting.push(act);
    port2.postMessage(null);
  };
}

/**
 * A task of its own. Messages of one channel may all be worked off in one task, so the scheduler comes first.
 */
const later = scheduler === undefined ? channel() : (act: () => void): void => void scheduler.postTask(act);

/** Lets everything else that waits have its turn first. */
export const aTurn = (): Promise<void> => new Promise(later);

/**
 * Works off steps, a few milliseconds at a time. @throws what a step throws, and the signal's reason once it
 * is aborted.
 */
export async function inTurns<Result>(
  steps: Iterator<unknown, Result>,
  signal?: AbortSignal,
): Promise<Result> {
  let until = performance.now() + PIECE;
  for (;;) {
    const next = steps.next();
    if (next.done === true) return next.value;
    if (performance.now() < until) continue;
    await aTurn();
    signal?.throwIfAborted();
    until = performance.now() + PIECE;
  }
}

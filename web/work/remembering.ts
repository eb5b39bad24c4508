/**
 * A runner that remembers what was run: a case that stays the same while another one is changed is not run
 * again. The same shifts and the same replications give the same rows, so nothing but the waiting changes.
 */
import type { Job, JobResult, Runner } from '../../src/record/job.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { aTurn } from './turn.ts';

/** Rows kept, in bytes; the longest unused go first. */
const MOST_BYTES = 96_000_000;

const bytesOf = ({ rows }: JobResult): number => rows.reduce((sum, one) => sum + one.byteLength, 0);

export function rememberingRunner(inner: Runner, most = MOST_BYTES): Runner {
  const known = new Map<string, JobResult>();
  const spelt = new WeakMap<ResolvedShift[], string>();
  let bytes = 0;

  function keyOf({ shifts, from, count, varied, lists }: Job): string {
    const text = spelt.get(shifts) ?? JSON.stringify(shifts);
    spelt.set(shifts, text);
    const inputs = varied === undefined ? '' : `${JSON.stringify(varied.places)} ${varied.factors.join()} `;
    return `${from} ${count} ${lists === undefined ? 'all' : lists.join()} ${inputs}${text}`;
  }

  function keep(key: string, result: JobResult): void {
    if (known.has(key)) return;
    known.set(key, result);
    bytes += bytesOf(result);
    for (const [oldest, one] of known) {
      if (bytes <= most) return;
      known.delete(oldest);
      bytes -= bytesOf(one);
    }
  }

  return {
    width: inner.width,
    run: async (job, signal) => {
      signal?.throwIfAborted();
      const key = keyOf(job);
      const there = known.get(key);
      if (there !== undefined) {
        known.delete(key);
        known.set(key, there);
        // Not at once: a whole study out of memory in one go would hold the page up.
        await aTurn();
        signal?.throwIfAborted();
        return there;
      }
      const result = await inner.run(job, signal);
      keep(key, result);
      return result;
    },
    close: () => {
      known.clear();
      return inner.close();
    },
  };
}

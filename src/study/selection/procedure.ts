/**
 * A selection procedure asks for observations and decides; it never makes them. It is a generator: each turn
 * it hands out what it wants to see next and is handed the rows in the same order. What it decides depends on
 * the rows alone, so it is the same on one thread or eight.
 */
export interface Ask {
  candidate: number;
  /** First replication wanted, and how many. */
  from: number;
  count: number;
}

/** @typeParam Rows what one ask is answered with. */
export type Procedure<Result, Rows> = Generator<Ask[], Result, Rows[]>;

/** Runs a procedure; the asks of one turn may be answered side by side. */
export async function conduct<Result, Rows>(
  procedure: Procedure<Result, Rows>,
  sample: (ask: Ask) => Promise<Rows>,
): Promise<Result> {
  let turn = procedure.next();
  while (!turn.done) turn = procedure.next(await Promise.all(turn.value.map(sample)));
  return turn.value;
}

/** The same where the rows are at hand at once. */
export function conductNow<Result, Rows>(
  procedure: Procedure<Result, Rows>,
  sample: (ask: Ask) => Rows,
): Result {
  let turn = procedure.next();
  while (!turn.done) turn = procedure.next(turn.value.map(sample));
  return turn.value;
}

/** What was seen of every candidate so far, kept so that nothing is asked for twice. */
export interface Seen {
  rows: number[][];
}

export const createSeen = (candidates: number): Seen => ({
  rows: Array.from({ length: candidates }, () => []),
});

/** Asks for whatever is missing of the first `count` rows of some candidates. */
export function* see(seen: Seen, candidates: number[], count: number): Procedure<void, ArrayLike<number>> {
  const asks = candidates
    .map((candidate): Ask => ({
      candidate,
      from: seen.rows[candidate]!.length,
      count: count - seen.rows[candidate]!.length,
    }))
    .filter((ask) => ask.count > 0);
  if (asks.length === 0) return;
  const answers = yield asks;
  asks.forEach((ask, at) => {
    for (let i = 0; i < ask.count; i++) seen.rows[ask.candidate]!.push(answers[at]![i]!);
  });
}

/** When to look next: a block later, and once there are many, a tenth later. */
export const nextLook = (count: number, block: number): number =>
  count + Math.max(block, Math.ceil(count / 10));

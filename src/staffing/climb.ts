/**
 * Climbing from a draft to better ones, by single changes and by pairs of good ones, on a few shifts of the
 * same luck.
 */
import { keyOf, type Draft } from './draft.ts';
import { judgeOf, ranked, type Candidate, type Pool } from './judge.ts';
import type { Move } from './neighbours.ts';
import type { Day } from './question.ts';
import type { SearchSettings } from './search.ts';
import { LUCK, type Trials } from './trials.ts';

export type MovesOf = (day: Day, draft: Draft) => Move[];

export const unique = (drafts: Draft[]): Draft[] => [
  ...new Map(drafts.map((draft) => [keyOf(draft), draft])).values(),
];

export type Look = (drafts: Draft[], count: number) => Promise<Candidate[]>;

/** The best so far, each seen often enough to be believed. */
async function verified(
  trials: Trials,
  pool: Pool,
  settings: SearchSettings,
  look: Look,
  count: number,
): Promise<Candidate[]> {
  for (;;) {
    const judge = judgeOf(trials, pool, settings.look);
    const leaders = ranked(
      [...pool.values()].filter((one) => one.figures.good.length >= settings.look),
      'all',
      judge,
    ).slice(0, count);
    const hasty = leaders.filter((one) => one.figures.good.length < settings.verify);
    if (hasty.length === 0) return leaders;
    await look(
      hasty.map((one) => one.draft),
      settings.verify,
    );
  }
}

/**
 * Goes on from the best draft of a pool to the best of its changes, on and on, until nothing better is found
 * or the shifts are spent. Returns the rounds it took. @param expanded keys of drafts already gone on from.
 * @param limit of all shifts run.
 */
export async function improve(
  trials: Trials,
  settings: SearchSettings,
  pool: Pool,
  expanded: Set<string>,
  moves: MovesOf,
  limit: number,
): Promise<number> {
  const { day } = trials;
  const look = lookInto(trials, pool);
  let rounds = 0;
  for (;;) {
    const leaders = await verified(trials, pool, settings, look, settings.beam);
    const judge = judgeOf(trials, pool, settings.look);
    // The best is gone on from; once that brings nothing better, those behind it.
    const leader = leaders.find((one) => !expanded.has(keyOf(one.draft)));
    if (leader === undefined || trials.spent >= limit) return rounds;
    rounds += 1;
    expanded.add(keyOf(leader.draft));
    const room = Math.max(0, Math.floor((limit - trials.spent) / settings.quick));
    let made = tried(moves(day, leader.draft), leader.draft, pool).slice(0, room);
    for (const [count, kept] of [
      [settings.quick, made.length],
      [2 * settings.quick, settings.closer * 4],
      [settings.look, settings.closer],
    ] as const) {
      made = made.slice(0, kept);
      await look(
        made.map((one) => one.draft),
        count,
      );
      made = ranked(
        made.map((one) => ({ ...one, ...pool.get(keyOf(one.draft))! })),
        count,
        judge,
      );
    }
    await look(
      pairs(
        made.map((one) => one.move),
        leader.draft,
        pool,
      ),
      settings.look,
    );
  }
}

function tried(moves: Move[], from: Draft, pool: Pool): { draft: Draft; move: Move }[] {
  const made = new Map<string, { draft: Draft; move: Move }>();
  for (const move of moves) {
    const draft = move(from);
    if (draft !== null && !pool.has(keyOf(draft))) made.set(keyOf(draft), { draft, move });
  }
  return [...made.values()];
}

/** The best changes two by two. */
const PAIRED = 5;
function pairs(moves: Move[], from: Draft, pool: Pool): Draft[] {
  const best = moves.slice(0, PAIRED);
  const drafts = best.flatMap((one, at) =>
    best.slice(at + 1).flatMap((other) => {
      const first = one(from);
      const both = first === null ? null : other(first);
      return both === null || pool.has(keyOf(both)) ? [] : [both];
    }),
  );
  return unique(drafts);
}

/**
 * Tries drafts and keeps what was seen of them in a pool, in the order they were asked for and not that in
 * which they came back.
 */
export const lookInto =
  (trials: Trials, pool: Pool): Look =>
  async (drafts, count) => {
    const figures = await Promise.all(drafts.map((draft) => trials.see(draft, count, LUCK.search)));
    const candidates = drafts.map((draft, at): Candidate => ({ draft, figures: figures[at]! }));
    for (const candidate of candidates) pool.set(keyOf(candidate.draft), candidate);
    return candidates;
  };

/**
 * The search for drafts worth racing: from the starting drafts, single changes and pairs of good ones, tried
 * on a few shifts of the same luck. It is a search, not a proof: it says what it tried, and the race's
 * guarantee is about the drafts it names and no others. Where the choices are few, all of them are named and
 * the guarantee is about all there is.
 */
import { improve, lookInto, unique, type Look, type MovesOf } from './climb.ts';
import { everyDraft } from './every-draft.ts';
import { keyOf, type Draft } from './draft.ts';
import { judgeOf, ranked, type Candidate, type Judge, type Pool } from './judge.ts';
import { movesFrom } from './neighbours.ts';
import { randomDrafts, startingDrafts } from './starts.ts';
import { breaksLimit, type Trials } from './trials.ts';

export interface SearchSettings {
  /** Shifts the search may run. */
  shifts: number;
  /** Shifts of each draft at a first and at a closer look. */
  quick: number;
  look: number;
  /**
   * Shifts of a draft before it is gone on from, or raced: the luckiest of many at a look are not the best.
   */
  verify: number;
  /** Drafts looked at more closely in a round, and how many are gone on from. */
  closer: number;
  beam: number;
  /** Drafts that are raced, at most. */
  finalists: number;
  /** Where there are no more plans than this, all are raced. */
  all: number;
}

export const SEARCH: SearchSettings = {
  shifts: 20_000,
  quick: 6,
  look: 40,
  verify: 120,
  closer: 10,
  beam: 3,
  finalists: 20,
  all: 60,
};

export interface Found {
  /** All there are, or the best of a search. */
  kind: 'all' | 'searched';
  /** Best first; the first draft tried (the file's posts) is always among them. */
  finalists: Draft[];
  /** Drafts tried, those struck out for an exposure limit among them. */
  tried: number;
  overLimit: number;
  rounds: number;
  /**
   * The level that was aimed at: the target, or one more than the most that seemed promisable; null before
   * anything was seen.
   */
  aim: number;
  /** Most good units seen in a shift. */
  most: number;
  /** Mean cost of the best draft. */
  cost: number;
}

export async function findDrafts(
  trials: Trials,
  settings: SearchSettings = SEARCH,
  moves: MovesOf = movesFrom,
  from?: Draft[],
): Promise<Found> {
  const { day } = trials;
  const starts = from ?? startingDrafts(day);
  const every = from === undefined ? everyDraft(day, settings.all) : null;
  const pool: Pool = new Map();
  const look = lookInto(trials, pool);
  await look(
    every === null ? starts : unique([...starts, ...every]),
    every === null ? settings.look : settings.verify,
  );
  trials.filed = pool.get(keyOf(starts[0]!))!.figures;
  const rounds = every === null ? await fromEach(trials, settings, pool, starts, moves) : 0;
  return await chosen(
    trials,
    settings,
    pool,
    look,
    keyOf(starts[0]!),
    every === null ? 'searched' : 'all',
    rounds,
  );
}

/**
 * Climbs from each of the two most unlike starts, then from drafts drawn at random, as long as there are
 * shifts left for it, and at last from the best of all.
 */
async function fromEach(
  trials: Trials,
  settings: SearchSettings,
  pool: Pool,
  starts: Draft[],
  moves: MovesOf,
): Promise<number> {
  const begun = trials.spent;
  const expanded = new Set<string>();
  const until = (share: number): number => begun + settings.shifts * share;
  let rounds = 0;
  const climb = async (drafts: Draft[], limit: number): Promise<void> => {
    const own: Pool = new Map();
    await lookInto(trials, own)(drafts, settings.look);
    rounds += await improve(
      trials,
      settings,
      own,
      expanded,
      moves,
      Math.min(limit, trials.spent + settings.shifts * ONE_CLIMB),
    );
    for (const [key, candidate] of own) pool.set(key, candidate);
  };
  const half = Math.ceil(starts.length / 2);
  for (const group of starts.length < 2 ? [] : [starts.slice(0, half), starts.slice(half)])
    await climb(group, until(1));
  const draw = randomDrafts(trials.day);
  for (let draws = 0; trials.spent < until(LAST_CLIMB) && draws < MOST_DRAWS; draws++) {
    const drawn = draw(DRAWN).filter((draft) => !pool.has(keyOf(draft)));
    await lookInto(trials, pool)(drawn, settings.quick);
    const seen = drawn.map((draft) => pool.get(keyOf(draft))!);
    const best = ranked(seen, settings.quick, judgeOf(trials, pool, settings.look)).slice(0, settings.beam);
    if (best.length > 0)
      await climb(
        best.map((one) => one.draft),
        until(LAST_CLIMB),
      );
  }
  return rounds + (await improve(trials, settings, pool, expanded, moves, until(1)));
}

/**
 * Parts of the shifts: for one climb at most, and spent when the last climb, from the best of all, begins at
 * the latest.
 */
const ONE_CLIMB = 0.3;
const LAST_CLIMB = 0.85;
/** Drafts drawn at a time, and how often at most: where there are few plans, all have soon been seen. */
const DRAWN = 24;
const MOST_DRAWS = 20;

/**
 * Finalists, all seen often enough to be believed: the best by worth, some of the surest, some that
 * bring most of those that are nearly sure enough, and the file's posts; over an exposure limit nobody.
 */
async function chosen(
  trials: Trials,
  settings: SearchSettings,
  pool: Pool,
  look: Look,
  first: string,
  kind: Found['kind'],
  rounds: number,
): Promise<Found> {
  const { day } = trials;
  const most = kind === 'all' ? pool.size : settings.finalists;
  const close = [...pool.values()].filter(
    (one) => one.figures.good.length >= settings.look && !breaksLimit(one.figures),
  );
  const hopeful = mixed(close, most * 3, judgeOf(trials, pool, settings.look), day.confidence);
  await look([...hopeful.map((one) => one.draft), pool.get(first)!.draft], settings.verify);
  const judge = judgeOf(trials, pool, settings.look);
  const sound = hopeful.filter((one) => !breaksLimit(one.figures));
  // Those near a limit may turn out over it in the race: some that were never over go along.
  const clear = hopeful.filter((one) => one.figures.overLimit === 0);
  const picked = new Set(
    kind === 'all'
      ? sound
      : [
          ...mixed(sound, most, judge, day.confidence),
          ...mixed(clear, Math.ceil(most / 3), judge, day.confidence),
        ],
  );
  const asFile = pool.get(first)!;
  if (!breaksLimit(asFile.figures)) picked.add(asFile);
  const finalists = ranked([...picked], 'all', judge);
  return {
    kind,
    rounds,
    aim: judge.aim,
    tried: pool.size,
    finalists: finalists.map((one) => one.draft),
    overLimit: [...pool.values()].filter((one) => breaksLimit(one.figures)).length,
    most: Math.max(0, ...close.flatMap((one) => one.figures.good)),
    cost: finalists.length === 0 ? 0 : judge.worth(finalists[0]!, finalists[0]!.figures.good.length).cost,
  };
}

/**
 * Half by how they are judged, a quarter the surest, a quarter those that bring most, or cost least, of those
 * that nearly make it often enough.
 */
function mixed(candidates: Candidate[], most: number, judge: Judge, asked: number): Candidate[] {
  const best = ranked(candidates, 'all', judge);
  const worth = new Map(best.map((one) => [one, judge.worth(one, one.figures.good.length)]));
  const surest = [...best].sort(
    (a, b) => worth.get(b)!.chance - worth.get(a)!.chance || worth.get(a)!.value - worth.get(b)!.value,
  );
  const nearly = best
    .filter((one) => worth.get(one)!.chance >= asked - 0.1)
    .sort((a, b) => worth.get(a)!.net - worth.get(b)!.net);
  const quarter = Math.ceil(most / 4);
  const picked = new Set([
    ...best.slice(0, 2 * quarter),
    ...surest.slice(0, quarter),
    ...nearly.slice(0, quarter),
  ]);
  for (const one of best) if (picked.size < most) picked.add(one);
  return [...picked].slice(0, most);
}

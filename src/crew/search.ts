/**
 * The search for drafts worth racing: from the starting drafts, single changes and pairs of good ones, tried on a few shifts
 * of the same luck. It is a search, not a proof: it says what it tried, and the race's guarantee is about the drafts it names and
 * no others. Where the choices are few, all of them are named and the guarantee is about all there is.
 */
import { everyDraft } from './every-draft.ts';
import { departures, draftOf, keyOf, type Draft } from './draft.ts';
import { movesFrom, type Move } from './neighbours.ts';
import type { Day } from './question.ts';
import { filled, startingDrafts } from './starts.ts';
import { breaksLimit, LUCK, type Figures, type Trials } from './trials.ts';
import { promisable, worthOf, type Aim, type Worth } from './worth.ts';

export interface SearchSettings {
  /** Shifts the search may run. */
  shifts: number;
  /** Shifts of each draft at a first and at a closer look. */
  quick: number;
  look: number;
  /** Shifts of a draft before it is gone on from, or raced: the luckiest of many at a look are not the best. */
  verify: number;
  /** Drafts looked at more closely in a round, and how many are gone on from. */
  closer: number;
  beam: number;
  /** Drafts that are raced, at most. */
  finalists: number;
  /** Where there are no more plans than this, all are raced. */
  all: number;
}

export const SEARCH: SearchSettings = { shifts: 20_000, quick: 6, look: 40, verify: 120, closer: 10, beam: 3, finalists: 20, all: 60 };

export interface Found {
  /** All there are, or the best of a search. */
  kind: 'all' | 'searched';
  /** Best first; the first draft tried (the file's posts) is always among them. */
  finalists: Draft[];
  /** Drafts tried, those struck out for an exposure limit among them. */
  tried: number;
  overLimit: number;
  rounds: number;
  /** The level that was aimed at: the target, or one more than the most that seemed promisable; null before anything was seen. */
  aim: number;
  /** Most good units seen in a shift. */
  most: number;
  /** Mean cost of the best draft. */
  cost: number;
}

interface Candidate {
  draft: Draft;
  figures: Figures;
}

export async function findDrafts(trials: Trials, settings: SearchSettings = SEARCH, moves: (day: Day, draft: Draft) => Move[] = movesFrom, from?: Draft[]): Promise<Found> {
  const { day } = trials;
  const starts = from ?? startingDrafts(day);
  const every = from === undefined ? everyDraft(day, settings.all) : null;
  const pool = new Map<string, Candidate>();
  const look = lookInto(trials, pool);
  await look(every === null ? starts : unique([...starts, ...every]), every === null ? settings.look : settings.verify);
  const rounds = every === null ? await fromEach(trials, settings, pool, starts, moves) : 0;
  return await chosen(trials, settings, pool, look, keyOf(starts[0]!), every === null ? 'searched' : 'all', rounds);
}

/** Tries drafts and keeps what was seen of them in a pool, in the order they were asked for and not that in which they came back. */
const lookInto = (trials: Trials, pool: Map<string, Candidate>): Look => async (drafts, count) => {
  const figures = await Promise.all(drafts.map((draft) => trials.see(draft, count, LUCK.search)));
  const candidates = drafts.map((draft, at): Candidate => ({ draft, figures: figures[at]! }));
  for (const candidate of candidates) pool.set(keyOf(candidate.draft), candidate);
  return candidates;
};

/** A search from each of the two most unlike starts, two fifths of the shifts each, and then one from the best of both. */
async function fromEach(trials: Trials, settings: SearchSettings, pool: Map<string, Candidate>, starts: Draft[], moves: (day: Day, draft: Draft) => Move[]): Promise<number> {
  const limit = trials.spent + settings.shifts;
  const groups = starts.length < 2 ? [] : [starts.slice(0, Math.ceil(starts.length / 2)), starts.slice(Math.ceil(starts.length / 2))];
  let rounds = 0;
  for (const group of groups) {
    const own = new Map(group.map((draft) => [keyOf(draft), pool.get(keyOf(draft))!]));
    rounds += await improve(trials, settings, own, lookInto(trials, own), moves, trials.spent + settings.shifts * 0.4);
    for (const [key, candidate] of own) pool.set(key, candidate);
  }
  return rounds + await improve(trials, settings, pool, lookInto(trials, pool), moves, limit);
}

const unique = (drafts: Draft[]): Draft[] => [...new Map(drafts.map((draft) => [keyOf(draft), draft])).values()];

type Look = (drafts: Draft[], count: number) => Promise<Candidate[]>;

/** The best so far, each seen often enough to be believed. */
async function verified(day: Day, pool: Map<string, Candidate>, settings: SearchSettings, look: Look, count: number): Promise<Candidate[]> {
  for (;;) {
    const judge = judgeOf(day, pool, settings);
    const leaders = ranked([...pool.values()].filter((one) => one.figures.good.length >= settings.look), 'all', judge).slice(0, count);
    const hasty = leaders.filter((one) => one.figures.good.length < settings.verify);
    if (hasty.length === 0) return leaders;
    await look(hasty.map((one) => one.draft), settings.verify);
  }
}

async function improve(
  trials: Trials, settings: SearchSettings, pool: Map<string, Candidate>, look: Look, moves: (day: Day, draft: Draft) => Move[], limit: number,
): Promise<number> {
  const { day } = trials;
  const expanded = new Set<string>();
  let rounds = 0;
  for (;;) {
    const leaders = await verified(day, pool, settings, look, settings.beam);
    const judge = judgeOf(day, pool, settings);
    // The best is gone on from; once that brings nothing better, those behind it.
    const leader = leaders.find((one) => !expanded.has(keyOf(one.draft)));
    if (leader === undefined || trials.spent >= limit) return rounds;
    rounds += 1;
    expanded.add(keyOf(leader.draft));
    const room = Math.max(0, Math.floor((limit - trials.spent) / settings.quick));
    let made = tried(moves(day, leader.draft), leader.draft, pool).slice(0, room);
    for (const [count, kept] of [[settings.quick, made.length], [2 * settings.quick, settings.closer * 4], [settings.look, settings.closer]] as const) {
      made = made.slice(0, kept);
      await look(made.map((one) => one.draft), count);
      made = ranked(made.map((one) => ({ ...one, ...pool.get(keyOf(one.draft))! })), count, judge);
    }
    await look(pairs(made.map((one) => one.move), leader.draft, pool), settings.look);
  }
}

function tried(moves: Move[], from: Draft, pool: Map<string, Candidate>): { draft: Draft; move: Move }[] {
  const made = new Map<string, { draft: Draft; move: Move }>();
  for (const move of moves) {
    const draft = move(from);
    if (draft !== null && !pool.has(keyOf(draft))) made.set(keyOf(draft), { draft, move });
  }
  return [...made.values()];
}

/** The best changes two by two. */
const PAIRED = 5;
function pairs(moves: Move[], from: Draft, pool: Map<string, Candidate>): Draft[] {
  const best = moves.slice(0, PAIRED);
  const drafts = best.flatMap((one, at) => best.slice(at + 1).flatMap((other) => {
    const first = one(from);
    const both = first === null ? null : other(first);
    return both === null || pool.has(keyOf(both)) ? [] : [both];
  }));
  return unique(drafts);
}

interface Judge {
  aim: number;
  worth(candidate: Candidate, count: number): Worth;
}

/** Aims at the target where some draft seems to make it, else at one more than the most that seems promisable. */
function judgeOf(day: Day, pool: Map<string, Candidate>, settings: SearchSettings): Judge {
  const { target, confidence } = day;
  const seen = [...pool.values()].filter((one) => one.figures.good.length >= settings.look && !breaksLimit(one.figures));
  const all = seen.length > 0 ? seen : [...pool.values()];
  const best = Math.max(...all.map((one) => promisable(one.figures, confidence)));
  const aim = target === null ? best + 1 : Math.min(target, best + 1);
  const costs = all.map((one) => one.figures.cost.reduce((sum, cost) => sum + cost, 0) / one.figures.cost.length);
  const scale = Math.max(1, Math.min(...costs));
  const file = filled(day, draftOf(day));
  const against: Aim = { level: aim, isTarget: aim === target, asked: confidence, length: day.shift.length, scale };
  return { aim, worth: ({ draft, figures }, count) => worthOf(figures, count, against, departures(file, draft), draft.overtime?.cap ?? 0) };
}

/** Best first by so many shifts, or all that were seen; of those that did the same in every shift only the best, the simplest. */
function ranked<T extends Candidate>(candidates: T[], count: number | 'all', judge: Judge): T[] {
  const valued = candidates.map((one) => ({ one, value: judge.worth(one, count === 'all' ? one.figures.good.length : count).value }));
  const distinct = new Map<string, T>();
  for (const { one } of valued.sort((a, b) => a.value - b.value)) {
    const did = `${one.figures.good.join()} ${one.figures.cost.map((cost) => cost.toFixed(6)).join()}`;
    if (!distinct.has(did)) distinct.set(did, one);
  }
  return [...distinct.values()];
}

/**
 * Finalists, all seen often enough to be believed: the best by worth, some of the surest, some of the cheapest that are nearly sure
 * enough, and the file's posts; over an exposure limit nobody.
 */
async function chosen(
  trials: Trials, settings: SearchSettings, pool: Map<string, Candidate>, look: Look, first: string, kind: Found['kind'], rounds: number,
): Promise<Found> {
  const { day } = trials;
  const most = kind === 'all' ? pool.size : settings.finalists;
  const close = [...pool.values()].filter((one) => one.figures.good.length >= settings.look && !breaksLimit(one.figures));
  const hopeful = mixed(close, most * 3, judgeOf(day, pool, settings), day.confidence);
  await look([...hopeful.map((one) => one.draft), pool.get(first)!.draft], settings.verify);
  const judge = judgeOf(day, pool, settings);
  // Rather none over a limit in so few shifts: what is near it may turn out over it in the race.
  const clear = hopeful.filter((one) => one.figures.overLimit === 0);
  const sound = clear.length > 0 ? clear : hopeful.filter((one) => !breaksLimit(one.figures));
  const picked = new Set(kind === 'all' ? sound : mixed(sound, most, judge, day.confidence));
  const asFile = pool.get(first)!;
  if (!breaksLimit(asFile.figures)) picked.add(asFile);
  const finalists = ranked([...picked], 'all', judge);
  return {
    kind, rounds, aim: judge.aim, tried: pool.size,
    finalists: finalists.map((one) => one.draft),
    overLimit: [...pool.values()].filter((one) => breaksLimit(one.figures)).length,
    most: Math.max(0, ...close.flatMap((one) => one.figures.good)),
    cost: finalists.length === 0 ? 0 : judge.worth(finalists[0]!, finalists[0]!.figures.good.length).cost,
  };
}

/** Half by worth, a quarter the surest, a quarter the cheapest of those that nearly make it often enough. */
function mixed(candidates: Candidate[], most: number, judge: Judge, asked: number): Candidate[] {
  const best = ranked(candidates, 'all', judge);
  const worth = new Map(best.map((one) => [one, judge.worth(one, one.figures.good.length)]));
  const surest = [...best].sort((a, b) => worth.get(b)!.chance - worth.get(a)!.chance || worth.get(a)!.value - worth.get(b)!.value);
  const nearly = best.filter((one) => worth.get(one)!.chance >= asked - 0.1).sort((a, b) => worth.get(a)!.cost - worth.get(b)!.cost);
  const quarter = Math.ceil(most / 4);
  const picked = new Set([...best.slice(0, 2 * quarter), ...surest.slice(0, quarter), ...nearly.slice(0, quarter)]);
  for (const one of best) if (picked.size < most) picked.add(one);
  return [...picked].slice(0, most);
}

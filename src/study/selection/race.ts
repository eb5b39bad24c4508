/**
 * The race of candidate plans: first who makes the target at the confidence asked for, then who of them costs
 * least; if nobody makes it, the same for the next lower number, down to the first that somebody can promise.
 *
 * Guarantee (probability of correct selection): with probability at least `guarantee` the chosen plan does
 * not miss the level by more than `zone` of chance, no level higher by one could have been promised with
 * `zone` to spare, and no plan that makes the level with `zone` to spare is cheaper by `matters` or more.
 * Half of the allowed error is spent on the chances (chance-test.ts: exact for yes-or-no outcomes), a half of
 * that on the target itself and the rest evenly over the lower levels, each evenly over the candidates; the
 * other half on the cost (kim-nelson.ts: for near-normal costs, and, for the last claim, costs that differ by
 * at least `matters`). The halves add by Bonferroni's inequality, which holds however the observations hang
 * together: the same replications serve every candidate, every level and both phases.
 */
import { createChanceTest, leaning, tellChance, type ChanceTest } from './chance-test.ts';
import { kimNelson, type Choice } from './kim-nelson.ts';
import { nextLook, type Ask, type Procedure } from './procedure.ts';

export interface RaceSettings {
  candidates: number;
  /** Numbers to be made: the target, then those to fall back on, descending. */
  levels: number[];
  /** Chance asked for that the level is made, over 0 and under 1. Default 0.8. */
  asked: number;
  /** Indifference zone of the chance. Default 0.05. */
  zone: number;
  /** Difference in mean cost worth finding, over 0. */
  matters: number;
  /** Default 0.95. */
  guarantee: number;
  /**
   * Replications before the first look at cost, between looks, and at most, by candidate. Default 30, 20,
   * 20,000.
   */
  first: number;
  block: number;
  most: number;
}

export const RACE = { asked: 0.8, zone: 0.05, guarantee: 0.95, first: 30, block: 20, most: 20_000 };

/** What a candidate's replications say: an output (compared with the levels) and a cost each. */
export interface Figures {
  output: ArrayLike<number>;
  cost: ArrayLike<number>;
}

export interface Standing {
  candidate: number;
  /** Why it is not the plan; null for the chosen one. */
  lostBy: 'target' | 'cost' | null;
  replications: number;
  meanCost: number;
  /** Share of its replications that made the level settled on. */
  chance: number;
}

export interface RaceResult {
  /** The target can be made; only less can be promised; nothing asked about can. */
  kind: 'makes' | 'promises' | 'none';
  level: number | null;
  chosen: number | null;
  /** Of those that make the level, the last to fall to the chosen one. */
  runnerUp: number | null;
  standings: Standing[];
  /** Replications in all, and what equal numbers for every candidate would have come to. */
  replications: number;
  equalReplications: number;
  /** Some answer was forced by the cap: no guarantee. */
  capped: boolean;
}

interface Store {
  output: number[][];
  cost: number[][];
}

export function* race(
  given: Pick<RaceSettings, 'candidates' | 'levels' | 'matters'> & Partial<RaceSettings>,
): Procedure<RaceResult, Figures> {
  const settings: RaceSettings = { ...RACE, ...given };
  const store: Store = { output: empty(settings.candidates), cost: empty(settings.candidates) };
  const everybody = Array.from({ length: settings.candidates }, (_, candidate) => candidate);
  const error = (1 - settings.guarantee) / 2 / Math.max(1, settings.candidates);
  const fallbacks = settings.levels.length - 1;
  let capped = false;
  for (const [at, level] of settings.levels.entries()) {
    const share = fallbacks === 0 ? error : at === 0 ? error / 2 : error / 2 / fallbacks;
    const tests = everybody.map(() => createChanceTest(settings.asked, settings.zone, share));
    capped = (yield* testChances(tests, store, level, settings)) || capped;
    const able = everybody.filter((candidate) => tests[candidate]!.answer === 'reaches');
    if (able.length === 0) continue;
    const choice = yield* cheapest(able, store, settings);
    return report(at === 0 ? 'makes' : 'promises', level, able, choice, store, capped);
  }
  return report('none', null, [], null, store, capped);
}

const empty = (candidates: number): number[][] => Array.from({ length: candidates }, () => []);

/** Sees every test to its answer; true where the cap forced one. */
function* testChances(
  tests: ChanceTest[],
  store: Store,
  level: number,
  settings: RaceSettings,
): Procedure<boolean, Figures> {
  let count = Math.min(settings.first, settings.most);
  for (;;) {
    const open = tests.flatMap((test, candidate) => (test.answer === 'open' ? [candidate] : []));
    yield* fetch(store, open, count);
    for (const candidate of open) {
      const test = tests[candidate]!;
      const output = store.output[candidate]!;
      while (test.answer === 'open' && test.tested < Math.min(count, output.length))
        tellChance(test, output[test.tested]! >= level);
    }
    const still = tests.filter((test) => test.answer === 'open');
    if (still.length === 0) return false;
    if (count >= settings.most) {
      for (const test of still) test.answer = leaning(test);
      return true;
    }
    count = Math.min(nextLook(count, settings.block), settings.most);
  }
}

/**
 * KN on the costs, from the first replication on, with the error reckoned over all candidates that entered
 * the race.
 */
function* cheapest(able: number[], store: Store, settings: RaceSettings): Procedure<Choice, Figures> {
  const { first, block, most, matters, candidates } = settings;
  const perRival = (1 - settings.guarantee) / 2 / Math.max(1, candidates - 1);
  const guarantee = 1 - perRival * Math.max(1, able.length - 1);
  const contest = kimNelson({
    candidates: able.length,
    better: 'less',
    matters,
    guarantee,
    first: Math.min(first, most),
    block,
    most,
  });
  let turn = contest.next();
  while (!turn.done) {
    const asks: Ask[] = turn.value;
    const upTo = Math.max(...asks.map((ask) => ask.from + ask.count));
    yield* fetch(
      store,
      asks.map((ask) => able[ask.candidate]!),
      upTo,
    );
    turn = contest.next(
      asks.map((ask) => store.cost[able[ask.candidate]!]!.slice(ask.from, ask.from + ask.count)),
    );
  }
  return turn.value;
}

function* fetch(store: Store, candidates: number[], count: number): Procedure<void, Figures> {
  const asks = candidates
    .map((candidate): Ask => ({
      candidate,
      from: store.output[candidate]!.length,
      count: count - store.output[candidate]!.length,
    }))
    .filter((ask) => ask.count > 0);
  if (asks.length === 0) return;
  const answers = yield asks;
  asks.forEach((ask, at) => {
    for (let i = 0; i < ask.count; i++) {
      store.output[ask.candidate]!.push(answers[at]!.output[i]!);
      store.cost[ask.candidate]!.push(answers[at]!.cost[i]!);
    }
  });
}

function report(
  kind: RaceResult['kind'],
  level: number | null,
  able: number[],
  choice: Choice | null,
  store: Store,
  capped: boolean,
): RaceResult {
  const chosen = choice === null ? null : able[choice.chosen]!;
  const standings = store.output.map((output, candidate): Standing => ({
    candidate,
    lostBy: candidate === chosen ? null : able.includes(candidate) ? 'cost' : 'target',
    replications: output.length,
    meanCost: store.cost[candidate]!.reduce((sum, cost) => sum + cost, 0) / output.length,
    chance: level === null ? NaN : output.filter((value) => value >= level).length / output.length,
  }));
  const taken = standings.map((standing) => standing.replications);
  return {
    kind,
    level,
    chosen,
    standings,
    runnerUp: choice === null ? null : runnerUpOf(able, choice),
    replications: taken.reduce((sum, count) => sum + count, 0),
    equalReplications: Math.max(0, ...taken) * taken.length,
    capped: capped || choice?.capped === true,
  };
}

/** The one the contest took longest over; of those that fell together, the cheapest. */
function runnerUpOf(able: number[], choice: Choice): number | null {
  const fell = new Map(choice.out.map(({ candidate, after }) => [candidate, after]));
  const others = able.map((_, at) => at).filter((at) => at !== choice.chosen);
  others.sort(
    (a, b) => (fell.get(b) ?? Infinity) - (fell.get(a) ?? Infinity) || choice.means[a]! - choice.means[b]!,
  );
  return others.length === 0 ? null : able[others[0]!]!;
}

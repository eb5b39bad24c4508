/**
 * The race of candidate plans: first who makes the target at the confidence asked for, then who of them is
 * best by the objective; if nobody makes it, the same for the next lower number, down to the first that
 * somebody can promise.
 *
 * Guarantee (probability of correct selection): with probability at least `guarantee` the chosen plan does
 * not miss the level by more than `zone` of chance, no level higher by one could have been promised with
 * `zone` to spare, and no plan that makes the level with `zone` to spare is better by the indifference zone
 * or more: by `matters` of worth or of cost, or, where the chance comes first, by `zone` of chance.
 * Half of the allowed error is spent on the chances (chance-test.ts: exact for yes-or-no outcomes), a half of
 * that on the target itself and the rest evenly over the lower levels, each evenly over the candidates; the
 * other half on the comparison (contenders.ts: for near-normal figures). The halves add by Bonferroni's
 * inequality, which holds however the observations hang together: the same replications serve every
 * candidate, every level and every comparison.
 */
import { createChanceTest, leaning, tellChance, type ChanceTest } from './chance-test.ts';
import { bestAndEquals, type Contenders } from './contenders.ts';
import { nextLook, type Ask, type Procedure } from './procedure.ts';

/**
 * What the plans that make the level are chosen by. The worth, where everything is money; the output where it
 * is not: the chance of the level, then the cost; or the cost alone.
 */
export type Objective = 'worth' | 'output' | 'cost';

export interface RaceSettings {
  candidates: number;
  /** Numbers to be made: the target, then those to fall back on, descending. */
  levels: number[];
  by: Objective;
  /** Chance asked for that the level is made, over 0 and under 1. Default 0.9. */
  asked: number;
  /** Indifference zone of the chance. Default 0.05. */
  zone: number;
  /** Difference in mean worth or cost worth finding, over 0. */
  matters: number;
  /** By candidate: how much of it is new to the shop. Of plans equal in all else the least is taken. */
  changes: number[];
  /** Default 0.95. */
  guarantee: number;
  /**
   * Replications before the first look at worth, between looks, and at most, by candidate. Default 30, 20,
   * 20,000.
   */
  first: number;
  block: number;
  most: number;
}

export const RACE = { asked: 0.9, zone: 0.05, guarantee: 0.95, first: 30, block: 20, most: 20_000 };

/** What a candidate's replications say: an output (compared with the levels), a cost and a worth each. */
export interface Figures {
  output: ArrayLike<number>;
  cost: ArrayLike<number>;
  worth: ArrayLike<number>;
}

export interface Standing {
  candidate: number;
  /**
   * Why it is not the plan: it misses the level, is worse by one of the figures compared, or is as good and
   * less sure, makes less or changes more. Null for the chosen one.
   */
  lostBy: 'target' | 'worth' | 'chance' | 'cost' | 'nothing that matters' | null;
  replications: number;
  meanWorth: number;
  meanCost: number;
  /** Share of its replications that made the level settled on. */
  chance: number;
}

export interface RaceResult {
  /** The first level can be made; only less can be promised; nothing asked about can. */
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
  worth: number[][];
}

export function* race(
  given: Pick<RaceSettings, 'candidates' | 'levels' | 'matters' | 'by' | 'changes'> & Partial<RaceSettings>,
): Procedure<RaceResult, Figures> {
  const settings: RaceSettings = { ...RACE, ...given };
  const store: Store = {
    output: empty(settings.candidates),
    cost: empty(settings.candidates),
    worth: empty(settings.candidates),
  };
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
    const choice = yield* choose(able, level, store, settings);
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
    yield* fetch(
      store,
      open.map((candidate) => ({ candidate, upTo: count })),
    );
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

interface Comparison {
  lostBy: 'worth' | 'chance' | 'cost';
  better: 'more' | 'less';
  matters: number;
  of: (store: Store, candidate: number, replication: number) => number;
}

const made =
  (level: number): Comparison['of'] =>
  ({ output }, candidate, replication) =>
    output[candidate]![replication]! >= level ? 1 : 0;

/** What is compared, first things first: what a comparison leaves equal goes on to the next. */
function comparisons(by: Objective, level: number, { zone, matters }: RaceSettings): Comparison[] {
  const cost: Comparison = {
    lostBy: 'cost',
    better: 'less',
    matters,
    of: ({ cost }, candidate, replication) => cost[candidate]![replication]!,
  };
  switch (by) {
    case 'worth':
      return [
        {
          lostBy: 'worth',
          better: 'more',
          matters,
          of: ({ worth }, candidate, replication) => worth[candidate]![replication]!,
        },
      ];
    case 'output':
      return [{ lostBy: 'chance', better: 'more', matters: zone, of: made(level) }, cost];
    case 'cost':
      return [cost];
  }
}

interface Choice {
  chosen: number;
  lostBy: Map<number, Standing['lostBy']>;
  runnerUp: number | null;
  capped: boolean;
}

/**
 * The best of those that make the level, and of equals the surest, then the one that makes most, then the one
 * that changes least; the error is reckoned over all candidates that entered the race.
 */
function* choose(
  able: number[],
  level: number,
  store: Store,
  settings: RaceSettings,
): Procedure<Choice, Figures> {
  const { first, block, most, candidates } = settings;
  const compared = comparisons(settings.by, level, settings);
  const perRival = (1 - settings.guarantee) / 2 / compared.length / Math.max(1, candidates - 1);
  const lostBy = new Map<number, Standing['lostBy']>();
  let [left, capped] = [able, false];
  let lastOut: number | null = null;
  for (const { lostBy: why, better, matters, of } of compared) {
    const among = left;
    const contest = bestAndEquals({
      candidates: among.length,
      better,
      matters,
      error: perRival * Math.max(1, among.length - 1),
      first: Math.min(first, most),
      block,
      most,
    });
    const found: Contenders = yield* fed(contest, among, store, of);
    left = found.equals.map((at) => among[at]!);
    capped ||= found.capped;
    for (const candidate of among) if (!left.includes(candidate)) lostBy.set(candidate, why);
    lastOut = found.nextBest === null ? lastOut : among[found.nextBest]!;
  }
  const [chosen, second] = ordered(left, level, store, settings.changes);
  for (const candidate of left) if (candidate !== chosen) lostBy.set(candidate, 'nothing that matters');
  return { chosen: chosen!, lostBy, runnerUp: second ?? lastOut, capped };
}

/** Differences that equals are told apart by: one shift in 100, a tenth of a unit. */
const SURER = 0.01;
const MORE = 0.1;

/** Equals, the best first: the surest, then the one that makes most, then the one that changes least. */
function ordered(equals: number[], level: number, store: Store, changes: number[]): number[] {
  const common = Math.min(...equals.map((candidate) => store.output[candidate]!.length));
  const seen = equals.map((candidate) => {
    const output = store.output[candidate]!.slice(0, common);
    return {
      candidate,
      chance: output.filter((value) => value >= level).length / common,
      mean: output.reduce((sum, value) => sum + value, 0) / common,
      cost: store.cost[candidate]!.slice(0, common).reduce((sum, value) => sum + value, 0) / common,
    };
  });
  const order: number[] = [];
  for (let left = seen; left.length > 0;) {
    const surest = Math.max(...left.map(({ chance }) => chance));
    const sure = left.filter(({ chance }) => chance >= surest - SURER);
    const largest = Math.max(...sure.map(({ mean }) => mean));
    const best = sure
      .filter(({ mean }) => mean >= largest - MORE)
      .reduce((a, b) => {
        const fewer = changes[b.candidate]! - changes[a.candidate]!;
        return fewer < 0 || (fewer === 0 && b.cost < a.cost) ? b : a;
      });
    order.push(best.candidate);
    left = left.filter((one) => one !== best);
  }
  return order;
}

/** Feeds a comparison of some of the candidates from what is stored, and fetches what is not. */
function* fed<Result>(
  contest: Procedure<Result, ArrayLike<number>>,
  among: number[],
  store: Store,
  of: Comparison['of'],
): Procedure<Result, Figures> {
  let turn = contest.next();
  while (!turn.done) {
    const asks: Ask[] = turn.value;
    yield* fetch(
      store,
      asks.map((ask) => ({ candidate: among[ask.candidate]!, upTo: ask.from + ask.count })),
    );
    turn = contest.next(
      asks.map(({ candidate, from, count }) =>
        Float64Array.from({ length: count }, (_, at) => of(store, among[candidate]!, from + at)),
      ),
    );
  }
  return turn.value;
}

/** Fetches what is missing of the first so many replications of each. */
function* fetch(store: Store, wanted: { candidate: number; upTo: number }[]): Procedure<void, Figures> {
  const asks = wanted
    .map(({ candidate, upTo }): Ask => {
      const from = store.output[candidate]!.length;
      return { candidate, from, count: upTo - from };
    })
    .filter((ask) => ask.count > 0);
  if (asks.length === 0) return;
  const answers = yield asks;
  asks.forEach((ask, at) => {
    for (let i = 0; i < ask.count; i++) {
      store.output[ask.candidate]!.push(answers[at]!.output[i]!);
      store.cost[ask.candidate]!.push(answers[at]!.cost[i]!);
      store.worth[ask.candidate]!.push(answers[at]!.worth[i]!);
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
  const chosen = choice === null ? null : choice.chosen;
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const standings = store.output.map((output, candidate): Standing => ({
    candidate,
    lostBy:
      candidate === chosen ? null : able.includes(candidate) ? choice!.lostBy.get(candidate)! : 'target',
    replications: output.length,
    meanWorth: mean(store.worth[candidate]!),
    meanCost: mean(store.cost[candidate]!),
    chance: level === null ? NaN : output.filter((value) => value >= level).length / output.length,
  }));
  const taken = standings.map((standing) => standing.replications);
  return {
    kind,
    level,
    chosen,
    standings,
    runnerUp: choice === null ? null : choice.runnerUp,
    replications: taken.reduce((sum, count) => sum + count, 0),
    equalReplications: Math.max(0, ...taken) * taken.length,
    capped: capped || choice?.capped === true,
  };
}

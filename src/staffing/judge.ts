/** Judging drafts against each other from the shifts seen of them. */
import { departures, type Draft } from './draft.ts';
import { asFiled } from './starts.ts';
import { breaksLimit, type Figures, type Trials } from './trials.ts';
import { promisable, worthOf, type Aim, type Worth } from './worth.ts';

export interface Candidate {
  draft: Draft;
  figures: Figures;
}

/** Drafts tried, by their keys, in the order they were tried in. */
export type Pool = Map<string, Candidate>;

export interface Judge {
  aim: number;
  worth(candidate: Candidate, count: number): Worth;
}

/** Where minutes of overtime stand for the cost, chances are weighed against an hour of them at least. */
const LEAST_MINUTES = 60;

/**
 * Aims at the target where some draft seems to make it, else at one more than the most that seems promisable.
 */
export function judgeOf({ day, filed, economy }: Trials, pool: Pool, look: number): Judge {
  const { target, confidence, objective } = day;
  const seen = [...pool.values()].filter(
    (one) => one.figures.good.length >= look && !breaksLimit(one.figures),
  );
  const all = seen.length > 0 ? seen : [...pool.values()];
  const best = Math.max(...all.map((one) => promisable(one.figures, confidence)));
  // Where more than is due counts and has no price, the most that can be promised is looked for.
  const open = target === null || (objective.by === 'output' && objective.wanted === Infinity);
  const aim = open ? best + 1 : Math.min(target, best + 1);
  const costs = all.map(
    (one) => one.figures.cost.reduce((sum, cost) => sum + cost, 0) / one.figures.cost.length,
  );
  const scale = Math.max(economy === 'cost' ? 1 : LEAST_MINUTES, Math.min(...costs));
  const file = asFiled(day);
  const against: Aim = {
    level: aim,
    isTarget: aim === target,
    asked: confidence,
    length: day.shift.length,
    scale,
    objective,
    filed,
  };
  return {
    aim,
    worth: ({ draft, figures }, count) =>
      worthOf(figures, count, against, departures(file, draft), draft.overtime?.cap ?? 0),
  };
}

/**
 * Best first by so many shifts, or all that were seen; of those that did the same in every shift only the
 * best, the simplest.
 */
export function ranked<T extends Candidate>(candidates: T[], count: number | 'all', judge: Judge): T[] {
  const valued = candidates.map((one) => ({
    one,
    value: judge.worth(one, count === 'all' ? one.figures.good.length : count).value,
  }));
  const distinct = new Map<string, T>();
  for (const { one } of valued.sort((a, b) => a.value - b.value)) {
    const did = `${one.figures.good.join()} ${one.figures.cost.map((cost) => cost.toFixed(6)).join()}`;
    if (!distinct.has(did)) distinct.set(did, one);
  }
  return [...distinct.values()];
}

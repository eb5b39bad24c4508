/** How good a draft looks from the shifts run of it: first whether it makes the level often enough, then what it costs. */
import { madeByShare, sortedValues } from '../study/intervals/percentile-interval.ts';
import { breaksLimit, type Figures } from './trials.ts';

/** A little more than the chance asked for is wanted of a few shifts, since the luckiest of many drafts is picked by them. */
const MARGIN = 0.03;
/** A unit short on average counts as so much chance, so that drafts far from the level can be told apart. */
const UNIT_SHORT = 0.05;
/** A whole lack of chance counts as so many times the cost of a shift. */
const LACK = 3;
/** Each departure from the file's posts counts as such a part of the cost of a shift: of plans as good as equal the simplest. */
export const CHANGE = 0.001;

/** Over an exposure limit: worse than any draft that is not, and the worse the further over. */
const OVER = 100;
/** Near one, by the part of a limit that people are over nine tenths of it on average, counts as so many times the cost of a shift. */
const NEAR = 4;

export interface Worth {
  /** The less the better. */
  value: number;
  /** Share of the shifts that made the level. */
  chance: number;
  cost: number;
  good: number;
}

/**
 * @param changes departures from the file's posts.
 * @param scale the cost of a shift, for weighing a lack of chance and departures against it; over 0.
 */
export function worthOf(figures: Figures, count: number, level: number, asked: number, changes: number, scale: number): Worth {
  const { good, cost } = figures;
  let [made, short, costs, goods] = [0, 0, 0, 0];
  for (let at = 0; at < count; at++) {
    if (good[at]! >= level) made += 1;
    else short += level - good[at]!;
    costs += cost[at]!;
    goods += good[at]!;
  }
  const ability = (made - UNIT_SHORT * short) / count;
  const lack = Math.max(0, Math.min(1, asked + MARGIN) - ability);
  // Good units break ties where cost does not tell drafts apart.
  const excess = figures.excess / good.length;
  const value = NEAR * scale * excess + costs / count + LACK * scale * lack + CHANGE * scale * changes - 1e-3 * scale * (goods / count) / Math.max(1, level);
  return { value: breaksLimit(figures) ? value + OVER * scale * (1 + excess) : value, chance: made / count, cost: costs / count, good: goods / count };
}

/** The most that a share of the shifts made. */
export const promisable = ({ good }: Figures, asked: number): number => madeByShare(sortedValues(good), asked);

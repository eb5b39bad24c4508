/**
 * How good a draft looks from the shifts run of it: first whether it makes the level often enough, then what
 * it is worth: what its good units bring in, as far as they are wanted, less what it costs.
 */
import { madeByShare, sortedValues } from '../study/intervals/percentile-interval.ts';
import type { DayObjective } from './question.ts';
import { breaksLimit, type Figures } from './trials.ts';

/**
 * A little more than the chance asked for is wanted of a few shifts, since the luckiest of many drafts is
 * picked by them.
 */
const MARGIN = 0.05;
/**
 * In a few shifts, nearly made and only just made count in part: a yes or no says little. At most so much,
 * and less the more shifts there are.
 */
const SOFT = 0.5;
const SOFT_SHIFTS = 20;
/** A unit short on average counts as so much chance, so that drafts far from the level can be told apart. */
const UNIT_SHORT = 0.05;
/** A whole lack of chance counts as so many times the cost of a shift. */
const LACK = 3;
/**
 * Each departure from the file's posts counts as such a part of the cost of a shift: of plans as good as
 * equal the simplest.
 */
export const CHANGE = 0.001;

/** Where nothing has a price, every failure in a hundred counts as a hundredth of the cost of a shift. */
const SURE = 1;
/** A unit fewer on average than the file's own posts counts as such a part of the cost of a shift. */
const BELOW = 0.05;

/** Over an exposure limit: worse than any draft that is not, and the worse the further over. */
const OVER = 100;
/**
 * Near one, by the part of a limit that people are over nine tenths of it on average, counts as so many times
 * the cost of a shift.
 */
const NEAR = 4;

export interface Worth {
  /** The less the better. */
  value: number;
  /** Share of the shifts that made the level. */
  chance: number;
  cost: number;
  /** Cost less what the wanted units bring in: the worth, the other way round. */
  net: number;
  good: number;
}

/** What a draft is judged against. */
export interface Aim {
  level: number;
  /** The level is the target: when it was met says how nearly. */
  isTarget: boolean;
  /** Chance asked for. */
  asked: number;
  /** Minutes of the shift. */
  length: number;
  /** The cost of a shift, for weighing everything else against it; over 0. */
  scale: number;
  objective: DayObjective;
  /** What the file's own posts made in the same shifts; null where that is not known. */
  filed: Figures | null;
}

/**
 * How good a draft looks by its first `count` shifts.
 * @param changes departures from the file's posts. @param overtime minutes it may go on after the end.
 */
export function worthOf(figures: Figures, count: number, aim: Aim, changes: number, overtime: number): Worth {
  const { level, asked, scale, objective } = aim;
  let [made, nearly, short, costs, goods, wanted] = [0, 0, 0, 0, 0, 0];
  for (let at = 0; at < count; at++) {
    const good = figures.good[at]!;
    if (good >= level) made += 1;
    else short += level - good;
    nearly += softly(marginOf(good, figures.met[at]!, aim, overtime));
    costs += figures.cost[at]! / count;
    goods += good / count;
    wanted += Math.min(good, objective.wanted) / count;
  }
  const softness = Math.min(SOFT, SOFT_SHIFTS / count);
  const ability = ((1 - softness) * made + softness * nearly - UNIT_SHORT * short) / count;
  const lack = Math.max(0, Math.min(1, asked + MARGIN) - ability);
  const excess = figures.excess / figures.good.length;
  // Good units break ties where cost does not tell drafts apart.
  const net = costs - (objective.by === 'worth' ? objective.margin * wanted : 0);
  const unsure = objective.by === 'output' ? SURE * (1 - made / count) : 0;
  const below = objective.by === 'cost' ? 0 : BELOW * shortOf(aim.filed, figures, count);
  const value =
    net +
    scale *
      (LACK * lack + unsure + below + CHANGE * changes + NEAR * excess - (1e-3 * goods) / Math.max(1, level));
  return {
    value: breaksLimit(figures) ? value + OVER * scale * (1 + excess) : value,
    chance: made / count,
    cost: costs,
    net,
    good: goods,
  };
}

/** How many units fewer than the file's own posts, on average over the shifts seen of both. */
function shortOf(filed: Figures | null, { good }: Figures, count: number): number {
  const both = Math.min(count, filed?.good.length ?? 0);
  let short = 0;
  for (let at = 0; at < both; at++) short += (filed!.good[at]! - good[at]!) / both;
  return Math.max(0, short);
}

/**
 * By how many units a shift makes the level or misses it; where the target was met in time, time left counts
 * as units.
 */
function marginOf(good: number, met: number, { level, isTarget, length }: Aim, overtime: number): number {
  if (!isTarget || good < level) return good - level + 0.5;
  const left = ((length + overtime - met) * level) / length;
  return Math.max(0.1, Number.isNaN(left) ? 0 : left);
}

/**
 * From 0 to 1 over a margin of about a unit either side, by plain arithmetic that is the same on every
 * machine.
 */
const softly = (margin: number): number => 0.5 + (0.5 * margin) / (Math.abs(margin) + 0.5);

/** The most that a share of the shifts made. */
export const promisable = ({ good }: Figures, asked: number): number =>
  madeByShare(sortedValues(good), asked);

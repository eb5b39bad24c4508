/**
 * Forecasts beside what came: do the ranges hold as often as they claim? Plain data for a page, a table or a
 * picture.
 */
import { chanceInterval } from '../study/intervals/chance-interval.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { meanInterval } from '../study/intervals/mean-interval.ts';

/** One shift: what was said before, what came. */
export interface LogEntry {
  /** "2024-03-05". */
  date: string;
  /**
   * Good units that one shift in ten is under, half are under, one in ten is over; chance (0 to 1) of the
   * target, null without one.
   */
  forecast: { p10: number; p50: number; p90: number; chance: number | null };
  target: number | null;
  good: number;
}

export interface LogCoverage {
  count: number;
  inside: number;
  below: number;
  above: number;
  /** Share inside, with Wilson's range; it should be about `claimed`. */
  share: Interval;
  claimed: number;
  /** Whether `claimed` is possible given the range. */
  verdict: 'holds' | 'too narrow' | 'too wide' | 'too few to say';
  /** Mean of what came less the middle of the forecast, units; positive: more came. NaN without entries. */
  bias: number;
  /** The bias with Student's range. */
  lean: Interval;
  /** So many last shifts in a row came on this side of their forecast's middle; null: the last hit it. */
  run: { side: 'under' | 'over'; count: number } | null;
  /** In order of date: this shift, and the share inside over the last `window` shifts up to it. */
  overTime: {
    date: string;
    good: number;
    inside: boolean;
    share: number;
    low: number;
    high: number;
    of: number;
  }[];
  /** Of the shifts with a target: how many met it, and how many were to be expected by the chances given. */
  target: { count: number; met: number; expected: number };
}

const FEWEST = 5;
/**
 * Ten to ninety in a hundred: eight shifts in ten. Whole units make the range hold a little more than that.
 */
const CLAIMED = 0.8;

export function coverageOfLog(entries: readonly LogEntry[], window = 20, confidence = 0.95): LogCoverage {
  const ordered = [...entries].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const isInside = (one: LogEntry): boolean => one.good >= one.forecast.p10 && one.good <= one.forecast.p90;
  const count = ordered.length;
  const inside = ordered.filter(isInside).length;
  const share = chanceInterval(inside, count, confidence);
  const targeted = ordered.flatMap((one) =>
    one.target === null || one.forecast.chance === null
      ? []
      : [{ met: one.good >= one.target, chance: one.forecast.chance }],
  );
  const lean = leanOf(ordered, confidence);
  return {
    count,
    inside,
    lean,
    run: runOf(ordered),
    share,
    claimed: CLAIMED,
    below: ordered.filter((one) => one.good < one.forecast.p10).length,
    above: ordered.filter((one) => one.good > one.forecast.p90).length,
    verdict:
      count < FEWEST
        ? 'too few to say'
        : share.high < CLAIMED
          ? 'too narrow'
          : share.low > CLAIMED
            ? 'too wide'
            : 'holds',
    bias: lean.estimate,
    overTime: ordered.map((one, place) => {
      const last = ordered.slice(Math.max(0, place + 1 - window), place + 1);
      const { estimate, low, high } = chanceInterval(last.filter(isInside).length, last.length, confidence);
      return {
        date: one.date,
        good: one.good,
        inside: isInside(one),
        share: estimate,
        low,
        high,
        of: last.length,
      };
    }),
    target: {
      count: targeted.length,
      met: targeted.filter((one) => one.met).length,
      expected: targeted.reduce((sum, one) => sum + one.chance, 0),
    },
  };
}

function leanOf(entries: readonly LogEntry[], confidence: number): Interval {
  const count = entries.length;
  const off = entries.map(({ good, forecast }) => good - forecast.p50);
  const mean = off.reduce((sum, one) => sum + one, 0) / count;
  const squares = off.reduce((sum, one) => sum + (one - mean) * (one - mean), 0);
  return meanInterval(count, mean, Math.sqrt(squares / Math.max(1, count - 1)), confidence);
}

function runOf(ordered: readonly LogEntry[]): LogCoverage['run'] {
  const sideOf = ({ good, forecast }: LogEntry): number => Math.sign(good - forecast.p50);
  const last = ordered.at(-1);
  if (last === undefined || sideOf(last) === 0) return null;
  const before = ordered.findLastIndex((one) => sideOf(one) !== sideOf(last));
  return { side: sideOf(last) < 0 ? 'under' : 'over', count: ordered.length - 1 - before };
}

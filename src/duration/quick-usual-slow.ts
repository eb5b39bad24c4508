import type { Time } from '../scenario/schema.ts';
import { exp, log, normalQuantile } from '../random/exact.ts';
import { byNormal, fixedAt, type AnyCurve, type Moments } from './curve.ts';
import { integrate } from './integrate.ts';

/** 90th percentile of the standard normal curve. */
const NINETY = normalQuantile(0.9);

/**
 * The times people give: one in ten under `quick`, half under `usual`, one in ten over `slow`. The curve is
 * the Johnson quantile-parameterized distribution with lower bound 0 (J-QPD-S; Hadlock and Bickel 2017,
 * "Johnson Quantile-Parameterized Distributions", Decision Analysis 14(1); recalled from memory, the three
 * percentiles and monotony are tested). With w = z(u) / z(0.9), s = ln(slow / quick) / 2 and m the smaller of
 * ln(usual / quick) and ln(slow / usual), their formula is the same as
 *
 *     ln(quantile) = ln(quick) + s w + root   where ln(slow / usual) is the larger (they lean to the right),
 *     ln(quantile) = ln(slow)  + s w - root   where it is the smaller,   root = sqrt(m^2 + (s^2 - m^2) w^2),
 *
 * which needs no limit for the lognormal between the two (m = s) and still holds when two of the three times
 * are equal.
 *
 * `quick` may be 0, which no curve bounded at 0 can meet: then the bound is put at -usual, and what lies
 * below 0, the quickest tenth, takes no time. The three percentiles stay as given.
 */
export function quickUsualSlow(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('usual' in time)) return null;
  const { quick, usual, slow } = time;
  if (quick === slow) return fixedAt(usual);
  const shift = quick === 0 ? usual : 0;
  const below = log((usual + shift) / (quick + shift));
  const above = log(slow + shift) - log(usual + shift);
  const half = (below + above) / 2;
  const nearer = Math.min(below, above);
  const nearerSquared = nearer * nearer;
  const rest = half * half - nearerSquared;
  const lean = above >= below ? 1 : -1;
  const base = (lean === 1 ? quick : slow) + shift;

  const atNormal = (z: number): number => {
    const w = z / NINETY;
    const root = Math.sqrt(nearerSquared + rest * w * w);
    // On the side where the two terms nearly cancel, their difference of squares over their sum: exact where
    // two times are equal.
    const exponent =
      lean * w >= 0
        ? half * w + lean * root
        : (lean * nearerSquared * (1 - w * w)) / (root + half * Math.abs(w));
    const value = base * exp(exponent) - shift;
    return value > 0 ? value : 0;
  };
  const steepest = (half + Math.sqrt(rest)) / NINETY;
  const kinks = [...(shift > 0 ? [0.1] : []), ...(nearer < half / 16 ? [0.5] : [])];
  return byNormal(atNormal, () => normalMoments(atNormal, steepest, shift > 0), kinks);
}

/** Mean and variance of value(z), z standard normal, where value grows at most like exp(steepest z). */
function normalMoments(value: (z: number) => number, steepest: number, cut: boolean): Moments {
  const density = (z: number): number => exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const least = cut ? -NINETY : -10;
  const most = 2 * steepest + 10;
  const over = (what: (z: number) => number): number => integrate(what, least, 0) + integrate(what, 0, most);
  const mean = over((z) => value(z) * density(z));
  const atMean = (z: number): number => (value(z) - mean) * (value(z) - mean) * density(z);
  const belowCut = cut ? mean * mean * 0.1 : 0;
  return { mean, variance: over(atMean) + belowCut };
}

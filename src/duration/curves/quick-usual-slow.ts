import { z } from '../../zod.ts';
import { exp, log, normalQuantile } from '../../random/exact.ts';
import type { Curve, CurveFault } from '../curve.ts';
import { byNormal, constant, type Distribution, type Moments } from '../distribution.ts';
import { minutes, minutesField, positiveMinutes, tenthDown, tenthUp } from '../entries.ts';
import { integrate } from '../integrate.ts';

const schema = z
  .strictObject({ quick: minutes, usual: positiveMinutes, slow: positiveMinutes })
  .describe(
    'As people give times: one in ten is quicker than `quick`, half are under `usual`, one in ten is slower than `slow`.',
  );
export type QuickUsualSlow = z.output<typeof schema>;

/** 90th percentile of the standard normal curve. */
const NINETY = normalQuantile(0.9);

/** Beyond this the mean of the curve lies among its rarest times, and says nothing of the work. */
const MOST_SKEW = 20;

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
 * are equal; all three equal, to within the rounding of their logarithms, are always `usual`.
 *
 * `quick` may be 0, which no curve bounded at 0 can meet: then the bound is put at -usual, and what lies
 * below 0, the quickest tenth, takes no time. The three percentiles stay as given, within 1e-9 of themselves;
 * the mean is integrated to about 1e-11 of itself.
 */
export const quickUsualSlow: Curve<'quick-usual-slow', QuickUsualSlow> = {
  kind: 'quick-usual-slow',
  everyday: true,
  words: {
    name: 'quick, usual, slow',
    choice: 'quick, usual, slow',
    short: ({ quick, usual, slow }) => `${quick}/${usual}/${slow}`,
  },
  schema,
  fields: [
    minutesField('quick', 'Quick', { hint: 'one in ten is quicker' }),
    minutesField('usual', 'Usual', { hint: 'half are under it' }),
    minutesField('slow', 'Slow', { hint: 'one in ten is slower' }),
  ],
  is: (time): time is QuickUsualSlow => typeof time === 'object' && time !== null && 'usual' in time,
  faults,
  distribution,
  typical: ({ usual }) => usual,
  timings: () => [],
  mapMinutes: ({ quick, usual, slow }, change) => ({
    quick: change(quick),
    usual: change(usual),
    slow: change(slow),
  }),
  spread,
  later: ({ quick, usual, slow }, minutes) =>
    quick + minutes > 0 ? { quick: quick + minutes, usual: usual + minutes, slow: slow + minutes } : null,
  about: rising,
};

/** `usual` stays. Where `quick` ends at 0 the other side goes no further than the file's check lets it. */
function spread({ quick, usual, slow }: QuickUsualSlow, factor: number): QuickUsualSlow {
  const most = MOST_SKEW * (1 - 1e-12);
  const over = (slow - usual) * factor;
  const first = Math.max(0, usual - (usual - quick) * factor, usual - over * most);
  return { quick: first, usual, slow: usual + Math.min(over, (usual - first) * most) };
}

/**
 * The three have to rise, and neither side may be all too long beside the other: a time that hardly varies
 * gets a tenth of a minute between them.
 */
function rising({ quick, usual, slow }: QuickUsualSlow): QuickUsualSlow {
  const far = MOST_SKEW - 1;
  const second = tenthUp(Math.max(usual, quick + 0.1, slow / MOST_SKEW));
  const third = tenthUp(Math.max(slow, second + 0.1, second + (second - quick) / far));
  return { quick: Math.min(quick, tenthDown(second - (third - second) / far)), usual: second, slow: third };
}

function faults({ quick, usual, slow }: QuickUsualSlow): CurveFault[] {
  const found: CurveFault[] = [];
  if (quick >= usual)
    found.push({
      place: ['usual'],
      found: String(usual),
      allowed: `more than "quick" (${quick})`,
      remedy: 'one in ten is quicker than "quick", half are under "usual": put them in order',
    });
  if (usual >= slow)
    found.push({
      place: ['slow'],
      found: String(slow),
      allowed: `more than "usual" (${usual})`,
      remedy: 'one in ten is slower than "slow": put them in order',
    });
  const [under, over] = [usual - quick, slow - usual];
  const skew = Math.max(under / over, over / under);
  if (under > 0 && over > 0 && skew > MOST_SKEW)
    found.push({
      place: [],
      found: `one side of "usual" ${Math.round(skew)} times as long as the other`,
      allowed: `at most ${MOST_SKEW} times`,
      remedy:
        'look at "quick" and "slow" again, or give the timings themselves: { "curve": "observed", "values": [ ] }',
    });
  return found;
}

function distribution({ quick, usual, slow }: QuickUsualSlow): Distribution {
  if (quick === slow) return constant(usual);
  const shift = quick === 0 ? usual : 0;
  // Never under 0: logarithms of neighbors may come out in the wrong order.
  const below = Math.max(0, logOfRatio(usual + shift, quick + shift));
  const above = Math.max(0, log(slow + shift) - log(usual + shift));
  const half = (below + above) / 2;
  if (half === 0) return constant(usual);
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

/** ln(a / b); also where b is so small that the ratio is past all numbers. */
function logOfRatio(a: number, b: number): number {
  const ratio = a / b;
  return ratio < Infinity ? log(ratio) : log(a) - log(b);
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

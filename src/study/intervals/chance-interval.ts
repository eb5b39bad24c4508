import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { checkConfidence, type Interval } from './interval.ts';

/**
 * Wilson's score interval of a chance (Wilson 1927; method 3 of Newcombe, Statistics in Medicine 17, 1998).
 * Never outside 0 to 1 and never of no width, also where nothing or everything was seen.
 * @param successes 0 to `count`. @param count observations; 0 gives 0 to 1 with the estimate NaN.
 */
export function chanceInterval(successes: number, count: number, confidence = 0.95): Interval {
  checkConfidence(confidence);
  if (!(successes >= 0 && successes <= count))
    throw new RangeError(`successes must be 0 to ${count}, not ${successes}`);
  if (count === 0)
    return { estimate: NaN, low: 0, high: 1, half: 0.5, luck: 0.5, inputs: 0, count, confidence };
  const z = normalQuantile((1 + confidence) / 2, 0, 1);
  const estimate = successes / count;
  const spread = z * Math.sqrt(z * z + 4 * successes * (1 - estimate));
  const scale = 2 * (count + z * z);
  const low = successes === 0 ? 0 : Math.max(0, (2 * successes + z * z - spread) / scale);
  const high = successes === count ? 1 : Math.min(1, (2 * successes + z * z + spread) / scale);
  const half = (high - low) / 2;
  return { estimate, low, high, half, luck: half, inputs: 0, count, confidence };
}

import { around, type Interval } from './interval.ts';
import { studentQuantile } from './student-quantile.ts';

/**
 * Student's interval of a mean (Student 1908). Exact for independent normal observations whose number was not
 * chosen by looking at them; near enough for others when they are many.
 * @param count observations; under 2 the half-width is Infinity.
 * @param deviation sample standard deviation (divisor count - 1).
 */
export function meanInterval(count: number, mean: number, deviation: number, confidence = 0.95): Interval {
  const half = count < 2 ? Infinity : (studentQuantile(confidence, count - 1) * deviation) / Math.sqrt(count);
  return around(mean, half, count, confidence);
}

import type { Time } from '../scenario/schema.ts';
import { byQuantile, fixedAt, type AnyCurve } from './curve.ts';

/** Every time between `least` and `most` as likely as any other. */
export function uniformCurve(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'uniform') return null;
  const { least, most } = time;
  const width = most - least;
  if (width === 0) return fixedAt(least);
  return byQuantile(
    (u) => least + u * width,
    () => ({ mean: (least + most) / 2, variance: (width * width) / 12 }),
  );
}

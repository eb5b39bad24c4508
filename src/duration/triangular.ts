import type { Time } from '../scenario/schema.ts';
import { byQuantile, fixedAt, type AnyCurve } from './curve.ts';

/** Triangular from `least` over `likeliest` to `most`. */
export function triangular(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'triangular') return null;
  const { least, likeliest, most } = time;
  const width = most - least;
  if (width === 0) return fixedAt(least);
  const rise = likeliest - least;
  const fall = most - likeliest;
  const turn = rise / width;
  return byQuantile(
    (u) => (u < turn ? least + Math.sqrt(u * width * rise) : most - Math.sqrt((1 - u) * width * fall)),
    () => ({
      mean: (least + likeliest + most) / 3,
      variance: (rise * rise + rise * fall + fall * fall) / 18,
    }),
    [turn],
  );
}

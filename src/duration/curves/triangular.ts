import { z } from '../../zod.ts';
import { isCurve, type Curve, type CurveFault } from '../curve.ts';
import { byQuantile, constant, type Distribution } from '../distribution.ts';
import { minutes, minutesField, positiveMinutes, tenthUp } from '../entries.ts';

const schema = z.strictObject({
  curve: z.literal('triangular'),
  least: minutes,
  likeliest: minutes,
  most: positiveMinutes,
});
type Triangular = z.output<typeof schema>;

const meanOf = ({ least, likeliest, most }: Triangular): number => (least + likeliest + most) / 3;

/**
 * Triangular from `least` over `likeliest` to `most`. With rise and fall the widths on either side of
 * `likeliest`: quantile least + sqrt(u width rise) under it and most - sqrt((1 - u) width fall) over it,
 * variance (rise^2 + rise fall + fall^2) / 18. `likeliest` may be at either end.
 */
export const triangular: Curve<'triangular', Triangular> = {
  kind: 'triangular',
  everyday: false,
  words: {
    name: 'least, likeliest, most',
    choice: 'least, likeliest, most',
    short: ({ least, likeliest, most }) => `${least} to ${most}, likeliest ${likeliest}`,
  },
  schema,
  fields: [
    minutesField('least', 'Least'),
    minutesField('likeliest', 'Likeliest'),
    minutesField('most', 'Most', { least: 'over 0' }),
  ],
  is: (time): time is Triangular => isCurve(time, 'triangular'),
  faults: outOfOrder,
  distribution,
  typical: meanOf,
  timings: () => [],
  mapMinutes: (time, change) => ({
    ...time,
    least: change(time.least),
    likeliest: change(time.likeliest),
    most: change(time.most),
  }),
  spread: (time, factor) => {
    const mean = meanOf(time);
    const away = (value: number): number => Math.max(0, mean + (value - mean) * factor);
    return { ...time, least: away(time.least), likeliest: away(time.likeliest), most: away(time.most) };
  },
  later: (time, minutes) =>
    time.least + minutes < 0
      ? null
      : {
          ...time,
          least: time.least + minutes,
          likeliest: time.likeliest + minutes,
          most: time.most + minutes,
        },
  about: ({ quick, usual, slow }) => ({
    curve: 'triangular',
    least: quick,
    likeliest: usual,
    most: Math.max(slow, tenthUp(quick + 0.1)),
  }),
};

function outOfOrder({ least, likeliest, most }: Triangular): CurveFault[] {
  const faults: CurveFault[] = [];
  if (least > likeliest)
    faults.push({
      place: ['likeliest'],
      found: String(likeliest),
      allowed: `at least "least" (${least})`,
      remedy: 'put the three in order',
    });
  if (likeliest > most)
    faults.push({
      place: ['most'],
      found: String(most),
      allowed: `at least "likeliest" (${likeliest})`,
      remedy: 'put the three in order',
    });
  if (least === most)
    faults.push({
      place: ['most'],
      found: String(most),
      allowed: `more than "least" (${least})`,
      remedy: 'write a plain number where the time is always the same',
    });
  return faults;
}

function distribution(time: Triangular): Distribution {
  const { least, likeliest, most } = time;
  const width = most - least;
  if (width === 0) return constant(least);
  const rise = likeliest - least;
  const fall = most - likeliest;
  const turn = rise / width;
  return byQuantile(
    (u) => (u < turn ? least + Math.sqrt(u * width * rise) : most - Math.sqrt((1 - u) * width * fall)),
    () => ({ mean: meanOf(time), variance: (rise * rise + rise * fall + fall * fall) / 18 }),
    most,
    [turn],
  );
}

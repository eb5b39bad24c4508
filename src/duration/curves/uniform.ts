import { z } from '../../zod.ts';
import { isCurve, type Curve } from '../curve.ts';
import { byQuantile, constant } from '../distribution.ts';
import { minutes, minutesField, positiveMinutes, tenthUp } from '../entries.ts';

const schema = z.strictObject({ curve: z.literal('uniform'), least: minutes, most: positiveMinutes });
type Uniform = z.output<typeof schema>;

const meanOf = ({ least, most }: Uniform): number => (least + most) / 2;

/**
 * Every time between `least` and `most` as likely as any other: quantile least + u (most - least), variance
 * (most - least)^2 / 12. Both ends alike would be always the same; the file is asked to say so.
 */
export const uniform: Curve<'uniform', Uniform> = {
  kind: 'uniform',
  everyday: false,
  words: {
    name: 'anywhere between two',
    choice: 'anywhere between two',
    short: ({ least, most }) => `${least} to ${most}`,
  },
  schema,
  fields: [minutesField('least', 'Least'), minutesField('most', 'Most', { least: 'over 0' })],
  is: (time): time is Uniform => isCurve(time, 'uniform'),
  faults: ({ least, most }) =>
    least < most
      ? []
      : [
          {
            place: ['most'],
            found: String(most),
            allowed: `more than "least" (${least})`,
            remedy: 'put the two in order, or write a plain number',
          },
        ],
  distribution: (time) => {
    const { least, most } = time;
    const width = most - least;
    if (width === 0) return constant(least);
    return byQuantile(
      (u) => least + u * width,
      () => ({ mean: meanOf(time), variance: (width * width) / 12 }),
      most,
    );
  },
  typical: meanOf,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, least: change(time.least), most: change(time.most) }),
  spread: (time, factor) => {
    const mean = meanOf(time);
    const away = (value: number): number => Math.max(0, mean + (value - mean) * factor);
    return { ...time, least: away(time.least), most: away(time.most) };
  },
  later: (time, minutes) =>
    time.least + minutes < 0 ? null : { ...time, least: time.least + minutes, most: time.most + minutes },
  about: ({ quick, slow }) => ({
    curve: 'uniform',
    least: quick,
    most: Math.max(slow, tenthUp(quick + 0.1)),
  }),
};

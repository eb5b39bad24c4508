import { z } from '../../zod.ts';
import { exp, log } from '../../random/exact.ts';
import type { Curve, CurveFault } from '../curve.ts';
import { byNormal, constant, type Distribution } from '../distribution.ts';
import { cvField, LEAST_CV, minutes, minutesField, MOST_CV, withinCv } from '../entries.ts';

const schema = z
  .strictObject({ mean: minutes, cv: z.number().min(0).max(MOST_CV) })
  .describe(
    `Lognormal by its mean and coefficient of variation (0: always the mean; else ${LEAST_CV} or more).`,
  );
type Lognormal = z.output<typeof schema>;

/**
 * Lognormal by its mean and coefficient of variation, as hand work mostly is: at a standard normal deviate z
 * it is exp(mu + sigma z) with sigma^2 = ln(1 + cv^2) and mu = ln(mean) - sigma^2 / 2; variance (mean cv)^2.
 * A cv of 0 is always the mean. Mean and spread are met within 1e-10 of themselves (at the least cv, where
 * 1 + cv^2 has lost six of its digits; within 1e-15 from a cv of 0.3 on).
 */
export const lognormal: Curve<'lognormal', Lognormal> = {
  kind: 'lognormal',
  everyday: false,
  words: {
    name: 'lognormal',
    choice: 'mean and spread',
    short: ({ mean, cv }) => (cv === 0 ? String(mean) : `${mean} (spread ${cv})`),
  },
  schema,
  fields: [minutesField('mean', 'Mean'), cvField(0)],
  is: (time): time is Lognormal =>
    typeof time === 'object' && time !== null && 'cv' in time && !('curve' in time),
  faults,
  distribution,
  typical: ({ mean }) => mean,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, mean: change(time.mean) }),
  spread: (time, factor) => ({ ...time, cv: withinCv(time.cv * factor) }),
  later: (time, minutes) => {
    const mean = time.mean + minutes;
    const cv = (time.cv * time.mean) / mean;
    return mean > 0 && cv <= MOST_CV ? { ...time, mean, cv: withinCv(cv) } : null;
  },
  about: ({ mean, cv }) => ({
    mean: Math.max(0.1, mean),
    cv: Math.min(MOST_CV, Math.round(cv * 100) / 100),
  }),
};

function faults({ mean, cv }: Lognormal): CurveFault[] {
  if (cv > 0 && cv < LEAST_CV)
    return [
      {
        place: ['cv'],
        found: String(cv),
        allowed: `0, or ${LEAST_CV} to ${MOST_CV} (${LEAST_CV * 100} to ${MOST_CV * 100} %)`,
        remedy: 'write 0 where the time is always the same',
      },
    ];
  if (mean === 0 && cv > 0)
    return [
      {
        place: ['mean'],
        found: `0 with a spread of ${cv}`,
        allowed: 'a mean of more than 0, or "cv" 0',
        remedy: 'write the mean minutes',
      },
    ];
  return [];
}

function distribution({ mean, cv }: Lognormal): Distribution {
  if (mean === 0 || cv === 0) return constant(mean);
  const sigmaSquared = log(1 + cv * cv);
  const sigma = Math.sqrt(sigmaSquared);
  const mu = log(mean) - sigmaSquared / 2;
  return byNormal(
    (z) => exp(mu + sigma * z),
    () => ({ mean, variance: mean * mean * cv * cv }),
  );
}

/**
 * Carrying "we only took 25 times" into the forecast: scenarios whose times are fitted to resamples of the
 * observations. Run each of them and give the results to `splitUncertainty`.
 */
import { exp, log, normalQuantile } from '../random/exact.ts';
import type { Time } from '../duration/time.ts';
import type { Scenario } from '../scenario/schema.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';
import { studentQuantile } from '../study/intervals/student-quantile.ts';
import { withTime } from './apply-fits.ts';
import type { Luck } from './luck.ts';
import { fitCurve, sixFigures, timeOf, type FittedKind } from './maximum-likelihood.ts';
import { FEWEST, observedValues, type StepFit } from './step-fit.ts';

/**
 * Numbers of `luck` kept for each fit; a resample of more observations goes on from the start of the next
 * fit's (harmless: they are many).
 */
const EACH = 1_000_000;

/**
 * One resample: for every fit, as many observations drawn from its own with replacement, and the chosen kind
 * of curve fitted again (the bootstrap of Efron 1979). Fits without a choice keep the scenario's time.
 * @param luck `luckOf(seed, b, stream)` for resample b: the same b gives the same scenario.
 */
export function resampleScenario(scenario: Scenario, fits: readonly StepFit[], luck: Luck): Scenario {
  let changed = scenario;
  for (const [place, fit] of fits.entries()) {
    if (fit.chosen === null || fit.minutes.length < FEWEST) continue;
    const drawn = fit.minutes.map(
      (_, i) => fit.minutes[Math.floor(luck(place * EACH + i) * fit.minutes.length)]!,
    );
    changed = withTime(changed, fit, timeAgain(fit, drawn));
  }
  return changed;
}

function timeAgain(fit: StepFit, drawn: readonly number[]): Time {
  const { kind, time } = fit.chosen!;
  if (kind === 'fixed') return time;
  if (kind === 'observed') return { curve: 'observed', values: observedValues(drawn) };
  const wider = spreadOut(drawn, fit.minutes);
  if (kind === 'quick-usual-slow') {
    const sorted = sortedValues(wider);
    const [quick, usual, slow] = [0.1, 0.5, 0.9].map((share) => sixFigures(percentile(sorted, share)));
    return { quick: quick!, usual: usual!, slow: slow! };
  }
  return fittedAgain(kind, wider) ?? time;
}

/**
 * Draws with replacement vary less than the truth does, by (n - 1)/n: the logarithms are moved away from
 * their mean by the root of n/(n - 1) (Davison and Hinkley, Bootstrap Methods and their Application, 1997,
 * ch. 2; from memory). And they take the spread of few observations as known: the resample's own mean is
 * moved on by Student's quantile over the normal one at 95 %.
 */
function spreadOut(drawn: readonly number[], all: readonly number[]): number[] {
  const meanLog = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + log(value), 0) / values.length;
  const centre = meanLog(all);
  const by = Math.sqrt(all.length / (all.length - 1));
  const further =
    (studentQuantile(0.95, all.length - 1) / normalQuantile(0.975) - 1) * by * (meanLog(drawn) - centre);
  return drawn.map((value) => exp(centre + further + by * (log(value) - centre)));
}

/** All draws alike (a resample of three may be): no curve, the one time. */
function fittedAgain(kind: FittedKind, drawn: readonly number[]): Time | null {
  const fitted = fitCurve(kind, drawn);
  return fitted === null ? sixFigures(drawn[0]!) : timeOf(fitted);
}

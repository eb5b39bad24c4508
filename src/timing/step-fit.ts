/**
 * From the observations of one step to the time the scenario should use, with the reason and where it came
 * from.
 */
import { compileTime } from '../duration/compile.ts';
import { curveNamed, isTime, type Time, type TimeKind } from '../duration/time.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';
import { goodnessOf, normalOfLogs, type Goodness, type NormalOfLogs } from './goodness.ts';
import type { Group, TimePlace } from './groups.ts';
import { luckOf } from './luck.ts';
import {
  FITTED_KINDS,
  fitCurve,
  logLikelihoodOf,
  momentsOf,
  sixFigures,
  timeOf,
  type FittedKind,
} from './maximum-likelihood.ts';
import { outliersOf, type Outlier } from './outliers.ts';
import { meanAndDeviation, neededFor, type Needed } from './work-measurement.ts';

/** From this many on the observations themselves are used. */
export const ENOUGH_FOR_OBSERVED = 40;
/**
 * Under this many, the fit of one curve cannot be told from another's, and lognormal is taken, as hand work
 * mostly is.
 */
export const ENOUGH_TO_COMPARE = 10;
/** Under this many nothing is fitted. */
export const FEWEST = 3;
/** The file keeps at most this many of the observations themselves. */
export const MOST_OBSERVED = 1000;
/** Under this p a curve is said not to fit. */
const DOUBTFUL = 0.05;

/** The curves that observations can become. */
export const CANDIDATE_KINDS = [
  ...FITTED_KINDS,
  'quick-usual-slow',
  'observed',
  'fixed',
] as const satisfies readonly TimeKind[];
export type CandidateKind = (typeof CANDIDATE_KINDS)[number];

export interface Candidate {
  kind: CandidateKind;
  time: Time;
  /** Of the curve, minutes. */
  mean: number;
  cv: number;
  /** 10th, 50th, 90th and 95th percentile of the curve, minutes. */
  percentiles: { p10: number; p50: number; p90: number; p95: number };
  /** Of the fitted curves only. */
  logLikelihood: number | null;
  /**
   * Akaike's criterion, 2 x parameters - 2 x log-likelihood, and how far behind the best (2 is a little, 10
   * is a lot).
   */
  aic: number | null;
  behind: number | null;
  goodness: Goodness | null;
}

export interface StepFit extends TimePlace {
  count: number;
  /** Base minutes, in the order of the observations. */
  minutes: number[];
  mean: number;
  /** Sample standard deviation (NaN under two). */
  deviation: number;
  /** Whose pieces they were (one person) and the last day, where the list says so. */
  by: string | null;
  on: string | null;
  candidates: Candidate[];
  /** Null where there are too few observations: the scenario's time stays. */
  chosen: Candidate | null;
  /** Why this one, in plain words. */
  why: string;
  /** Where it comes from, for the scenario file. */
  note: string;
  /** Anderson-Darling test of the logarithms, by the published table. */
  normalOfLogs: NormalOfLogs | null;
  outliers: Outlier[];
  needed: Needed | null;
}

export interface FitOptions {
  /** Share of the mean and confidence for `needed`. Default 0.05 and 0.95. */
  precision?: number;
  confidence?: number;
  /** Samples for the goodness of each fit; 0 leaves it out. Default 199. */
  draws?: number;
  /** The choice, made by a person. Default: made by the rule. */
  use?: CandidateKind;
}

/** Fits one group. Never throws; the same observations always give the same fit. */
export function fitStep(group: Group, options: FitOptions = {}): StepFit {
  const { minutes } = group;
  const spread = meanAndDeviation(minutes);
  const candidates = candidatesOf(minutes, options.draws ?? 199);
  const [chosen, why] = choose(candidates, minutes, options.use);
  return {
    step: group.step,
    product: group.product,
    repeat: group.repeat,
    count: minutes.length,
    minutes,
    mean: spread.mean,
    deviation: spread.deviation,
    ...whoAndWhen(group),
    candidates,
    chosen,
    why,
    note: chosen === null ? '' : noteOf(group, chosen),
    normalOfLogs: normalOfLogs(minutes),
    outliers: outliersOf(minutes),
    needed: neededFor(minutes, options.precision, options.confidence),
  };
}

function candidatesOf(minutes: readonly number[], draws: number): Candidate[] {
  if (minutes.length < FEWEST) return [];
  if (minutes.every((value) => value === minutes[0])) return [plain('fixed', minutes[0]!)];
  const fitted = FITTED_KINDS.flatMap((kind, stream) => fittedCandidate(kind, minutes, draws, stream));
  const best = Math.min(...fitted.map((one) => one.aic ?? Infinity));
  for (const one of fitted) one.behind = one.aic! - best;
  const sorted = sortedValues(minutes);
  const [quick, usual, slow] = [0.1, 0.5, 0.9].map((share) => sixFigures(percentile(sorted, share)));
  const three = { quick: quick!, usual: usual!, slow: slow! };
  const threeTimes =
    minutes.length >= ENOUGH_TO_COMPARE && isTime(three) ? [plain('quick-usual-slow', three)] : [];
  const values = observedValues(minutes);
  const themselves: Time = { curve: 'observed', values };
  const observed = isTime(themselves) ? [plain('observed', themselves)] : [];
  return [...fitted, ...threeTimes, ...observed];
}

/**
 * The times for an `observed` curve: all of them, or where they are very many as many evenly placed among
 * them.
 */
export function observedValues(minutes: readonly number[]): number[] {
  if (minutes.length <= MOST_OBSERVED) return minutes.map(sixFigures);
  const sorted = sortedValues(minutes);
  return Array.from({ length: MOST_OBSERVED }, (_, i) =>
    sixFigures(percentile(sorted, (i + 0.5) / MOST_OBSERVED)),
  );
}

function fittedCandidate(
  kind: FittedKind,
  minutes: readonly number[],
  draws: number,
  stream: number,
): Candidate[] {
  const fitted = fitCurve(kind, minutes);
  const time = fitted === null ? null : timeOf(fitted);
  if (fitted === null || time === null) return [];
  const logLikelihood = logLikelihoodOf(fitted, minutes);
  const goodness =
    draws > 0 ? goodnessOf(fitted, minutes, luckOf('goodness of fit', stream, 0), draws) : null;
  return [
    {
      ...plain(kind, time),
      ...momentsOf(fitted),
      logLikelihood,
      aic: 4 - 2 * logLikelihood,
      behind: 0,
      goodness,
    },
  ];
}

function plain(kind: CandidateKind, time: Time): Candidate {
  const curve = compileTime(time);
  const [p10, p50, p90, p95] = [10, 50, 90, 95].map((percent) => curve.percentile(percent));
  return {
    kind,
    time,
    mean: curve.mean,
    cv: curve.mean > 0 ? curve.standardDeviation / curve.mean : 0,
    percentiles: { p10: p10!, p50: p50!, p90: p90!, p95: p95! },
    logLikelihood: null,
    aic: null,
    behind: null,
    goodness: null,
  };
}

/** "Weibull", "the times themselves". */
export const candidateName = (kind: CandidateKind): string => curveNamed(kind).words.name;

/** The choice and its reason. */
function choose(
  candidates: Candidate[],
  minutes: readonly number[],
  use: CandidateKind | undefined,
): [Candidate | null, string] {
  const count = minutes.length;
  const of = (kind: CandidateKind): Candidate | undefined => candidates.find((one) => one.kind === kind);
  if (count < FEWEST)
    return [
      null,
      `${count === 0 ? 'No times' : count === 1 ? 'One time' : `${count} times`}: too few to go by, so the file’s own time stays.`,
    ];
  if (use !== undefined && of(use) !== undefined) return [of(use)!, `Chosen by hand: ${candidateName(use)}.`];
  const fixed = of('fixed');
  if (fixed !== undefined) return [fixed, `All ${count} times are alike.`];
  const observed = of('observed');
  if (count >= ENOUGH_FOR_OBSERVED && observed !== undefined)
    return [observed, `${count} times are enough to use as they are, without a curve.`];
  const fitted = candidates.filter((one) => one.aic !== null);
  const best = fitted.reduce<Candidate | null>(
    (least, one) => (least === null || one.aic! < least.aic! ? one : least),
    null,
  );
  if (best === null)
    return observed === undefined
      ? [null, 'No curve could be fitted, so the file’s own time stays.']
      : [observed, 'No curve could be fitted, so the times are used as they are.'];
  const lognormal = of('lognormal');
  if (count < ENOUGH_TO_COMPARE && lognormal !== undefined) {
    return [
      lognormal,
      `${count} times cannot tell one curve from another; lognormal is taken, as hand work mostly is.`,
    ];
  }
  const close = fitted.filter((one) => one !== best && one.behind! < 2).map((one) => candidateName(one.kind));
  const near = close.length === 0 ? '' : ` (${close.join(' and ')} nearly as well)`;
  const doubt =
    best.goodness !== null && best.goodness.p < DOUBTFUL
      ? ' Even so it does not fit well: look for two kinds of piece in one list.'
      : '';
  return [
    best,
    `Of the curves compared, ${candidateName(best.kind)} fits these ${count} times best${near}.${doubt}`,
  ];
}

/** Whose pieces they are where they are all of one person, and the last date. */
function whoAndWhen({ observations }: Group): { by: string | null; on: string | null } {
  const people = new Set(observations.map(({ person }) => person));
  const [only = null] = people.size === 1 ? people : [];
  const dates = observations.flatMap(({ date }) => (date === null ? [] : [date])).sort();
  return { by: only, on: dates.at(-1) ?? null };
}

/** Where it comes from: how many, when, by whom, which curve. */
function noteOf(group: Group, chosen: Candidate): string {
  const dates = group.observations.flatMap((one) => (one.date === null ? [] : [one.date])).sort();
  const people = new Set(group.observations.flatMap((one) => (one.person === null ? [] : [one.person])));
  const [first, last] = [dates[0], dates[dates.length - 1]];
  const when = first === undefined ? '' : first === last ? `, ${first}` : `, ${first} to ${last}`;
  const who = people.size === 0 ? '' : people.size === 1 ? ', one person' : `, ${people.size} people`;
  return `${group.minutes.length} times taken${when}${who}: ${candidateName(chosen.kind)}, mean ${chosen.mean.toFixed(2)} min, cv ${chosen.cv.toFixed(2)}.`;
}

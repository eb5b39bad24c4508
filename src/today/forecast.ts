/** From the count of this minute to where the shift ends. */
import { minutesAfter } from '../scenario/clock.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { baseCase, settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import type { LevelRange } from '../study/level-range.ts';
import { BANDS, type Band } from '../study/shift-summary.ts';
import { runStudy, type StudyState } from '../study/study.ts';
import { summarize, type CaseSummary, type StudySummary } from '../study/summary.ts';
import { remainder, restEnds } from './remainder.ts';
import { goodSoFar, type NowState } from './state.ts';

export interface HourLine {
  /** Minutes from the start of the shift: its hours, the count, the end (there with what overtime adds). */
  at: number;
  low: number;
  middle: number;
  high: number;
  /** Between what each of the three surely lies. */
  ranges: Record<Band, LevelRange>;
}

export interface Forecast {
  now: NowState;
  soFar: number;
  /** At the end of the shift, good so far included: what nine shifts in ten, half, one in ten make. */
  ends: { nineInTen: number; half: number; oneInTen: number; mean: Interval };
  target: { units: number; chance: Interval } | null;
  overtime: Interval;
  /** Labour cost of the rest. */
  cost: Interval;
  /** The whole day as it was planned, by the hour; what has come off; where it may go from now on. */
  plan: HourLine[];
  fact: { at: number; good: number }[];
  ahead: HourLine[];
  /** The shift is over: what is left is overtime, or nothing. */
  over: boolean;
  /** What is not known exactly and is in every figure; empty where luck alone is. */
  inputs: StudySummary['inputs'];
  count: number;
  seed: string;
}

/**
 * Plan, fact and the rest of the day. Throws as `remainder` and `runStudy`.
 * @param counted what was counted before, in minutes from the start: drawn as it was counted.
 */
export async function forecastNow(
  scenario: Scenario,
  now: NowState,
  runner: Runner,
  signal?: AbortSignal,
  count = 400,
  counted: Forecast['fact'] = [],
): Promise<Forecast> {
  const rest = remainder(scenario, now);
  const ask = (of: Scenario): Promise<StudyState> =>
    runStudy(
      { cases: [baseCase(of)], pairs: [], settings: settingsOf(scenario), count },
      runner,
      undefined,
      signal,
    );
  const planned = summarize(await ask({ ...scenario, nextShifts: [] })).cases[0]!;
  const summary = summarize(await ask(rest));
  return forecastOf(scenario, now, planned, summary, counted);
}

export function forecastOf(
  scenario: Scenario,
  now: NowState,
  planned: CaseSummary,
  summary: StudySummary,
  counted: Forecast['fact'] = [],
): Forecast {
  const soFar = goodSoFar(now);
  const one = summary.cases[0]!;
  const shift = resolve(scenario);
  const { start, target, overtime } = shift;
  const elapsed = minutesAfter(start, now.at);
  const { length } = planned.shifts[0]!;
  const over = elapsed >= length;
  // Overtime that ends with the target makes no more than that.
  const most = over && overtime.until === 'target' && target !== null ? Math.max(target, soFar) : Infinity;
  const end = restEnds(shift, elapsed);
  const add = (interval: Interval): Interval => ({
    ...interval,
    estimate: interval.estimate + soFar,
    low: interval.low + soFar,
    high: interval.high + soFar,
  });
  const hours = Array.from({ length: Math.ceil(length / 60) - 1 }, (_, hour) => (hour + 1) * 60);
  const planAt = [...new Set([...hours, elapsed, length])].sort((a, b) => a - b);
  const aheadAt = [...hours.filter((at) => at > elapsed), end];
  return {
    now,
    soFar,
    ends: {
      nineInTen: Math.min(most, one.spread.nineInTen + soFar),
      half: Math.min(most, one.spread.half + soFar),
      oneInTen: Math.min(most, one.spread.oneInTen + soFar),
      mean: add(one.good),
    },
    target:
      one.target === null
        ? null
        : {
            units: one.target.units === 0 ? (target ?? 0) : one.target.units + soFar,
            chance: one.target.chance,
          },
    overtime: one.overtime,
    cost: one.cost,
    plan: linesAt(planned, planAt, 0, 0),
    fact: factOf(now, elapsed, soFar, counted),
    ahead: [
      { at: elapsed, low: soFar, middle: soFar, high: soFar, ranges: exactly(soFar) },
      ...linesAt(one, aheadAt, elapsed, soFar),
    ],
    over,
    inputs: summary.inputs,
    count: summary.count,
    seed: summary.seed,
  };
}

/** As it was counted before; otherwise by the hour where the hours were noted, or at the start and now. */
function factOf(now: NowState, elapsed: number, soFar: number, counted: Forecast['fact']): Forecast['fact'] {
  const fact: Forecast['fact'] = [{ at: 0, good: 0 }];
  const before = counted.filter(({ at }) => at > 0 && at < elapsed);
  if (before.length > 0) fact.push(...before);
  else if (now.good === undefined) {
    now.goodByHour.forEach((good, hour) => {
      if ((hour + 1) * 60 < elapsed) fact.push({ at: (hour + 1) * 60, good: fact.at(-1)!.good + good });
    });
  }
  return elapsed > 0 ? [...fact, { at: elapsed, good: soFar }] : fact;
}

/**
 * The run's hours begin at its own start, the lines stand at the hours of the shift: in between as if the
 * pieces came evenly over the hour. The last line is the end of the day with what overtime adds, as the
 * shift's ends are.
 */
function linesAt(one: CaseSummary, at: number[], from: number, soFar: number): HourLine[] {
  const { goodSoFar: bands, length } = one.shifts[0]!;
  const ends = bands.middle.map((_, hour) => Math.min((hour + 1) * 60, Math.max(length, hour * 60 + 1)));
  const value = (band: number[], minute: number): number => {
    const hour = ends.findIndex((end) => end >= minute);
    if (hour < 0) return band.at(-1) ?? 0;
    const [before, start] = hour === 0 ? [0, 0] : [band[hour - 1]!, ends[hour - 1]!];
    return before + ((band[hour]! - before) * (minute - start)) / (ends[hour]! - start);
  };
  const last = at.at(-1)!;
  return at.map((minute) => {
    const own = minute === last ? Infinity : minute - from;
    const end = (band: Band, of: 'low' | 'high'): number =>
      soFar +
      value(
        bands.ranges[band].map((range) => range[of]),
        own,
      );
    const range = (band: Band): LevelRange => ({ low: end(band, 'low'), high: end(band, 'high') });
    return {
      at: minute,
      low: value(bands.low, own) + soFar,
      middle: value(bands.middle, own) + soFar,
      high: value(bands.high, own) + soFar,
      ranges: ofEach(range),
    };
  });
}

const ofEach = (of: (band: Band) => LevelRange): Record<Band, LevelRange> =>
  Object.fromEntries(BANDS.map((band) => [band, of(band)])) as Record<Band, LevelRange>;

const exactly = (good: number): Record<Band, LevelRange> => ofEach(() => ({ low: good, high: good }));

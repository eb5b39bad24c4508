/** From the count of this minute to where the shift ends, and the moves that help: each one run, on the same luck. */
import { applyChanges, shiftsOf } from '../../scenario/options.ts';
import { clockOfMinutes, minutesAfter, minutesOfClock } from '../../scenario/clock.ts';
import type { Scenario } from '../../scenario/schema.ts';
import type { Runner } from '../../record/job.ts';
import { baseCase, settingsOf } from '../../study/from-scenario.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import { runStudy, type StudyCase, type StudyState } from '../../study/study.ts';
import { summarize, type CaseSummary, type StudySummary } from '../../study/summary.ts';
import { remainder } from './remainder.ts';
import { goodSoFar, type NowState } from './state.ts';

export interface HourLine {
  /** Minutes from the start of the shift. */
  at: number;
  low: number;
  middle: number;
  high: number;
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
  count: number;
  seed: string;
}

/** Plan, fact and the rest of the day. Throws as `remainder` and `runStudy`. */
export async function forecastNow(scenario: Scenario, now: NowState, runner: Runner, signal?: AbortSignal, count = 400): Promise<Forecast> {
  const rest = remainder(scenario, now);
  const ask = (of: Scenario): Promise<StudyState> =>
    runStudy({ cases: [baseCase(of)], pairs: [], settings: settingsOf(scenario), count }, runner, undefined, signal);
  const planned = summarize(await ask({ ...scenario, nextShifts: [] })).cases[0]!;
  const summary = summarize(await ask(rest));
  return forecastOf(scenario, now, planned, summary);
}

export function forecastOf(scenario: Scenario, now: NowState, planned: CaseSummary, summary: StudySummary): Forecast {
  const soFar = goodSoFar(now);
  const one = summary.cases[0]!;
  const elapsed = minutesAfter(scenario.shift?.start ?? '06:00', now.at);
  const add = (interval: Interval): Interval => ({ ...interval, estimate: interval.estimate + soFar, low: interval.low + soFar, high: interval.high + soFar });
  const fact: Forecast['fact'] = [{ at: 0, good: 0 }];
  now.goodByHour.forEach((good, hour) => fact.push({ at: Math.min(elapsed, (hour + 1) * 60), good: fact.at(-1)!.good + good }));
  return {
    now,
    soFar,
    ends: { nineInTen: one.spread.nineInTen + soFar, half: one.spread.half + soFar, oneInTen: one.spread.oneInTen + soFar, mean: add(one.good) },
    target: one.target === null ? null : { units: one.target.units === 0 ? (scenario.shift?.target ?? 0) : one.target.units + soFar, chance: one.target.chance },
    overtime: one.overtime,
    cost: one.cost,
    plan: byHour(planned, 0, 0),
    fact,
    ahead: [{ at: elapsed, low: soFar, middle: soFar, high: soFar }, ...byHour(one, elapsed, soFar)],
    count: summary.count,
    seed: summary.seed,
  };
}

function byHour(one: CaseSummary, from: number, soFar: number): HourLine[] {
  const { goodSoFar: bands, length } = one.shifts[0]!;
  return bands.middle.map((middle, hour) => ({
    at: from + Math.min((hour + 1) * 60, hour === bands.middle.length - 1 ? length + 60 : length), low: bands.low[hour]! + soFar, middle: middle + soFar, high: bands.high[hour]! + soFar,
  })).filter((line, i, all) => i === 0 || line.at > all[i - 1]!.at);
}

export interface Move {
  id: string;
  kind: 'post' | 'break' | 'glue-up' | 'overtime';
  /** In the imperative, for the lead: "Kofi to unclamping now". */
  name: string;
  changes: Record<string, unknown>;
}

export interface MoveGain {
  move: Move;
  gain: Interval;
  chance: Interval | null;
  overtime: Interval;
}

/** Everything that can still be moved in the rest of the day. */
export function possibleMoves(scenario: Scenario, rest: Scenario, now: NowState): Move[] {
  return [...postMoves(rest, now), ...breakMoves(rest, now), ...glueMoves(rest), ...overtimeMoves(scenario, rest)];
}

function postMoves(rest: Scenario, now: NowState): Move[] {
  return Object.entries(rest.people).flatMap(([id, person]): Move[] => {
    if (now.out.includes(id) || person.attendance?.percent === 0) return [];
    const able = Object.entries(person.skills ?? {}).filter(([, skill]) => (typeof skill === 'number' ? skill : (skill.level ?? 3)) > 0).map(([step]) => step);
    const covers = person.covers ?? able;
    return able.filter((step) => step !== covers[0]).map((step) => ({
      id: `post-${id}-${step}`,
      kind: 'post',
      name: `${person.name ?? id} to “${rest.steps[step]?.name ?? step}” first, from now on`,
      changes: { people: { [id]: { covers: [step, ...covers.filter((one) => one !== step)], changes: null } } },
    }));
  });
}

/** The next break of one person half an hour later, where it still ends within the shift. */
function breakMoves(rest: Scenario, now: NowState): Move[] {
  const start = rest.shift?.start ?? '06:00';
  const length = minutesAfter(start, rest.shift?.end ?? '14:30') || 1440;
  return Object.entries(rest.people).flatMap(([id, person]): Move[] => {
    const breaks = person.breaks ?? rest.shift?.breaks ?? [];
    const [next, ...others] = [...breaks].sort((a, b) => minutesAfter(start, a.from) - minutesAfter(start, b.from));
    if (next === undefined || now.out.includes(id) || person.attendance?.percent === 0) return [];
    const from = minutesAfter(start, next.from) + 30;
    const following = others[0] === undefined ? length : minutesAfter(start, others[0].from);
    if (minutesAfter(start, next.from) === 0 || from + next.minutes > following) return [];
    const later = clockOfMinutes(minutesOfClock(start) + from);
    return [{ id: `break-${id}`, kind: 'break', name: `${person.name ?? id}’s next break at ${later} instead of ${next.from}`, changes: { people: { [id]: { breaks: [{ ...next, from: later }, ...others] } } } }];
  });
}

/** No more glue-ups after a time: what is glued late only stands in the clamps. */
function glueMoves(rest: Scenario): Move[] {
  const start = rest.shift?.start ?? '06:00';
  const length = minutesAfter(start, rest.shift?.end ?? '14:30') || 1440;
  const steps = Object.entries(rest.steps).filter(([, step]) => (step.takes ?? []).length > 0);
  return steps.flatMap(([id, step]) => [90, 60].filter((before) => before < length).map((before): Move => {
    const last = clockOfMinutes(minutesOfClock(start) + length - before);
    return { id: `last-${id}-${before}`, kind: 'glue-up', name: `no “${step.name ?? id}” begun after ${last}`, changes: { steps: { [id]: { lastStart: last } } } };
  }));
}

function overtimeMoves(scenario: Scenario, rest: Scenario): Move[] {
  const until = rest.shift?.target ? 'target' : 'empty';
  if (scenario.shift?.target !== undefined && rest.shift?.target === 0) return [];
  return [15, 30, 45, 60].map((cap) => ({
    id: `overtime-${cap}`, kind: 'overtime', name: `up to ${cap} minutes of overtime`, changes: { shift: { overtime: { until, cap } } },
  }));
}

/** Tries moves side by side; the one that gains most first. `several` ranges hold together. */
export async function tryMoves(rest: Scenario, moves: Move[], runner: Runner, signal?: AbortSignal, count = 200): Promise<MoveGain[]> {
  if (moves.length === 0) return [];
  const cases: StudyCase[] = [baseCase(rest), ...moves.map((move) => ({ id: move.id, name: move.name, shifts: shiftsOf(applyChanges(rest, move.changes)) }))];
  const state = await runStudy({ cases, pairs: moves.map((_, i) => ({ before: 0, after: i + 1 })), settings: settingsOf(rest), count }, runner, undefined, signal);
  const summary = summarize(state);
  return moves.map((move, i): MoveGain => {
    const one = summary.cases[i + 1]!;
    return { move, gain: summary.pairs[i]!.good, chance: one.target?.chance ?? null, overtime: one.overtime };
  }).sort((a, b) => b.gain.estimate - a.gain.estimate);
}

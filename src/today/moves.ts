/**
 * What can still be moved in the rest of a shift, each move run on the same luck as leaving things as they
 * are.
 */
import { clockOfMinutes, minutesAfter, minutesOfClock } from '../scenario/clock.ts';
import { applyChanges, shiftsOf } from '../scenario/options.ts';
import type { Scenario, Step } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { baseCase, settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { runStudy, type StudyCase } from '../study/study.ts';
import { summarize } from '../study/summary.ts';
import type { NowState } from './state.ts';

export interface Move {
  id: string;
  kind: 'post' | 'break' | 'glue-up' | 'overtime' | 'rush';
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
  return [
    ...postMoves(rest, now),
    ...breakMoves(rest, now),
    ...glueMoves(rest),
    ...overtimeMoves(scenario, rest),
    ...rushMoves(rest),
  ];
}

function postMoves(rest: Scenario, now: NowState): Move[] {
  return Object.entries(rest.people).flatMap(([id, person]): Move[] => {
    if (now.out.includes(id) || person.attendance?.percent === 0) return [];
    const able = Object.entries(person.skills ?? {})
      .filter(([, skill]) => (typeof skill === 'number' ? skill : (skill.level ?? 3)) > 0)
      .map(([step]) => step);
    const covers = person.covers ?? able;
    // Who takes what has waited longest does not care which step comes first; who stands there first already
    // need not be moved.
    const matters = (step: string): boolean =>
      step !== covers[0] && !(person.rule === 'oldest' && covers.includes(step));
    return able.filter(matters).map((step) => ({
      id: `post-${id}-${step}`,
      kind: 'post',
      name: `${person.name ?? id} to “${rest.steps[step]?.name ?? step}” first, from now on`,
      changes: {
        people: { [id]: { covers: [step, ...covers.filter((one) => one !== step)], changes: null } },
      },
    }));
  });
}

/** The next break of one person half an hour later, where it still ends within the shift. */
function breakMoves(rest: Scenario, now: NowState): Move[] {
  const start = rest.shift?.start ?? '06:00';
  const length = minutesAfter(start, rest.shift?.end ?? '14:30') || 1440;
  return Object.entries(rest.people).flatMap(([id, person]): Move[] => {
    const breaks = person.breaks ?? rest.shift?.breaks ?? [];
    const [next, ...others] = [...breaks].sort(
      (a, b) => minutesAfter(start, a.from) - minutesAfter(start, b.from),
    );
    if (next === undefined || now.out.includes(id) || person.attendance?.percent === 0) return [];
    const from = minutesAfter(start, next.from) + 30;
    const following = others[0] === undefined ? length : minutesAfter(start, others[0].from);
    if (minutesAfter(start, next.from) === 0 || from + next.minutes > following) return [];
    const later = clockOfMinutes(minutesOfClock(start) + from);
    return [
      {
        id: `break-${id}`,
        kind: 'break',
        name: `${person.name ?? id}’s next break at ${later} instead of ${next.from}`,
        changes: { people: { [id]: { breaks: [{ ...next, from: later }, ...others] } } },
      },
    ];
  });
}

/** No more glue-ups after a time: what is glued late only stands in the clamps. */
function glueMoves(rest: Scenario): Move[] {
  const start = rest.shift?.start ?? '06:00';
  const length = minutesAfter(start, rest.shift?.end ?? '14:30') || 1440;
  const steps = Object.entries(rest.steps).filter(([, step]) => (step.takes ?? []).length > 0);
  const open = (step: Step, before: number): boolean =>
    before < length &&
    (step.lastStart === undefined || minutesAfter(start, step.lastStart) > length - before);
  return steps.flatMap(([id, step]) =>
    [90, 60]
      .filter((before) => open(step, before))
      .map((before): Move => {
        const last = clockOfMinutes(minutesOfClock(start) + length - before);
        return {
          id: `last-${id}-${before}`,
          kind: 'glue-up',
          name: `no “${step.name ?? id}” begun after ${last}`,
          changes: { steps: { [id]: { lastStart: last } } },
        };
      }),
  );
}

function overtimeMoves(scenario: Scenario, rest: Scenario): Move[] {
  const until = rest.shift?.target ? 'target' : 'empty';
  if (scenario.shift?.target !== undefined && rest.shift?.target === 0) return [];
  const stays = Object.values(rest.people).some(
    (person) => person.overtime !== false && person.attendance?.percent !== 0,
  );
  const now = rest.shift?.overtime;
  const same = (cap: number): boolean => now?.until === until && (now.cap ?? 60) === cap;
  return (stays ? [15, 30, 45, 60] : [])
    .filter((cap) => !same(cap))
    .map((cap) => ({
      id: `overtime-${cap}`,
      kind: 'overtime',
      name: `up to ${cap} minutes of overtime`,
      changes: { shift: { overtime: { until, cap } } },
    }));
}

const MOST_RUSHED = 20;

/** A named piece that waits in a line goes first. */
function rushMoves(rest: Scenario): Move[] {
  const inside = rest.carryOver ?? [];
  const lines = (at: string): number =>
    inside
      .filter((one) => one.at === at && (one.state ?? 'waiting') === 'waiting')
      .reduce((sum, one) => sum + (one.units ?? 1), 0);
  return inside
    .flatMap((piece, place): Move[] => {
      const waits =
        (piece.state ?? 'waiting') === 'waiting' && (piece.units ?? 1) === 1 && piece.rush !== true;
      if (!waits || piece.name === undefined || lines(piece.at) < 2) return [];
      const carryOver = inside.map((one, i) => (i === place ? { ...one, rush: true } : one));
      return [
        {
          id: `rush-${place}`,
          kind: 'rush',
          name: `“${piece.name}” first at every step`,
          changes: { carryOver },
        },
      ];
    })
    .slice(0, MOST_RUSHED);
}

/** Tries moves side by side; the one that gains most first. `several` ranges hold together. */
export async function tryMoves(
  rest: Scenario,
  moves: Move[],
  runner: Runner,
  signal?: AbortSignal,
  count = 200,
): Promise<MoveGain[]> {
  if (moves.length === 0) return [];
  const cases: StudyCase[] = [
    baseCase(rest),
    ...moves.map((move) => ({
      id: move.id,
      name: move.name,
      shifts: shiftsOf(applyChanges(rest, move.changes)),
    })),
  ];
  const state = await runStudy(
    { cases, pairs: moves.map((_, i) => ({ before: 0, after: i + 1 })), settings: settingsOf(rest), count },
    runner,
    undefined,
    signal,
  );
  const summary = summarize(state);
  return moves
    .map((move, i): MoveGain => {
      const one = summary.cases[i + 1]!;
      return {
        move,
        gain: summary.pairs[i]!.good,
        chance: one.target?.chance ?? null,
        overtime: one.overtime,
      };
    })
    .sort((a, b) => b.gain.estimate - a.gain.estimate);
}

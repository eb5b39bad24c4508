/**
 * What can still be moved in the rest of a shift, each move run on the same luck as leaving things as they
 * are.
 */
import { clockAfter } from '../scenario/clock.ts';
import { applyChanges, shiftsOf } from '../scenario/options.ts';
import { nameOf, resolve, type ResolvedPerson, type ResolvedShift } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
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
export function possibleMoves(rest: Scenario, now: NowState): Move[] {
  const shift = resolve(rest);
  return [
    ...postMoves(shift, now),
    ...breakMoves(shift, now),
    ...glueMoves(shift),
    ...overtimeMoves(shift),
    ...rushMoves(rest, shift),
  ];
}

const hereStill = ({ people }: ResolvedShift, now: NowState): ResolvedPerson[] =>
  people.filter((person) => !now.out.includes(person.id) && person.chance > 0);

function postMoves(shift: ResolvedShift, now: NowState): Move[] {
  return hereStill(shift, now).flatMap((person): Move[] => {
    const covers = person.cover[0]!.steps;
    // Who takes what has waited longest does not care which step comes first; who stands there first already
    // need not be moved.
    const matters = (step: string): boolean =>
      step !== covers[0] && !(person.rule === 'oldest' && covers.includes(step));
    return Object.keys(person.skills)
      .filter(matters)
      .map((step) => ({
        id: `post-${person.id}-${step}`,
        kind: 'post',
        name: `${person.name} to “${nameOf(shift.steps, step)}” first, from now on`,
        changes: {
          people: { [person.id]: { covers: [step, ...covers.filter((one) => one !== step)], changes: null } },
        },
      }));
  });
}

/** The next break of one person half an hour later, where it still ends within the shift. */
function breakMoves(shift: ResolvedShift, now: NowState): Move[] {
  const clock = (minute: number): string => clockAfter(shift.start, minute);
  return hereStill(shift, now).flatMap(({ id, name, breaks }): Move[] => {
    const [next, ...others] = [...breaks].sort((a, b) => a.from - b.from);
    if (next === undefined) return [];
    const from = next.from + 30;
    const following = others[0]?.from ?? shift.length;
    if (next.from === 0 || from + next.minutes > following) return [];
    const moved = [{ ...next, from }, ...others].map((one) => ({ ...one, from: clock(one.from) }));
    return [
      {
        id: `break-${id}`,
        kind: 'break',
        name: `${name}’s next break at ${clock(from)} instead of ${clock(next.from)}`,
        changes: { people: { [id]: { breaks: moved } } },
      },
    ];
  });
}

/** No more glue-ups after a time: what is glued late only stands in the clamps. */
function glueMoves({ start, length, steps }: ResolvedShift): Move[] {
  return steps
    .filter((step) => step.takes.length > 0)
    .flatMap(({ id, name, lastStart }) =>
      [90, 60]
        .filter((before) => before < length && (lastStart === null || lastStart > length - before))
        .map((before): Move => {
          const last = clockAfter(start, length - before);
          return {
            id: `last-${id}-${before}`,
            kind: 'glue-up',
            name: `no “${name}” begun after ${last}`,
            changes: { steps: { [id]: { lastStart: last } } },
          };
        }),
    );
}

function overtimeMoves({ target, people, overtime }: ResolvedShift): Move[] {
  const until = target === null ? 'empty' : 'target';
  const stays = people.some((person) => person.overtime && person.chance > 0);
  if (target === 0 || !stays) return [];
  return [15, 30, 45, 60]
    .filter((cap) => !(overtime.until === until && overtime.cap === cap))
    .map((cap) => ({
      id: `overtime-${cap}`,
      kind: 'overtime',
      name: `up to ${cap} minutes of overtime`,
      changes: { shift: { overtime: { until, cap } } },
    }));
}

const MOST_RUSHED = 20;

/** A named piece that waits in a line goes first. */
function rushMoves(rest: Scenario, { carryOver: inside }: ResolvedShift): Move[] {
  const lines = (at: string): number =>
    inside.filter((one) => one.at === at && one.state === 'waiting').reduce((sum, one) => sum + one.units, 0);
  return inside
    .flatMap((piece, place): Move[] => {
      const waits = piece.state === 'waiting' && piece.units === 1 && !piece.rush;
      if (!waits || piece.name === null || lines(piece.at) < 2) return [];
      const carryOver = rest.carryOver!.map((one, i) => (i === place ? { ...one, rush: true } : one));
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

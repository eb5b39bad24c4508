/** A count by step, as fingers make it, to and from the carry-over entries a run begins with. */
import { goodSoFar, type NowState } from '../../../src/today/state.ts';
import { carriedOf, type ResolvedCarried } from '../../../src/scenario/resolve.ts';
import type { CarryOver, Scenario } from '../../../src/scenario/schema.ts';

/** The count with nothing left out; clock times from its own instant on. */
const counted = (now: NowState): ResolvedCarried[] =>
  now.inside.map((piece) => carriedOf({ start: now.at }, piece));

/** Units that wait before a step; named or rush pieces count with the rest. */
export const waitingAt = (now: NowState, step: string): number =>
  counted(now)
    .filter((piece) => piece.at === step && piece.state === 'waiting')
    .reduce((sum, piece) => sum + piece.units, 0);

export function withWaiting(now: NowState, step: string, units: number): NowState {
  const others = now.inside.filter(
    (piece) => piece.at !== step || carriedOf({ start: now.at }, piece).state !== 'waiting',
  );
  return { ...now, inside: units > 0 ? [...others, { at: step, units }] : others };
}

/** What a person has in hand, and for how long. */
export function inHandOf(now: NowState, person: string): { step: string; minutes: number } | null {
  const piece = counted(now).find((one) => one.state === 'in hand' && one.person === person);
  return piece === undefined ? null : { step: piece.at, minutes: piece.minutes ?? 0 };
}

export function withInHand(now: NowState, person: string, step: string, minutes: number): NowState {
  const others = now.inside.filter((one) => one.state !== 'in hand' || one.person !== person);
  const piece: CarryOver = { at: step, state: 'in hand', person, minutes };
  return { ...now, inside: step === '' ? others : [piece, ...others] };
}

/** Minutes left of every cure under way at a wait. */
export const curingAt = (now: NowState, step: string): number[] =>
  counted(now).flatMap((piece) =>
    piece.at === step && piece.state === 'curing' ? Array<number>(piece.units).fill(piece.minutes ?? 0) : [],
  );

export function withCuring(now: NowState, step: string, left: number[]): NowState {
  const others = now.inside.filter((piece) => piece.at !== step || piece.state !== 'curing');
  return {
    ...now,
    inside: [...others, ...left.map((minutes): CarryOver => ({ at: step, state: 'curing', minutes }))],
  };
}

/**
 * A count begun with a typical one: whatever was counted or written down already stays. Reckoning the typical
 * one takes a moment, in which people go on counting.
 */
export function begunWith(now: NowState, typical: NowState): NowState {
  if (now.inside.length > 0 || goodSoFar(now) > 0) return now;
  const out = now.out.length > 0 ? now.out : typical.out;
  return {
    ...typical,
    inside: typical.inside.filter(
      ({ state, person }) => state !== 'in hand' || person === undefined || !out.includes(person),
    ),
    holds: now.holds.length > 0 ? now.holds : typical.holds,
    out,
    broken: now.broken.length > 0 ? now.broken : typical.broken,
  };
}

/** Steps of one pair of hands that a person can do: what they may have in hand. */
export function handSteps(scenario: Scenario, person: string): string[] {
  const { skills, covers } = scenario.people[person]!;
  const able = skills === undefined ? (covers ?? []) : Object.keys(skills);
  return Object.keys(scenario.steps).filter(
    (step) => able.includes(step) && scenario.steps[step]!.people !== 2,
  );
}

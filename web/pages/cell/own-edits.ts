/** A cell of one's own as it is put in: each a change of the draft, and one step back. */
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import { A_GUESS, asPeopleSay, ownCell, shortNames } from '../../../src/scenario/own/own-cell.ts';
import { readNames, readSteps } from '../../../src/scenario/own/read-lists.ts';
import { start as startOf, type StepAsked } from '../../../src/scenario/own/starts.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, Place } from '../../store/draft.ts';

export const isGuess = (step: Scenario['steps'][string]): boolean => step.timesFrom?.time === A_GUESS;

/** Minutes as one number: of a time in three, the usual one. */
export function usualMinutes({ time }: Scenario['steps'][string]): number | null {
  if (typeof time === 'number') return time;
  if (typeof time === 'object' && 'usual' in time) return time.usual;
  return typeof time === 'object' && 'mean' in time ? time.mean : null;
}

/** One's own minutes in the place of the guess. */
export function putMinutes(store: CellStore, id: string, minutes: number): void {
  const step = store.at(['steps', id]) as unknown as Scenario['steps'][string];
  const { time: _time, timesFrom, ...rest } = step;
  const { time: _from, ...others } = timesFrom ?? {};
  store.change(`${step.name ?? id}: ${minutes} min`, ['steps', id], {
    ...rest,
    time: step.kind === 'wait' ? minutes : asPeopleSay(minutes),
    ...(Object.keys(others).length === 0 ? {} : { timesFrom: others }),
  } as Json);
}

/** The minutes that are still guesses are right as they stand. */
export function confirmTimes(store: CellStore, draft: Scenario): void {
  store.changeMany(
    'the times are ours',
    Object.entries(draft.steps)
      .filter(([, step]) => isGuess(step))
      .map(([id]): [Place, undefined] => [['steps', id, 'timesFrom'], undefined]),
  );
}

/** Other work in the place of the steps; who is there stays, and stands nowhere yet. */
export function putSteps(store: CellStore, draft: Scenario, steps: StepAsked[], said: string): void {
  const made = ownCell({
    name: draft.name,
    steps,
    clampSets: draft.gear?.['clamp']?.count ?? 2,
    people: [],
    start: draft.shift?.start ?? DEFAULTS.shift.start,
    end: draft.shift?.end ?? DEFAULTS.shift.end,
    target: draft.shift?.target ?? null,
  });
  const people = Object.fromEntries(
    Object.entries(draft.people).map(([id, { name, pay }]) => [
      id,
      { name: name ?? id, ...(pay === undefined ? {} : { pay }), covers: [] },
    ]),
  );
  store.changeMany(said, [
    [['steps'], made.steps as unknown as Json],
    [['gear'], made.gear as unknown as Json | undefined],
    [['people'], people],
    [['options'], undefined],
    [['carryOver'], undefined],
  ]);
}

export const putStart = (store: CellStore, draft: Scenario, id: string): void =>
  putSteps(store, draft, startOf(id).steps, `begin with ${startOf(id).name}`);

/** Returns the lines that could not be read; nothing is changed then. */
export function pasteSteps(store: CellStore, draft: Scenario, text: string): string[] {
  const { steps, unread } = readSteps(text);
  if (unread.length === 0 && steps.some(({ wait }) => !wait))
    putSteps(store, draft, steps, 'steps put in as a list');
  return steps.length === 0 && unread.length === 0 ? [text] : unread;
}

/** Everybody who is not there yet; nobody who is there goes. */
export function putNames(store: CellStore, draft: Scenario, text: string): void {
  const there = new Set(Object.entries(draft.people).map(([id, { name }]) => (name ?? id).toLowerCase()));
  const names = readNames(text).filter((name) => !there.has(name.toLowerCase()));
  if (names.length === 0) return;
  const before = Object.keys(draft.people);
  // Short names apart from those there are: theirs stand first in the list.
  const ids = shortNames([...before, ...names], 'person').slice(before.length);
  store.changeMany(
    names.join(', '),
    names.map((name, i): [Place, Json] => [['people', ids[i]!], { name, covers: [] }]),
  );
}

/** The number due, and parts that do not run out. */
export function putTarget(store: CellStore, draft: Scenario, target: number | null): void {
  const enough = Math.max(60, 2 * (target ?? 0));
  const { intake } = draft;
  store.changeMany(target === null ? 'no number due' : `${target} due`, [
    [['shift', 'target'], target ?? undefined],
    ...(intake === undefined || (intake.kind === 'at start' && intake.units < enough)
      ? [[['intake'], { kind: 'at start', units: enough }] as [Place, Json]]
      : []),
  ]);
}

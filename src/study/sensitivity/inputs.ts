/**
 * What an answer may hang on: each thing the file takes for granted, with the moves that lead it through its
 * own uncertainty: to either end of what the timings or counts behind it, or its form, leave open at 95 %.
 * Where the file has none these are the trade's usual doubts (common practice, no source): a time that is
 * always the same 10 % either way, spreads a quarter more or less, a cure 5 minutes either way, three or four
 * days of absence in 100, parts half an hour late.
 */
import { meanOf } from '../../duration/compile.ts';
import {
  comingLater,
  withAbsence,
  withRework,
  withScrap,
  withTimes,
} from '../../scenario/changing/inputs.ts';
import { DEFAULTS } from '../../scenario/defaults.ts';
import type { InputPlace } from '../../scenario/inputs.ts';
import { nameOf, resolve, type ResolvedPerson, type ResolvedStep } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { inputsOfCases, type StudiedInput } from '../inputs/input-study.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import { longerBy, spreadBy, timesBy } from './times.ts';

export interface Move {
  /** After "with": "“fit” 10% slower". */
  words: string;
  apply(scenario: Scenario): Scenario;
}

export interface MovedInput {
  id: string;
  /** "the time at “fit”". */
  name: string;
  moves: Move[];
}

const DOUBT = { time: 0.1, spread: 0.25, cure: 5, absence: 3.5, late: 30 };
const KNOWN_TO = 0.95;

/** Every input of the file's own shift, in the file's order: a following shift keeps what it changes. */
export function inputsOf(scenario: Scenario): MovedInput[] {
  const shift = resolve(scenario);
  const { steps, people } = shift;
  const uncertain = inputsOfCases([{ shifts: [shift] }]);
  return [
    ...steps.map((step) => (step.kind === 'wait' ? waitInput(step) : handsInput(scenario, step, uncertain))),
    spreadInput(),
    ...steps.flatMap((step) => sentBackInputs(step, steps, uncertain)),
    attendanceInput(people),
    lateInput(),
  ].filter((input) => input.moves.length > 0);
}

/** How far the end of an input's range lies from what is taken for it, on the scale of its deviation. */
const endOf = ({ deviation, degrees }: StudiedInput): number =>
  deviation * studentQuantile(KNOWN_TO, Math.max(1, degrees));

const quoted = (step: ResolvedStep): string => `“${step.name}”`;

function handsInput(scenario: Scenario, step: ResolvedStep, uncertain: StudiedInput[]): MovedInput {
  const { id } = step;
  const name = quoted(step);
  const input = { id: `time-${id}`, name: `the time at ${name}` };
  const doubt = doubtOf(scenario, id, uncertain);
  if (doubt === null || !(meanOf(step.time) > 0)) return { ...input, moves: [] };
  const { share, from } = doubt;
  const percent = Number((share * 100).toPrecision(2));
  const by =
    (factor: number) =>
    (one: Scenario): Scenario =>
      withTimes(one, id, (time) => timesBy(time, factor));
  return {
    ...input,
    moves: [
      { words: `${name} ${percent}% slower${from}`, apply: by(1 + share) },
      { words: `${name} ${percent}% quicker${from}`, apply: by(1 - share) },
    ],
  };
}

/** How far the mean of a step may lie off, as a share of it; null where the file rules that out. */
function doubtOf(
  scenario: Scenario,
  step: string,
  uncertain: StudiedInput[],
): { share: number; from: string } | null {
  const own = uncertain.filter(({ place }) => place.kind === 'time' && place.step === step && !place.repeat);
  if (own.length === 0)
    return scenario.steps[step]?.known?.time === 'exact' ? null : { share: DOUBT.time, from: '' };
  const timings = own.reduce((sum, { known }) => sum + (known.kind === 'times' ? known.count : 0), 0);
  return {
    share: Math.min(0.9, Math.max(...own.map((input) => Math.expm1(endOf(input))))),
    from: timings === 0 ? '' : ` (as ${timings} timings leave open)`,
  };
}

function waitInput(step: ResolvedStep): MovedInput {
  const { id } = step;
  const name = quoted(step);
  const by =
    (minutes: number) =>
    (scenario: Scenario): Scenario =>
      withTimes(scenario, id, (time) => longerBy(time, minutes));
  return {
    id: `time-${id}`,
    name: `the minutes of ${name}`,
    moves: [
      { words: `${name} ${DOUBT.cure} min longer`, apply: by(DOUBT.cure) },
      { words: `${name} ${DOUBT.cure} min shorter`, apply: by(-DOUBT.cure) },
    ],
  };
}

function spreadInput(): MovedInput {
  const by =
    (factor: number) =>
    (scenario: Scenario): Scenario =>
      Object.keys(scenario.steps).reduce(
        (one, id) => withTimes(one, id, (time) => spreadBy(time, factor)),
        scenario,
      );
  return {
    id: 'spread',
    name: 'how much the times vary',
    moves: [
      { words: 'times that vary a quarter more', apply: by(1 + DOUBT.spread) },
      { words: 'times that vary a quarter less', apply: by(1 - DOUBT.spread) },
    ],
  };
}

function sentBackInputs(step: ResolvedStep, steps: ResolvedStep[], uncertain: StudiedInput[]): MovedInput[] {
  const { id } = step;
  const name = quoted(step);
  const rework = step.rework.map(({ share, cause, to }, at): MovedInput => {
    const why =
      cause === DEFAULTS.step.cause ? `from ${name} to “${nameOf(steps, to)}”` : `for “${cause}” at ${name}`;
    return {
      id: `rework-${id}-${at}`,
      name: `how many are sent back ${why}`,
      moves: shareMoves(
        share,
        uncertain.find(({ place }) => isOf(place, id) && place.kind === 'rework' && place.branch === at),
        `sent back ${why}`,
        (one, factor) => withRework(one, id, at, factor),
      ),
    };
  });
  const scrap: MovedInput = {
    id: `scrap-${id}`,
    name: `how many are scrapped at ${name}`,
    moves: shareMoves(
      step.scrap,
      uncertain.find(({ place }) => isOf(place, id) && place.kind === 'scrap'),
      `scrapped at ${name}`,
      (one, factor) => withScrap(one, id, factor),
    ),
  };
  return [...rework, scrap];
}

const isOf = (place: InputPlace, step: string): boolean => place.kind !== 'attendance' && place.step === step;

/** A share at either end of what is known of it; no move where it is nothing, or known exactly. */
function shareMoves(
  share: number,
  input: StudiedInput | undefined,
  what: string,
  change: (scenario: Scenario, factor: number) => Scenario,
): MovedInput['moves'] {
  if (input === undefined || !(share > 0)) return [];
  const percent = (value: number): string => `${Number((100 * value).toPrecision(2))}%`;
  const counted =
    input.known.kind === 'counted' && !input.known.assumed
      ? ` (as ${input.known.of} counted leave open)`
      : '';
  return [1, -1].map((direction) => {
    const odds = Math.exp(direction * endOf(input));
    const moved = (share * odds) / (1 - share + share * odds);
    return {
      words: `${percent(moved)} ${what} instead of ${percent(share)}${counted}`,
      apply: (scenario) => change(scenario, moved / share),
    };
  });
}

function attendanceInput(people: ResolvedPerson[]): MovedInput {
  const doubts = people.some(({ chance }) => chance > 0 && chance < 1);
  const by =
    (absence: (before: number) => number) =>
    (one: Scenario): Scenario =>
      withAbsence(one, absence);
  const more = (before: number): number =>
    before >= 100 ? before : Math.max(DOUBT.absence, Math.min(100, before * 2));
  const fewer = (before: number): number => (before >= 100 ? before : before / 2);
  return {
    id: 'attendance',
    name: 'who comes',
    moves: [
      { words: doubts ? 'twice the absence' : 'everybody absent three or four days in 100', apply: by(more) },
      ...(doubts ? [{ words: 'half the absence', apply: by(fewer) }] : []),
    ],
  };
}

function lateInput(): MovedInput {
  return {
    id: 'late',
    name: 'when the parts come',
    moves: [
      {
        words: `everything coming ${DOUBT.late} min later`,
        apply: (scenario) => comingLater(scenario, DOUBT.late),
      },
    ],
  };
}

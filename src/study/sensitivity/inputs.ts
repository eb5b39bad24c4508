/**
 * What an answer may hang on: each thing the file takes for granted, with the moves that lead it through its
 * own uncertainty. Where times were taken at the bench the range is theirs; where not, these are the trade's
 * usual doubts (common practice, no source): a mean time 10 % either way, spreads a quarter more or less, a
 * cure 5 minutes either way, rework halved or doubled, three or four days of absence in 100, parts half an
 * hour late.
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
import { nameOf, resolve, type ResolvedPerson, type ResolvedStep } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import { longerBy, spreadBy, timesBy } from './times.ts';

/** Times taken of a step: enough of a fit (times/step-fit.ts) to say how well its mean is known. */
export interface KnownTime {
  step: string;
  /** Observations, their mean and sample standard deviation, minutes. */
  count: number;
  mean: number;
  deviation: number;
}

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
export function inputsOf(scenario: Scenario, known: readonly KnownTime[] = []): MovedInput[] {
  const { steps, people } = resolve(scenario);
  return [
    ...steps.map((step) => (step.kind === 'wait' ? waitInput(step) : handsInput(step, known))),
    spreadInput(),
    ...steps.flatMap((step) => sentBackInputs(step, steps)),
    attendanceInput(people),
    lateInput(),
  ].filter((input) => input.moves.length > 0);
}

const quoted = (step: ResolvedStep): string => `“${step.name}”`;

function handsInput(step: ResolvedStep, known: readonly KnownTime[]): MovedInput {
  const { id } = step;
  const name = quoted(step);
  const { share, from } = doubtOf(known.filter((one) => one.step === id));
  const percent = Number((share * 100).toPrecision(2));
  const by =
    (factor: number) =>
    (scenario: Scenario): Scenario =>
      withTimes(scenario, id, (time) => timesBy(time, factor));
  if (!(meanOf(step.time) > 0)) return { id: `time-${id}`, name: `the time at ${name}`, moves: [] };
  return {
    id: `time-${id}`,
    name: `the time at ${name}`,
    moves: [
      { words: `${name} ${percent}% slower${from}`, apply: by(1 + share) },
      { words: `${name} ${percent}% quicker${from}`, apply: by(1 - share) },
    ],
  };
}

/**
 * How far the mean of a step may lie from what is taken for it, as a share: by its own timings where there
 * are any.
 */
function doubtOf(known: KnownTime[]): { share: number; from: string } {
  const shares = known.flatMap(({ count, mean, deviation }) =>
    count >= 3 && mean > 0 && deviation > 0
      ? [(studentQuantile(KNOWN_TO, count - 1) * deviation) / Math.sqrt(count) / mean]
      : [],
  );
  const count = known.reduce((sum, one) => sum + one.count, 0);
  return shares.length === 0
    ? { share: DOUBT.time, from: '' }
    : { share: Math.min(0.9, Math.max(...shares)), from: ` (as ${count} timings leave open)` };
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

function sentBackInputs(step: ResolvedStep, steps: ResolvedStep[]): MovedInput[] {
  const { id } = step;
  const name = quoted(step);
  const rework = step.rework.flatMap(({ share, cause, to }, at): MovedInput[] => {
    if (share === 0) return [];
    const why =
      cause === DEFAULTS.step.cause ? `from ${name} to “${nameOf(steps, to)}”` : `for “${cause}” at ${name}`;
    const by =
      (factor: number) =>
      (scenario: Scenario): Scenario =>
        withRework(scenario, id, at, factor);
    return [
      {
        id: `rework-${id}-${at}`,
        name: `how many are sent back ${why}`,
        moves: [
          { words: `twice as many sent back ${why}`, apply: by(2) },
          { words: `half as many sent back ${why}`, apply: by(0.5) },
        ],
      },
    ];
  });
  const by =
    (factor: number) =>
    (scenario: Scenario): Scenario =>
      withScrap(scenario, id, factor);
  const scrap: MovedInput = {
    id: `scrap-${id}`,
    name: `how many are scrapped at ${name}`,
    moves: [
      { words: `twice as many scrapped at ${name}`, apply: by(2) },
      { words: `half as many scrapped at ${name}`, apply: by(0.5) },
    ],
  };
  return step.scrap === 0 ? rework : [...rework, scrap];
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

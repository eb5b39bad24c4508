/**
 * What an answer may hang on: each thing the file takes for granted, with the moves that lead it through its
 * own uncertainty. Where times were taken at the bench the range is theirs; where not, these are the trade's
 * usual doubts (common practice, no source): a mean time 10 % either way, spreads a quarter more or less, a
 * cure 5 minutes either way, rework halved or doubled, three or four days of absence in 100, parts half an
 * hour late.
 */
import { meanOf } from '../../duration/compile.ts';
import type { Time } from '../../duration/time.ts';
import type { Person, Scenario, Step } from '../../scenario/schema.ts';
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
  const steps = Object.entries(scenario.steps);
  return [
    ...steps.flatMap(([id, step]) =>
      step.kind === 'wait' ? [waitInput(id, step)] : [handsInput(id, step, known)],
    ),
    spreadInput(),
    ...steps.flatMap(([id, step]) => sentBackInputs(id, step)),
    attendanceInput(scenario),
    lateInput(),
  ].filter((input) => input.moves.length > 0);
}

const named = (id: string, step: Step): string => `“${step.name ?? id}”`;

function handsInput(id: string, step: Step, known: readonly KnownTime[]): MovedInput {
  const name = named(id, step);
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

function waitInput(id: string, step: Step): MovedInput {
  const name = named(id, step);
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

function sentBackInputs(id: string, step: Step): MovedInput[] {
  const name = named(id, step);
  const rework = (step.rework ?? []).flatMap(({ percent, cause, to }, at): MovedInput[] => {
    if (percent === 0) return [];
    const why = cause === undefined ? `from ${name} to “${to}”` : `for “${cause}” at ${name}`;
    const by =
      (factor: number) =>
      (scenario: Scenario): Scenario =>
        withStep(scenario, id, (one) => ({
          ...one,
          rework: one.rework?.map((branch, i) =>
            i === at ? { ...branch, percent: upTo(one, branch.percent, factor) } : branch,
          ),
        }));
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
      withStep(scenario, id, (one) => ({ ...one, scrap: upTo(one, one.scrap ?? 0, factor) }));
  const scrap: MovedInput[] =
    (step.scrap ?? 0) === 0
      ? []
      : [
          {
            id: `scrap-${id}`,
            name: `how many are scrapped at ${name}`,
            moves: [
              { words: `twice as many scrapped at ${name}`, apply: by(2) },
              { words: `half as many scrapped at ${name}`, apply: by(0.5) },
            ],
          },
        ];
  return [...rework, ...scrap];
}

/** A share of what leaves a step, times a factor, but only as far as the step's other shares leave room. */
function upTo(step: Step, percent: number, factor: number): number {
  const all = (step.rework ?? []).reduce((sum, branch) => sum + branch.percent, step.scrap ?? 0);
  return Math.min(percent * factor, percent + (99 - Math.min(99, all)));
}

function attendanceInput(scenario: Scenario): MovedInput {
  const people = Object.values(scenario.people);
  const doubts = people.some((person) => absenceOf(person) > 0 && absenceOf(person) < 100);
  const by =
    (absence: (before: number) => number) =>
    (one: Scenario): Scenario => ({
      ...one,
      people: Object.fromEntries(
        Object.entries(one.people).map(([id, person]) => [
          id,
          withAbsence(person, absence(absenceOf(person))),
        ]),
      ),
    });
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

const absenceOf = (person: Person): number => 100 - (person.attendance?.percent ?? 100);
const withAbsence = (person: Person, absence: number): Person => ({
  ...person,
  attendance: { ...person.attendance, percent: 100 - absence },
});

function lateInput(): MovedInput {
  const apply = (scenario: Scenario): Scenario => {
    const intake = scenario.intake ?? { kind: 'at start' as const, units: 60 };
    return { ...scenario, intake: { ...intake, late: (intake.late ?? 0) + DOUBT.late } };
  };
  return {
    id: 'late',
    name: 'when the parts come',
    moves: [{ words: `everything coming ${DOUBT.late} min later`, apply }],
  };
}

function withStep(scenario: Scenario, id: string, change: (step: Step) => Step): Scenario {
  const step = scenario.steps[id];
  return step === undefined ? scenario : { ...scenario, steps: { ...scenario.steps, [id]: change(step) } };
}

/** Every time of a step, products' own and repeat visits in. */
function withTimes(scenario: Scenario, id: string, change: (time: Time) => Time): Scenario {
  const moved = withStep(scenario, id, (step) => ({
    ...step,
    time: change(step.time),
    ...(step.repeatTime === undefined ? {} : { repeatTime: change(step.repeatTime) }),
  }));
  if (scenario.products === undefined) return moved;
  const products = Object.entries(scenario.products).map(([product, one]) => {
    const time = one.times?.[id];
    return [
      product,
      time === undefined ? one : { ...one, times: { ...one.times, [id]: change(time) } },
    ] as const;
  });
  return { ...moved, products: Object.fromEntries(products) };
}

/**
 * Which second skill buys most: every step a person cannot do yet, one at a time, at a level given, with the
 * plan's posts and the new step put behind or in front of that person's own, whichever makes more. With most
 * crews one second skill each, in a closed chain through the steps, gives nearly all that everybody knowing
 * everything would (chaining: Hopp, Tekin and van Oyen, and others since; IIE Transactions 36(10), 2004; from
 * memory).
 */
import { nameOf, resolve, resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { runStudy, type StudyState } from '../study/study.ts';
import { summarize } from '../study/summary.ts';
import type { CrewPlan } from './plan-crew.ts';

export interface SecondSkill {
  person: string;
  personName: string;
  step: string;
  stepName: string;
  /** Where the new step goes in the person's order. */
  place: 'in front' | 'behind';
  /** Good units a shift it gains; the ranges of all rows hold together. */
  gain: Interval;
  /** Labour cost a shift it adds. */
  cost: Interval;
  /** Chance of the target with it; null without one. */
  chance: Interval | null;
}

export interface CrossTraining {
  level: number;
  /** Shifts of each. */
  count: number;
  /**
   * The one worth most first: what it gains, a unit counted at the file's margin (else at its labour cost),
   * less what it costs.
   */
  rows: SecondSkill[];
}

export interface TrainingSettings {
  /** Level once trained, 1 to 4. Default 3: alone. */
  level: number;
  /** Shifts of each row. Default 300. */
  count: number;
}

interface Trained {
  person: string;
  step: string;
  place: SecondSkill['place'];
  scenario: Scenario;
}

export async function crossTraining(
  { scenario }: Pick<CrewPlan, 'scenario'>,
  runner: Runner,
  given: Partial<TrainingSettings> = {},
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<CrossTraining> {
  const { level, count } = { level: 3, count: 300, ...given };
  if (![1, 2, 3, 4].includes(level)) throw new RangeError(`A skill level is 1 to 4, not ${level}.`);
  const trained = everySecondSkill(scenario, level);
  const cases = [
    { id: 'plan', name: 'The plan', shifts: [resolve(scenario)] },
    ...trained.map((one, at) => ({
      id: `trained-${at}`,
      name: `${one.person}: ${one.step}`,
      shifts: [resolve(one.scenario)],
    })),
  ];
  const pairs = trained.map((_, at) => ({ before: 0, after: at + 1 }));
  const study = summarize(
    await runStudy({ cases, pairs, settings: settingsOf(scenario), count }, runner, onLook, signal),
  );
  signal?.throwIfAborted();
  const shift = resolve(scenario);
  const rows = trained.map((one, at): SecondSkill => ({
    person: one.person,
    personName: nameOf(shift.people, one.person),
    step: one.step,
    stepName: nameOf(shift.steps, one.step),
    place: one.place,
    gain: study.pairs[at]!.good,
    cost: study.pairs[at]!.cost,
    chance: study.cases[at + 1]!.target?.chance ?? null,
  }));
  const plan = study.cases[0]!;
  const unit = resolvePlant(scenario).money.margin ?? (plan.costPerGood > 0 ? plan.costPerGood : 1);
  const worth = ({ gain, cost }: SecondSkill): number => gain.estimate * unit - cost.estimate;
  rows.sort((a, b) => worth(b) - worth(a));
  // Both places were tried on the same shifts; the one worth more is shown.
  const best = rows.filter(
    (row, at) => rows.findIndex((other) => other.person === row.person && other.step === row.step) === at,
  );
  return { level, count, rows: best };
}

function everySecondSkill(scenario: Scenario, level: number): Trained[] {
  const { people, steps } = resolve(scenario);
  return people
    .filter((person) => person.chance > 0)
    .flatMap((person) =>
      steps
        .filter((step) => step.kind === 'hands' && (person.skills[step.id]?.level ?? 0) < level)
        .flatMap((step) =>
          (['behind', 'in front'] as const).map((place): Trained => ({
            person: person.id,
            step: step.id,
            place,
            scenario: withSkill(scenario, person.id, step.id, level, place),
          })),
        ),
    );
}

function withSkill(
  scenario: Scenario,
  id: string,
  step: string,
  level: number,
  place: SecondSkill['place'],
): Scenario {
  const { skills, covers, changes, ...person } = scenario.people[id]!;
  const before = resolve(scenario).people.find((one) => one.id === id)!;
  const put = (steps: string[]): string[] => {
    const others = steps.filter((one) => one !== step);
    return place === 'behind' ? [...others, step] : [step, ...others];
  };
  const known = skills ?? Object.fromEntries(Object.keys(before.skills).map((one) => [one, 3]));
  return {
    ...scenario,
    people: {
      ...scenario.people,
      [id]: {
        ...person,
        skills: { ...known, [step]: level },
        covers: put(covers ?? before.cover[0]!.steps),
        ...(changes === undefined
          ? {}
          : { changes: changes.map((change) => ({ ...change, covers: put(change.covers) })) }),
      },
    },
  };
}

/** What a plan leans on: what has to hold for it to come out as forecast. */
import { clockAfter } from '../scenario/clock.ts';
import { emptyHours } from './empty-hours.ts';
import { nameOf, resolve } from '../scenario/resolve.ts';
import type { CaseSummary } from '../study/summary.ts';
import type { CrewSheet } from './sheet.ts';
import type { Day } from './question.ts';
import type { Scenario } from '../scenario/schema.ts';

export type Lean =
  /** Only one person covers the step at some time, and nobody else who comes can do it. */
  | { kind: 'one person'; step: string; person: string; others: string[] }
  /** In training (1) or with help (2) at a post. */
  | { kind: 'skill'; person: string; step: string; level: 1 | 2 }
  | { kind: 'perhaps'; person: string; chance: number }
  | { kind: 'late'; person: string; minutes: number; chance: number }
  /** Share of the shifts that need overtime. */
  | { kind: 'overtime'; share: number }
  | { kind: 'change of post'; person: string; at: number }
  /** Units that have yet to come in. */
  | { kind: 'arrivals'; units: number; last: string }
  /** Nobody who stands at the step is in for so long, minutes from the start. */
  | { kind: 'left alone'; step: string; from: number; to: number }
  /** Steps nobody present can do. */
  | { kind: 'nobody'; step: string };

export function leansOn(day: Day, plan: Scenario, sheet: CrewSheet, study: CaseSummary): Lean[] {
  const shift = resolve(plan);
  const here = sheet.people.filter((person) => person.chance > 0);
  const single = shift.steps
    .filter((step) => step.kind === 'hands')
    .flatMap((step): Lean[] => {
      const there = here.filter((person) =>
        person.posts.some((post) => post.steps.some((one) => one.id === step.id)),
      );
      if (there.length !== 1) return [];
      const others = here.filter(
        (person) =>
          person !== there[0] &&
          day.shift.people.find((one) => one.id === person.id)?.skills[step.id] !== undefined,
      );
      return [
        {
          kind: 'one person',
          step: step.name,
          person: there[0]!.name,
          others: others.map((person) => person.name),
        },
      ];
    });
  const skills = here.flatMap((person) => {
    const low = new Map(
      person.posts
        .flatMap((post) => post.steps)
        .filter((step) => step.level <= 2)
        .map((step) => [step.id, step]),
    );
    return [...low.values()].map((step): Lean => ({
      kind: 'skill',
      person: person.name,
      step: step.name,
      level: step.level as 1 | 2,
    }));
  });
  const { intake } = shift;
  const arrivals: Lean[] =
    intake.kind !== 'list' || intake.arrivals.length === 0
      ? []
      : [
          {
            kind: 'arrivals',
            units: intake.arrivals.reduce((sum, one) => sum + one.units, 0),
            last: clockAfter(shift.start, Math.max(...intake.arrivals.map((one) => one.at))),
          },
        ];
  return [
    ...day.uncovered.map((step): Lean => ({ kind: 'nobody', step: nameOf(shift.steps, step) })),
    ...emptyHours(shift).map(({ name, from, to }): Lean => ({ kind: 'left alone', step: name, from, to })),
    ...single,
    ...skills,
    ...here
      .filter((person) => person.chance < 1)
      .map((person): Lean => ({ kind: 'perhaps', person: person.name, chance: person.chance })),
    ...here.flatMap((person): Lean[] =>
      person.late === null ? [] : [{ kind: 'late', person: person.name, ...person.late }],
    ),
    ...(sheet.overtime === null ? [] : [{ kind: 'overtime' as const, share: study.overtimeChance.estimate }]),
    ...here.flatMap((person) =>
      person.posts
        .slice(1)
        .map((post): Lean => ({ kind: 'change of post', person: person.name, at: post.from })),
    ),
    ...arrivals,
  ];
}

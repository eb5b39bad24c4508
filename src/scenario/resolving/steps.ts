/** Steps, and the gear they use. */
import { DEFAULTS } from '../defaults.ts';
import type { ResolvedGear, ResolvedStep } from '../resolved.ts';
import type { Scenario, Step } from '../schema.ts';
import { ruleSentences, shutsOf } from '../step-rules.ts';

type After = (clock: string) => number;

/** Gear id of a step's own benches. */
export const benchOf = (step: string): string => `${step}-bench`;

/** Benches of its own: what the file says, otherwise one for a hands step that names nothing it uses. */
export function benchesOf(step: Step): number {
  if (step.kind === 'wait') return 0;
  return step.benches ?? (step.uses === undefined ? DEFAULTS.step.benches : 0);
}

export function resolveSteps(scenario: Scenario, after: After): ResolvedStep[] {
  const ids = Object.keys(scenario.steps);
  const mainPath = ids.filter((id) => !scenario.steps[id]!.aside);
  return ids.map((id) => resolveStep(id, scenario.steps[id]!, mainPath, after));
}

function resolveStep(id: string, step: Step, mainPath: string[], after: After): ResolvedStep {
  const benches = benchesOf(step);
  return {
    id,
    name: step.name ?? id,
    kind: step.kind ?? DEFAULTS.step.kind,
    time: step.time,
    repeatTime: step.repeatTime ?? null,
    people: step.people ?? DEFAULTS.step.people,
    rack: step.rack ?? DEFAULTS.step.rack,
    order: step.order ?? DEFAULTS.step.order,
    whole: step.whole ?? DEFAULTS.step.whole,
    plannedAt: step.plannedAt ?? DEFAULTS.step.plannedAt,
    lastStart: step.lastStart === undefined ? null : after(step.lastStart),
    shut: shutsOf(step, after),
    ruleSentences: ruleSentences(step, step.name ?? id),
    benches,
    uses: [...(benches > 0 ? [benchOf(id)] : []), ...(step.uses ?? [])],
    takes: step.takes ?? [],
    rework: (step.rework ?? []).map((back) => ({
      to: back.to,
      share: back.percent / 100,
      cause: back.cause ?? DEFAULTS.step.cause,
    })),
    scrap: (step.scrap ?? DEFAULTS.step.scrap) / 100,
    aside: step.aside ?? DEFAULTS.step.aside,
    next: step.aside ? (step.then ?? null) : (mainPath[mainPath.indexOf(id) + 1] ?? null),
  };
}

/** The gear the file lists, then the benches of the steps that have some of their own. */
export function resolveGear(scenario: Scenario, steps: ResolvedStep[], after: After): ResolvedGear[] {
  const listed = Object.entries(scenario.gear ?? {}).map(([id, gear]): ResolvedGear => ({
    id,
    name: gear.name ?? id,
    kind: 'gear',
    count: gear.count,
    price: gear.price ?? DEFAULTS.gear.price,
    fails: gear.fails ?? null,
    out: (gear.out ?? []).map((one) => ({
      from: after(one.from),
      minutes: one.minutes,
      items: one.items ?? DEFAULTS.gear.itemsOut,
    })),
  }));
  const price = scenario.money?.benchPrice ?? DEFAULTS.money.benchPrice;
  const benches = steps
    .filter((step) => step.benches > 0)
    .map(({ id, name, benches: count }): ResolvedGear => ({
      id: benchOf(id),
      name: `${name} bench`,
      kind: 'bench',
      count,
      price,
      fails: null,
      out: [],
    }));
  return [...listed, ...benches];
}

/**
 * One more of each thing, one at a time: each kind of gear, the benches of each step, each person alone, each
 * person with benches. What gains most, on the same luck, is what holds the cell back.
 */
import { moreBenches, moreGear, secondPerson } from '../scenario/changing/more.ts';
import { shiftsOf } from '../scenario/options.ts';
import {
  nameOf,
  resolve,
  resolvePlant,
  type ResolvedGear,
  type ResolvedPerson,
  type ResolvedShift,
  type ResolvedStep,
} from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { BASE, baseCase, differenceThatMatters, settingsOf } from './from-scenario.ts';
import type { Interval } from './intervals/interval.ts';
import type { StoppingSettings } from './stopping.ts';
import { countOf, goodBetween } from './ranges.ts';
import { runStudy, type StudyRequest, type StudyState } from './study.ts';
import { summarize, type StudySummary } from './summary.ts';
import type { Range } from './verdict.ts';

export interface Extra {
  /** Of the case in the study. */
  id: string;
  kind:
    | 'gear'
    | 'bench'
    | 'person'
    | 'person with bench'
    | 'rack slot'
    | 'quicker'
    | 'less rework'
    | 'cure shorter'
    | 'cure longer';
  /** The gear, step or person there is one more of. */
  of: string;
  /** "one more clamp set", "a second person at Orla’s posts with a bench". */
  name: string;
  /**
   * What then was short, inside a sentence that goes on "holds you back": "the number of clamp sets", "Orla's
   * time".
   */
  constraint: string;
  /** What one more costs to buy; null where the file does not say. */
  price: number | null;
  scenario: Scenario;
}

/** The question, short of its count: what each extra gains over the cell as it is. */
export interface Asked {
  settings?: Partial<StoppingSettings>;
  count?: number;
}

export interface ExtraGain {
  id: string;
  kind: Extra['kind'];
  of: string;
  name: string;
  constraint: string;
  price: number | null;
  /** Good units a shift; see GAINS_TOGETHER. */
  gain: Interval;
}

export interface OneMoreOfEach {
  study: StudySummary;
  /** The one that gains most first. */
  rows: ExtraGain[];
  /** What holds the cell back, in words; [] where nothing that was tried surely gains what matters. */
  constraint: string[];
}

/** Everything a checked scenario can have one more of. */
export function extrasOf(scenario: Scenario): Extra[] {
  const shift = resolve(scenario);
  const people = shift.people.filter((person) => person.chance > 0);
  return [
    ...shift.gear.filter((gear) => gear.kind === 'gear').map((gear) => oneMoreGear(scenario, gear)),
    ...shift.steps.filter((step) => step.benches > 0).map((step) => oneMoreBench(scenario, step)),
    ...people.map(({ id, name }): Extra => ({
      id: `person-${id}`,
      kind: 'person',
      of: id,
      name: `a second person at ${name}’s posts`,
      constraint: `${name}’s time`,
      price: null,
      scenario: secondPerson(scenario, id),
    })),
    ...people.flatMap((person) => oneMorePost(scenario, shift, person)),
  ];
}

const oneMoreGear = (scenario: Scenario, { id, name, price }: ResolvedGear): Extra => ({
  id: `gear-${id}`,
  kind: 'gear',
  of: id,
  name: `one more ${name}`,
  constraint: `the number of ${several(name)}`,
  price,
  scenario: moreGear(scenario, id, 1),
});

const oneMoreBench = (scenario: Scenario, { id, name }: ResolvedStep): Extra => ({
  id: `bench-${id}`,
  kind: 'bench',
  of: id,
  name: `one more bench for “${name}”`,
  constraint: `the room at “${name}”`,
  price: resolvePlant(scenario).money.benchPrice,
  scenario: moreBenches(scenario, [id]),
});

/** A person with a bench at each step they stand at first in the day that has benches of its own. */
function oneMorePost(scenario: Scenario, shift: ResolvedShift, { id, name, cover }: ResolvedPerson): Extra[] {
  const where = cover[0]!.steps.filter((step) =>
    shift.steps.some((one) => one.id === step && one.benches > 0),
  );
  if (where.length === 0) return [];
  const { benchPrice } = resolvePlant(scenario).money;
  return [
    {
      id: `post-${id}`,
      kind: 'person with bench',
      of: id,
      name: `a second person at ${name}’s posts with ${where.length === 1 ? 'a bench' : 'benches'}`,
      constraint:
        where.length === 1
          ? `“${nameOf(shift.steps, where[0]!)}” (${name}’s hands and bench)`
          : `${name}’s post (hands and benches)`,
      price: benchPrice === null ? null : benchPrice * where.length,
      scenario: moreBenches(secondPerson(scenario, id), where),
    },
  ];
}

/**
 * What one more of each thing gains. Aborted, it ends with what it has; nothing is then named as the
 * constraint.
 */
export async function oneMoreOfEach(
  scenario: Scenario,
  runner: Runner,
  asked: Asked = {},
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
  extras = extrasOf(scenario),
): Promise<OneMoreOfEach> {
  const state = await runStudy(eachRequest(scenario, extras, asked), runner, onLook, signal);
  return eachAnswer(extras, state, differenceThatMatters(scenario));
}

export function eachRequest(scenario: Scenario, extras: Extra[], asked: Asked = {}): StudyRequest {
  return {
    cases: [
      baseCase(scenario),
      ...extras.map(({ id, name, scenario: changed }) => ({ id, name, shifts: shiftsOf(changed) })),
    ],
    pairs: extras.map((_, i) => ({ before: 0, after: i + 1 })),
    settings: { ...settingsOf(scenario), ...asked.settings },
    ...(asked.count === undefined ? {} : { count: asked.count }),
  };
}

/** @param inFull whether the study's cases are told in full (see `summarize`). */
export function eachAnswer(
  extras: Extra[],
  state: StudyState,
  matters: number,
  inFull = true,
): OneMoreOfEach {
  const study = summarize(state, inFull);
  const rows = extras
    .map(({ scenario: _, ...extra }): ExtraGain => ({
      ...extra,
      gain: study.pairs.find((pair) => pair.before === BASE && pair.after === extra.id)!.good,
    }))
    .sort((a, b) => b.gain.estimate - a.gain.estimate);
  const caseOf = ({ id }: ExtraGain): number => state.request.cases.findIndex((one) => one.id === id);
  // Of things only, so that whatever else was loosened in the same study changes nothing here.
  const count = countOf(
    state,
    extras.flatMap(({ kind }, pair) => (THINGS.has(kind) ? [pair] : [])),
  );
  const lead: Lead = (best, other, several) =>
    goodBetween(state, caseOf(other), caseOf(best), several, count);
  return { study, rows, constraint: study.kind === 'final' ? constraintOf(rows, matters, lead) : [] };
}

/** What there can be one more of: what is named as holding a cell back is one of these. */
export const THINGS: ReadonlySet<Extra['kind']> = new Set(['gear', 'bench', 'person', 'person with bench']);

/** What the best gains over another on the same luck and inputs; `several` such are stated together. */
export type Lead = (best: ExtraGain, other: ExtraGain, several: number) => Range;

/**
 * The things (gear, benches, people) that surely gain what matters and may gain as much as the best one does:
 * by the difference of the two, which luck and the times move far less than either. A person with benches is
 * left out where the hands or the benches alone do as well.
 */
export function constraintOf(rows: ExtraGain[], matters: number, lead: Lead): string[] {
  const things = rows.filter(({ kind }) => THINGS.has(kind));
  const sure = things.filter((row) => row.gain.low >= matters);
  if (sure.length === 0) return [];
  const best = sure.reduce((one, other) => (other.gain.estimate > one.gain.estimate ? other : one));
  const alike = sure.filter((row) => row === best || lead(best, row, sure.length - 1).low <= 0);
  const alone = new Set(alike.filter((row) => row.kind === 'person').map((row) => row.of));
  return alike
    .filter((row) => row.kind !== 'person with bench' || !alone.has(row.of))
    .map((row) => row.constraint);
}

const several = (name: string): string =>
  /s$/.test(name) ? name : /(ch|sh|x)$/.test(name) ? `${name}es` : `${name}s`;

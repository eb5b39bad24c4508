/**
 * One more of each thing, one at a time: each kind of gear, the benches of each step, each person alone, each
 * person with benches. What gains most, on the same luck, is what holds the cell back.
 */
import { mergePatch } from '../scenario/merge-patch.ts';
import { shiftsOf } from '../scenario/options.ts';
import type { Person, Scenario, Step } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { BASE, baseCase, differenceThatMatters, settingsOf } from './from-scenario.ts';
import type { Interval } from './intervals/interval.ts';
import type { StoppingSettings } from './stopping.ts';
import { runStudy, type StudyRequest, type StudyState } from './study.ts';
import { summarize, type StudySummary } from './summary.ts';

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
  /** "one more clamp set", "another Orla with a bench". */
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
  /** Good units a day; the ranges of all extras hold together. */
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
  const steps = Object.entries(scenario.steps);
  const people = Object.entries(scenario.people).filter(([, person]) => person.attendance?.percent !== 0);
  return [
    ...Object.entries(scenario.gear ?? {}).map(([id, gear]): Extra => {
      const name = gear.name ?? id;
      return {
        id: `gear-${id}`,
        kind: 'gear',
        of: id,
        name: `one more ${name}`,
        constraint: `the number of ${several(name)}`,
        price: gear.price ?? null,
        scenario: moreGear(scenario, id, 1),
      };
    }),
    ...steps
      .filter(([, step]) => ownBenches(step) > 0)
      .map(([id, step]): Extra => ({
        id: `bench-${id}`,
        kind: 'bench',
        of: id,
        name: `one more bench for “${step.name ?? id}”`,
        constraint: `the room at “${step.name ?? id}”`,
        price: scenario.money?.benchPrice ?? null,
        scenario: moreBenches(scenario, [id]),
      })),
    ...people.map(([id, person]): Extra => ({
      id: `person-${id}`,
      kind: 'person',
      of: id,
      name: `another ${person.name ?? id}`,
      constraint: `${person.name ?? id}’s time`,
      price: null,
      scenario: secondPerson(scenario, id),
    })),
    ...people.flatMap(([id, person]): Extra[] => {
      const where = coveredBenches(scenario, person);
      if (where.length === 0) return [];
      const name = person.name ?? id;
      const post =
        where.length === 1
          ? `“${scenario.steps[where[0]!]!.name ?? where[0]!}” (${name}’s hands and bench)`
          : `${name}’s post (hands and benches)`;
      return [
        {
          id: `post-${id}`,
          kind: 'person with bench',
          of: id,
          name: `another ${name} with ${where.length === 1 ? 'a bench' : 'benches'}`,
          constraint: post,
          price: scenario.money?.benchPrice === undefined ? null : scenario.money.benchPrice * where.length,
          scenario: moreBenches(secondPerson(scenario, id), where),
        },
      ];
    }),
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
  return eachAnswer(extras, summarize(state), differenceThatMatters(scenario));
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

export function eachAnswer(extras: Extra[], study: StudySummary, matters: number): OneMoreOfEach {
  const rows = extras
    .map(({ scenario: _, ...extra }): ExtraGain => ({
      ...extra,
      gain: study.pairs.find((pair) => pair.before === BASE && pair.after === extra.id)!.good,
    }))
    .sort((a, b) => b.gain.estimate - a.gain.estimate);
  return { study, rows, constraint: study.kind === 'final' ? constraintOf(rows, matters) : [] };
}

/**
 * The things (gear, benches, people) that surely gain what matters and may gain as much as the best one does.
 * A person with benches is left out where the hands or the benches alone do as well.
 */
export function constraintOf(rows: ExtraGain[], matters: number): string[] {
  const things = rows.filter(
    (row) =>
      row.kind === 'gear' ||
      row.kind === 'bench' ||
      row.kind === 'person' ||
      row.kind === 'person with bench',
  );
  const sure = things.filter((row) => row.gain.low >= matters);
  const best = Math.max(...sure.map((row) => row.gain.estimate));
  const alike = sure.filter((row) => row.gain.high >= best);
  const alone = new Set(alike.filter((row) => row.kind === 'person').map((row) => row.of));
  return alike
    .filter((row) => row.kind !== 'person with bench' || !alone.has(row.of))
    .map((row) => row.constraint);
}

/** A scenario with `more` of a gear, in the shifts that follow too. */
export function moreGear(scenario: Scenario, id: string, more: number): Scenario {
  const bumped = (count: number | undefined): Change =>
    count === undefined ? {} : { gear: { [id]: { count: count + more } } };
  return changed(scenario, bumped(scenario.gear?.[id]?.count), (changes) =>
    bumped(numberAt(changes, ['gear', id, 'count'])),
  );
}

function moreBenches(scenario: Scenario, ids: string[]): Scenario {
  return ids.reduce((one, id) => {
    const bumped = (count: number): Change => ({ steps: { [id]: { benches: count + 1 } } });
    return changed(one, bumped(ownBenches(one.steps[id]!)), (changes) => {
      const count = numberAt(changes, ['steps', id, 'benches']);
      return count === undefined ? {} : bumped(count);
    });
  }, scenario);
}

/**
 * The same person once more, last in crew order; whatever a following shift changes about the one it changes
 * about the other.
 */
function secondPerson(scenario: Scenario, id: string): Scenario {
  const twin = freeId(scenario, id);
  const person = scenario.people[id]!;
  const who = scenario.shift?.overtime?.who;
  const overtime: Change = who?.includes(id) === true ? { shift: { overtime: { who: [...who, twin] } } } : {};
  const named = { ...person, name: `a second ${person.name ?? id}` };
  return changed(scenario, { ...overtime, people: { [twin]: named } }, (changes) => {
    const people = changes['people'] as Record<string, unknown> | undefined;
    return people !== undefined && Object.hasOwn(people, id) ? { people: { [twin]: people[id] } } : {};
  });
}

type Change = Record<string, unknown>;

/**
 * Applies a change to the file's shift, and to the changes of each shift that follows what `later` makes of
 * them.
 */
function changed(scenario: Scenario, change: Change, later: (changes: Change) => Change): Scenario {
  const { options: _options, ...base } = scenario;
  const nextShifts = scenario.nextShifts?.map((next) => {
    const more = later(next.changes ?? {});
    return Object.keys(more).length === 0 ? next : { ...next, changes: overlaid(next.changes ?? {}, more) };
  });
  return mergePatch(base, { ...change, ...(nextShifts === undefined ? {} : { nextShifts }) }) as Scenario;
}

/** One patch on top of another; a null stays what it is, as it still has something to take away. */
function overlaid(patch: Change, more: Change): Change {
  const isGroup = (value: unknown): value is Change =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  const entries = Object.entries(more).map(
    ([key, value]) =>
      [key, isGroup(value) && isGroup(patch[key]) ? overlaid(patch[key], value) : value] as const,
  );
  return { ...patch, ...Object.fromEntries(entries) };
}

function numberAt(changes: Change, path: string[]): number | undefined {
  const value = path.reduce<unknown>(
    (at, key) => (typeof at === 'object' && at !== null ? (at as Change)[key] : undefined),
    changes,
  );
  return typeof value === 'number' ? value : undefined;
}

function freeId(scenario: Scenario, id: string): string {
  const stem = id.slice(0, 36);
  let number = 2;
  while (`${stem}-${number}` in scenario.people) number += 1;
  return `${stem}-${number}`;
}

const ownBenches = (step: Step): number =>
  step.kind === 'wait' ? 0 : (step.benches ?? (step.uses === undefined ? 1 : 0));

function coveredBenches(scenario: Scenario, person: Person): string[] {
  const covers = person.covers ?? Object.keys(scenario.steps).filter((step) => step in (person.skills ?? {}));
  return covers.filter((step) => ownBenches(scenario.steps[step]!) > 0);
}

const several = (name: string): string =>
  /s$/.test(name) ? name : /(ch|sh|x)$/.test(name) ? `${name}es` : `${name}s`;

/**
 * What a lead makes of a hidden shop: a file written before any timing, then the times from 25 timings a step
 * (or from memory), all by the ways a lead goes (a list, columns, fits, the file).
 */
import { clockOfMinutes } from '../../src/scenario/clock.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { MEMORY_PERCENT } from '../../src/scenario/known.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { applyFits } from '../../src/timing/apply-fits.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { studyTimes, type TimesStudy } from '../../src/timing/study-times.ts';
import { readTable } from '../../src/timing/table.ts';
import type { HiddenShop } from './rows.ts';
import { WORKED, type Luck } from './simulator.ts';

/** Timings a step. */
export const EACH = 25;
/** Pieces whose check was counted. */
export const CHECKED = 100;
/** Clamp sets where a row says no other number. */
export const SETS = 2;
/** Clock minutes. */
export const SHIFT_START = 6 * 60;

/**
 * How the lead comes by the times: timed at the bench, or told from memory (a mean and how much it varies, or
 * quick, usual and slow).
 */
export type Told = 'timed' | 'mean' | 'quick, usual, slow';

/** What the lead has in the end. */
export interface Written {
  scenario: Scenario;
  /** The list of times gave reason to mind. */
  warned: boolean;
}

export function fileOf(hidden: HiddenShop, told: Told, shop: number, luck: Luck, sets = SETS): Written {
  let sentBack = 0;
  for (let i = 0; i < CHECKED; i++) sentBack += luck.uniform() < hidden.truth.toSand ? 1 : 0;
  const file = plannersFile(hidden, shop, { sentBack, counted: told === 'timed', sets });
  return told === 'timed'
    ? timed(hidden, file, luck)
    : { scenario: remembered(hidden, file, told, luck), warned: false };
}

/** What is written down before any timing: usual times, everybody's post. */
function plannersFile(
  { crew, truth }: HiddenShop,
  shop: number,
  { sentBack, counted, sets }: { sentBack: number; counted: boolean; sets: number },
): Scenario {
  const person = (covers: string[]) => (name: string) => [name, { name, covers }] as const;
  return readAgain({
    format: 1,
    name: `Hidden shop ${shop}`,
    invented: true,
    seed: `planner of shop ${shop}`,
    steps: {
      fit: { time: { mean: 12, cv: 0.2 }, benches: Math.max(2, crew.fit.length) },
      glue: { time: { mean: 8, cv: 0.2 }, takes: [{ gear: 'clamp', until: 'unclamp' }] },
      cure: { kind: 'wait', time: truth.cure },
      unclamp: { time: { mean: 5, cv: 0.2 }, benches: Math.max(2, crew.fit.length) },
      sand: { time: { mean: 15, cv: 0.2 }, benches: crew.sand.length },
      check: {
        time: { mean: 7, cv: 0.2 },
        rework: [
          {
            to: 'sand',
            percent: (100 * sentBack) / CHECKED,
            ...(counted ? { known: { of: CHECKED } } : {}),
          },
        ],
        scrap: 0.5,
      },
    },
    gear: { clamp: { name: 'clamp set', count: sets } },
    people: Object.fromEntries([
      ...crew.fit.map(person(['unclamp', 'fit'])),
      ...crew.glue.map(person(['glue'])),
      ...crew.sand.map(person(['sand'])),
      ...crew.check.map(person(['check'])),
    ]),
  });
}

function readAgain(file: unknown): Scenario {
  const reading = readScenario(JSON.stringify(file));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

/** Times from the list; where it says that people differ, each gets their own pace, and it is read again. */
function timed(hidden: HiddenShop, file: Scenario, luck: Luck): Written {
  const table = readTable(listOf(hidden, luck));
  const { observations } = readObservations(table, guessMapping(table, file), file);
  const first = studyTimes(file, observations, { draws: 199 });
  const paced = withPaces(file, first);
  const study = paced === file ? first : studyTimes(paced, observations, { draws: 199 });
  return {
    scenario: readAgain(
      applyFits(
        paced,
        study.places.map(({ fit }) => fit),
        study.places.map(({ doubts }) => doubts),
      ),
    ),
    warned: study.places.some(({ doubts }) => doubts.length > 0),
  };
}

/** The advice of "people differ" taken: each their own pace, as the list has it. */
function withPaces(file: Scenario, { places }: TimesStudy): Scenario {
  const people = structuredClone(file.people);
  let given = false;
  for (const { fit, effects, doubts } of places) {
    if (!doubts.some(({ kind }) => kind === 'people differ')) continue;
    for (const { kind, id, ratio, verdict } of effects.effects) {
      if (kind !== 'person' || verdict === 'cannot tell') continue;
      const person = people[id]!;
      const before = person.skills ?? Object.fromEntries((person.covers ?? []).map((step) => [step, 3]));
      people[id] = { ...person, skills: { ...before, [fit.step]: { factor: Number(ratio.toFixed(3)) } } };
      given = true;
    }
  }
  return given ? { ...file, people } : file;
}

function listOf(hidden: HiddenShop, luck: Luck): string {
  const lines = WORKED.flatMap((step) =>
    Array.from({ length: EACH }, () => {
      const { minutes, person, at } = hidden.time(step, luck);
      const clock = clockOfMinutes(SHIFT_START + Math.floor(at));
      return `${step};${Math.max(0.02, minutes).toFixed(2)};${person ?? ''};${clock}`;
    }),
  );
  return ['step;minutes;person;start', ...lines].join('\n');
}

/** Pieces of the true shop that a memory is made of: so many that luck is nothing against its error. */
const LIVED = 4001;
/** Standard normal deviate that 95 in 100 lie within. */
const WITHIN = 1.959964;

/**
 * Times from memory: the mean wrong by what the file assumes of it (right to so many per cent either way, 95
 * times in 100), steps apart from each other; the spread, or quick and slow beside usual, as they truly are.
 */
function remembered({ time }: HiddenShop, file: Scenario, told: Told, luck: Luck): Scenario {
  const steps = structuredClone(file.steps) as Record<string, Record<string, unknown>>;
  for (const step of WORKED) {
    const wrong = Math.exp((Math.log(1 + MEMORY_PERCENT / 100) / WITHIN) * luck.normal());
    const lived = Float64Array.from({ length: LIVED }, () => wrong * time(step, luck).minutes).sort();
    steps[step]!['time'] = told === 'mean' ? meanAndCv(lived) : quickUsualSlow(lived);
  }
  return readAgain({ ...file, steps });
}

function meanAndCv(lived: Float64Array): { mean: number; cv: number } {
  const mean = lived.reduce((sum, one) => sum + one, 0) / lived.length;
  const squares = lived.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { mean: rounded(mean), cv: rounded(Math.sqrt(squares / lived.length) / mean) };
}

const quickUsualSlow = (sorted: Float64Array): { quick: number; usual: number; slow: number } => {
  const at = (share: number): number => rounded(sorted[Math.round(share * (sorted.length - 1))]!);
  return { quick: at(0.1), usual: at(0.5), slow: at(0.9) };
};

const rounded = (value: number): number => Number(value.toFixed(3));

/**
 * Reads a scenario file and says whether it can be run. Nothing half-valid gets past here: what comes out as
 * `fine` is safe to resolve and compile; what does not comes back as faults, each with its place, what was
 * found, what is allowed and the likely remedy. Never throws, whatever it is given.
 */
import { checkingOptions, type CheckMemory } from './check-options.ts';
import { faultAt, withNames, type Fault, type Remark } from './reading/fault.ts';
import { plainFaults } from './reading/plain.ts';
import { readText } from './reading/read-text.ts';
import { readShape } from './reading/shape.ts';
import { checkMeaning } from './rules/rules.ts';
import type { Scenario } from './schema.ts';

export type { CheckMemory } from './check-options.ts';
export type { Fault, Remark } from './reading/fault.ts';
export type Reading =
  { kind: 'fine'; scenario: Scenario; remarks: Remark[] } | { kind: 'wrong'; faults: Fault[] };

/** Most faults listed; the first ones usually explain the rest. */
const MOST_LISTED = 100;

/** Reads the text of a file (JSON, at most 10 MB, at most 40 levels deep). */
export function readScenario(text: string): Reading {
  const read = readText(text);
  return read.kind === 'wrong' ? wrong(read.faults, undefined) : checkScenario(read.value);
}

/** Checks a value as JSON.parse gives it. What comes out as `scenario` is the value itself, not a copy. */
export function checkScenario(value: unknown, memory?: CheckMemory): Reading {
  const steps = checkingScenario(value, memory);
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}

/** The same in steps of some milliseconds, for who has something else to do in between. */
export function* checkingScenario(value: unknown, memory?: CheckMemory): Generator<undefined, Reading> {
  const plain = plainFaults(value);
  if (plain.length > 0) return wrong(plain, value);
  yield;
  const shape = readShape(value);
  if (shape.kind === 'wrong') return wrong(shape.faults, value);
  yield;
  const { faults, remarks } = checkMeaning(shape.scenario);
  if (faults.length > 0) return wrong(faults, value);
  const options = yield* checkingOptions(shape.scenario, memory);
  if (options.faults.length > 0) return wrong(options.faults, value);
  const told = [...remarks, ...options.remarks].map((remark) => withNames(remark, value));
  return { kind: 'fine', scenario: shape.scenario, remarks: told };
}

function wrong(faults: Fault[], value: unknown): Reading {
  const told = faults.slice(0, MOST_LISTED).map((fault) => withNames(fault, value));
  if (faults.length <= MOST_LISTED) return { kind: 'wrong', faults: told };
  const rest = faultAt([], `${faults.length - MOST_LISTED} more faults`, 'none', 'put these right first');
  return { kind: 'wrong', faults: [...told, rest] };
}

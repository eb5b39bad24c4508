/**
 * From the words of a command line to a checked scenario: the file, the options and changes asked for, the
 * seed.
 */
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkScenario, readScenario, type Remark } from '../scenario/check.ts';
import { applyChanges } from '../scenario/options.ts';
import { nearest } from '../scenario/reading/fault.ts';
import { MOST_TEXT } from '../scenario/reading/read-text.ts';
import { nameOf, resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Input } from '../report/input.ts';
import { readText, STANDARD_INPUT } from './disk/read-file.ts';
import { commandWrong, scenarioWrong } from './trouble.ts';
import { choicesOf, together, type TypedWord } from './what-if-words.ts';

/** The demo shop that comes with the package; this file is built into dist/cli. */
export const DEMO = new URL('../../scenarios/chair-works.json', import.meta.url);

/** What can be changed about a file from the command line. */
export interface Changes {
  option?: string[] | undefined;
  with?: string | undefined;
  seed?: string | undefined;
  timesKnown?: true | undefined;
  whatIfs?: TypedWord[] | undefined;
}

export type { Input };

/** A scenario that was read before: its text, and the name it is shown under. */
export interface ReadBefore {
  shown: string;
  text: string;
  demo: boolean;
}

/** A path; the demo shop; or what was read before. */
export type FileWord = string | undefined | ReadBefore;

export async function readBefore(file: string | undefined): Promise<ReadBefore> {
  const path = file ?? fileURLToPath(DEMO);
  return {
    shown: file ?? relative(process.cwd(), path),
    text: await readText(path, MOST_BYTES, 'a scenario'),
    demo: file === undefined,
  };
}

export async function readInput(file: FileWord, changes: Changes = {}): Promise<Input> {
  const { shown, text, demo } = typeof file === 'object' ? file : await readBefore(file);
  const reading = readScenario(text);
  if (reading.kind === 'wrong')
    throw scenarioWrong(shown === STANDARD_INPUT ? 'Standard input' : shown, reading.faults);
  const base = {
    ...reading.scenario,
    ...(changes.seed === undefined ? {} : { seed: changes.seed }),
    ...(changes.timesKnown === true ? { study: { ...reading.scenario.study, timesKnown: true } } : {}),
  };
  const { scenario, remarks, labels } = await withChanges(base, changes);
  return {
    file: shown,
    demo,
    scenario,
    base,
    applied: [...(changes.option ?? []).map((id) => nameOf(resolvePlant(base).options, id)), ...labels],
    seed: resolvePlant(base).seed,
    remarks: remarks ?? reading.remarks,
  };
}

/** Anything longer is refused anyway: a character takes four bytes at most. */
const MOST_BYTES = 4 * MOST_TEXT;

/**
 * Applies options in the order given, then the what-ifs, then the patch; together they are checked again, as
 * each alone was only on its own.
 */
async function withChanges(
  base: Scenario,
  { option = [], with: patch, whatIfs = [] }: Changes,
): Promise<{ scenario: Scenario; remarks?: Remark[]; labels: string[] }> {
  if (option.length === 0 && patch === undefined && whatIfs.length === 0)
    return { scenario: base, labels: [] };
  const chosen = option.map((id) => optionOf(base, id)).reduce(applyChanges, base);
  const { frames, choices } = choicesOf(whatIfs);
  const typed = [...choices.flat(), ...frames];
  const made = typed.length === 0 ? null : together(chosen, typed);
  const asked = made === null ? chosen : applyChanges(chosen, made.changes);
  const last = patch === undefined ? asked : applyChanges(asked, await patchOf(patch));
  const reading = checkScenario(last);
  if (reading.kind === 'wrong') throw scenarioWrong('The scenario with these changes', reading.faults);
  return { scenario: reading.scenario, remarks: reading.remarks, labels: made === null ? [] : [made.label] };
}

function optionOf(base: Scenario, id: string): Record<string, unknown> {
  const ids = resolvePlant(base).options.map((option) => option.id);
  if (ids.includes(id)) return base.options![id]!.changes;
  const near = nearest(id, ids);
  const has = ids.length === 0 ? 'it has none' : `it has ${ids.join(', ')}`;
  throw commandWrong(
    `The file has no option "${id}"; ${has}.${near === null ? '' : ` Did you mean "${near}"?`}`,
  );
}

/** Names of options as typed: given one by one, with commas, or both. */
export function optionIds(base: Scenario, given: string[]): string[] {
  const ids = given
    .flatMap((one) => one.split(','))
    .map((id) => id.trim())
    .filter((id) => id !== '');
  ids.forEach((id) => optionOf(base, id));
  return [...new Set(ids)];
}

/** Changes as JSON for machines: typed, or `@` and the file they stand in (`@-`: from standard input). */
export async function patchOf(text: string, flag = '--with'): Promise<Record<string, unknown>> {
  const json = text.startsWith('@') ? await readText(text.slice(1), MOST_BYTES, 'a change') : text;
  try {
    const value: unknown = JSON.parse(json);
    if (typeof value === 'object' && value !== null && !Array.isArray(value))
      return value as Record<string, unknown>;
  } catch {
    // Said below.
  }
  const found = text === json ? text.slice(0, 60) : `no such JSON in ${text.slice(1)}`;
  throw commandWrong(
    `${flag} takes changes as JSON, best from a file: ${flag} @changes.json, with {"gear":{"clamp":{"count":3}}} in it, say; found ${found}. In words: --clamp 3 (see --help).`,
  );
}

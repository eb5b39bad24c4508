/** The options of a cell as the page changes them: plain functions from one list of options to the next. */
import { applyChanges, describeChanges, diffPatch, mergePatch } from '../../../src/scenario/options.ts';
import { resolveOption } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { offered } from '../../../src/whatif/make.ts';
import type { Group } from '../../../src/whatif/what-if.ts';
import type { Changes } from './fields.ts';

export type Options = NonNullable<Scenario['options']>;
export type Option = Options[string];

/** Side by side, the cell as it is left out. */
export const MOST_SHOWN = 8;

/** A name for inside the file that no option has yet. */
export function freeId(options: Options, name: string): string {
  const plain = name
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
    .slice(0, 32)
    .replace(/-+$/, '');
  const stem = plain === '' || plain === 'constructor' ? 'option' : plain;
  let id = stem;
  for (let number = 2; Object.hasOwn(options, id); number += 1) id = `${stem}-${number}`;
  return id;
}

export const asOptioned = (scenario: Scenario, option: Option): Scenario =>
  applyChanges(scenario, option.changes);

const baseOf = ({ options: _options, ...base }: Scenario): Omit<Scenario, 'options'> => base;

/** The changes of an option with one field of it set. What then is as in the base is no change any more. */
export function withField(scenario: Scenario, option: Option, change: Changes): Changes {
  return diffPatch(baseOf(scenario), mergePatch(asOptioned(scenario, option), change)) as Changes;
}

/** An option moved by one place among all. */
export function moved(options: Options, id: string, by: 1 | -1): Options {
  const entries = Object.entries(options);
  const from = entries.findIndex(([other]) => other === id);
  const to = from + by;
  if (from < 0 || to < 0 || to >= entries.length) return options;
  [entries[from], entries[to]] = [entries[to]!, entries[from]!];
  return Object.fromEntries(entries);
}

export function without(options: Options, id: string): Options {
  return Object.fromEntries(Object.entries(options).filter(([other]) => other !== id));
}

/** The options with a copy of one right behind it, and the copy's id. */
export function doubled(options: Options, id: string): { options: Options; id: string } {
  const one = options[id]!;
  const name = `${resolveOption(id, one).name}, again`.slice(0, 120);
  const copy = freeId(options, name);
  const entries = Object.entries(options).flatMap(([other, option]) =>
    other === id
      ? [[other, option] as const, [copy, { ...option, name }] as const]
      : [[other, option] as const],
  );
  return { options: Object.fromEntries(entries), id: copy };
}

/** An option that is one press away. */
export interface Maker {
  id: string;
  group: string;
  option: Option & { name: string };
}

/** What people are asked first, by what-if; the others stand under their group. */
const HEADINGS: Record<string, string> = {
  person: 'One more person',
  trainee: 'Somebody new in training',
  also: 'Also stands at',
  swap: 'Swap posts',
  out: 'Out',
  late: 'Late',
  away: 'Away on another line',
};
const GROUPS: Record<Group, string> = {
  'gear and benches': 'Clamp sets, benches and racks',
  people: 'People',
  parts: 'Parts',
  times: 'Times',
  'the shift': 'The shift',
};

/** Every what-if that the cell takes in one press, as the command line has them, and an empty one. */
export const makersOf = (scenario: Scenario): Maker[] => [
  ...offered(scenario).map(({ typed, group, made }): Maker => ({
    id: `${typed.word} ${typed.given}`,
    group: HEADINGS[typed.word] ?? GROUPS[group],
    option: {
      name: made.label,
      changes: made.changes as Changes,
      ...(made.price === undefined ? {} : { price: made.price }),
    },
  })),
  { id: 'plain', group: 'Something else', option: { name: 'A change of my own', changes: {} } },
];

/** What an option changes, in one line. */
export function changesWords(scenario: Scenario, option: Option): string {
  const words = describeChanges(scenario, option.changes);
  return words.length === 0 ? 'changes nothing yet' : words.join('; ');
}

/** What became of an option; `kept` false: only tried, to see what it does. `say` names it for undo. */
export interface Edited {
  option: Option;
  kept: boolean;
  say: string;
}

/** What is wanted of the list of options. */
export type ListAct =
  | { kind: 'look at' | 'show' | 'hide' | 'up' | 'down' | 'duplicate' | 'remove'; id: string }
  | { kind: 'add'; maker: Maker };

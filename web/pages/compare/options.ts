/** The options of a cell as the page changes them: plain functions from one list of options to the next. */
import { isFixed } from '../../../src/duration/compile.ts';
import { applyChanges, describeChanges, diffPatch, mergePatch } from '../../../src/scenario/options.ts';
import { resolveOption } from '../../../src/scenario/resolve.ts';
import { comingLater } from '../../../src/scenario/changing/inputs.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { capitalized, inSentence, ordinal, singular, withArticle } from '../../../src/words/words.ts';
import { plantOf, shiftOf } from '../common/resolved.ts';
import type { Changes } from './fields.ts';
import { meanOf } from '../common/times.ts';

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

/** One more of each thing, one person out, a longer cure, overtime: the questions that are asked first. */
export function makersOf(scenario: Scenario): Maker[] {
  const shift = shiftOf(scenario);
  const { steps, overtime } = shift;
  const { benchPrice } = plantOf(scenario).money;
  const cap = overtime.until === 'none' ? 0 : overtime.cap;
  const makers: Maker[] = [
    ...shift.gear
      .filter((gear) => gear.kind === 'gear')
      .flatMap(({ id, name, count, price }) =>
        [1, -1]
          .filter((by) => count + by >= 1)
          .map((by): Maker => ({
            id: `gear-${id}-${by}`,
            group: 'Clamp sets, benches and racks',
            option: {
              name:
                by === 1
                  ? capitalized(withArticle(`${ordinal(count + 1)} ${singular(inSentence(name))}`))
                  : `One ${singular(inSentence(name))} fewer`,
              changes: { gear: { [id]: { count: count + by } } },
              ...(by === 1 && price !== null ? { price } : {}),
            },
          })),
      ),
    ...steps
      .filter((step) => step.benches > 0)
      .map(({ id, name, benches }): Maker => ({
        id: `bench-${id}`,
        group: 'Clamp sets, benches and racks',
        option: {
          name: `One more bench: ${name}`,
          changes: { steps: { [id]: { benches: benches + 1 } } },
          ...(benchPrice === null ? {} : { price: benchPrice }),
        },
      })),
    ...steps.flatMap(({ id, name, rack }): Maker[] =>
      rack === null
        ? []
        : [
            {
              id: `rack-${id}`,
              group: 'Clamp sets, benches and racks',
              option: {
                name: `Four more rack slots before: ${name}`,
                changes: { steps: { [id]: { rack: rack + 4 } } },
              },
            },
          ],
    ),
    ...shift.people
      .filter((person) => person.chance > 0)
      .map(({ id, name }): Maker => ({
        id: `out-${id}`,
        group: 'People',
        option: { name: `${name} out`, changes: { people: { [id]: { attendance: { percent: 0 } } } } },
      })),
    ...steps
      .filter((step) => step.kind === 'wait' && isFixed(step.time))
      .flatMap(({ id, name, time }) =>
        [-10, 15]
          .map((by) => ({ by, to: meanOf(time) + by }))
          .filter(({ to }) => to > 0)
          .map(({ by, to }): Maker => ({
            id: `wait-${id}-${by}`,
            group: 'Times',
            option: { name: `${capitalized(name)} ${to} min`, changes: { steps: { [id]: { time: to } } } },
          })),
      ),
    ...[30, 60]
      .filter((minutes) => minutes !== cap)
      .map((minutes): Maker => ({
        id: `overtime-${minutes}`,
        group: 'The shift',
        option: {
          name: `Up to ${minutes} min of overtime`,
          changes: {
            shift: {
              overtime: {
                until: shift.target === null ? 'empty' : 'target',
                cap: minutes,
              },
            },
          },
        },
      })),
    {
      id: 'late',
      group: 'The shift',
      option: {
        name: 'Parts an hour late',
        changes: { intake: comingLater(scenario, 60).intake },
      },
    },
    { id: 'plain', group: 'Something else', option: { name: 'A change of my own', changes: {} } },
  ];
  return makers;
}

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

/** An option or a following shift is a change to a valid cell; what comes of it must be valid too. */
import { sameJson } from './merge-patch.ts';
import { applyChanges, followingScenario, startsAfter } from './options.ts';
import { faultAt, listed, nearest, type Fault, type Place, type Remark } from './reading/fault.ts';
import { keysAt } from './reading/schema-keys.ts';
import { readShape } from './reading/shape.ts';
import { resolve } from './resolve.ts';
import { checkMeaning } from './rules/rules.ts';
import { scenarioSchema, type Scenario } from './schema.ts';

/** Most faults told of one option: they mostly have one cause. */
const MOST_EACH = 5;

/**
 * Options found fine before, by their changes, with the cell they were found fine on (all but its options).
 * Whoever hands in values that are never changed in place may keep one, so that an option is not checked
 * again while neither it nor the cell is another one.
 */
export type CheckMemory = WeakMap<object, { cell: unknown[]; changesNothing: boolean }>;

/**
 * Faults and remarks of the options and following shifts of a scenario that is fine without them. A step for
 * each option.
 */
export function* checkingOptions(
  scenario: Scenario,
  memory: CheckMemory = new WeakMap(),
): Generator<undefined, { faults: Fault[]; remarks: Remark[] }> {
  const faults = checkFollowing(scenario, []);
  const remarks: Remark[] = [];
  const { options, ...base } = scenario;
  const cell = Object.entries(base).flatMap(([key, value]) => [key, value]);
  for (const [id, { changes }] of Object.entries(options ?? {})) {
    const place: Place = ['options', id, 'changes'];
    const known = memory.get(changes);
    if (
      known !== undefined &&
      known.cell.length === cell.length &&
      known.cell.every((part, i) => part === cell[i])
    ) {
      if (known.changesNothing) remarks.push(nothingChanged(place));
      continue;
    }
    yield;
    const own = checkOption(scenario, changes, place);
    faults.push(...own.slice(0, MOST_EACH));
    if (own.length > 0) continue;
    const changesNothing = sameJson(base, applyChanges(scenario, changes));
    if (changesNothing) remarks.push(nothingChanged(place));
    memory.set(changes, { cell, changesNothing });
  }
  return { faults, remarks };
}

function checkOption(scenario: Scenario, changes: Record<string, unknown>, place: Place): Fault[] {
  const own = checkChanges(scenario, changes, place, OPTION_MAY_NOT);
  if (own.length > 0) return own;
  const changed = applyChanges(scenario, changes);
  own.push(...checkResult(changed, changes, place));
  return own.length > 0 ? own : checkFollowing(changed, place);
}

/** An option that leaves everything as it is, pointed out. */
const nothingChanged = (place: Place): Remark =>
  faultAt(
    place,
    'changes that change nothing',
    'a change to the cell',
    'change something, or take the option out',
  );

const OPTION_MAY_NOT = ['format', 'options', '$schema'];
const SHIFT_MAY_NOT = [
  'calendar',
  'format',
  'options',
  '$schema',
  'nextShifts',
  'carryOver',
  'seed',
  'study',
  'money',
  'name',
];

function checkFollowing(scenario: Scenario, above: Place): Fault[] {
  const faults: Fault[] = [];
  if (scenario.nextShifts === undefined) return faults;
  let ends = resolve(scenario).length;
  for (const [i, next] of scenario.nextShifts.entries()) {
    const changes = next.changes ?? {};
    const place: Place = [...above, 'nextShifts', i, 'changes'];
    const own = checkChanges(scenario, changes, place, SHIFT_MAY_NOT);
    const shift = own.length > 0 ? scenario : followingScenario(scenario, i);
    if (own.length === 0) own.push(...checkResult(shift, changes, place));
    if (own.length === 0) own.push(...samePath(scenario, shift, place));
    if (own.length === 0) {
      const starts = startsAfter(scenario, i);
      if (starts < ends) {
        own.push(
          faultAt(
            [...above, 'nextShifts', i, 'days'],
            `a start ${ends - starts} min before the shift before it ends`,
            'shifts one after the other',
            'give more days, or a later start',
          ),
        );
      }
      ends = starts + resolve(shift).length;
    }
    faults.push(...own.slice(0, MOST_EACH));
  }
  return faults;
}

const PATH_KEYS = ['kind', 'uses', 'takes', 'aside', 'then'] as const;
const WAY_KEYS = ['skips', 'enters'] as const;

/**
 * What is left in the cell stands on the path and holds its gear: neither can be another one the next shift.
 */
function samePath(base: Scenario, shift: Scenario, place: Place): Fault[] {
  const stays = 'the same path in every shift: units stand on it overnight';
  const parts = (['steps', 'products'] as const).flatMap((part) => {
    const [before, after] = [Object.keys(base[part] ?? {}), Object.keys(shift[part] ?? {})];
    return sameJson(before, after)
      ? []
      : [
          faultAt(
            [...place, part],
            `other ${part} than in the first shift: ${listed(after, 'and')}`,
            stays,
            'leave them out of the changes; an option may change them for all shifts',
          ),
        ];
  });
  const differing = (at: Place, before: object, after: object, keys: readonly string[]): Fault[] => {
    const [was, is] = [new Map(Object.entries(before)), new Map(Object.entries(after))];
    return keys
      .filter((key) => !sameJson(was.get(key), is.get(key)))
      .map((key) =>
        faultAt(
          [...place, ...at, key],
          `a change of "${key}"`,
          stays,
          'take it away; an option may change it for all shifts',
        ),
      );
  };
  if (parts.length > 0) return parts;
  const steps = Object.entries(base.steps).flatMap(([id, step]) =>
    differing(['steps', id], step, shift.steps[id]!, PATH_KEYS),
  );
  const ways = Object.entries(base.products ?? {}).flatMap(([id, product]) =>
    differing(['products', id], product, shift.products![id]!, WAY_KEYS),
  );
  return [...steps, ...ways];
}

/**
 * Faults of a patch by itself: names at its top that lead nowhere or may not be changed, and names taken away
 * that are not there.
 */
function checkChanges(
  scenario: Scenario,
  changes: Record<string, unknown>,
  place: Place,
  mayNot: string[],
): Fault[] {
  const entries = Object.keys(scenarioSchema.shape);
  const top = Object.keys(changes).flatMap((key) => {
    if (mayNot.includes(key))
      return [
        faultAt(
          [...place, key],
          `a change of "${key}"`,
          `changes of anything but ${mayNot.join(', ')}`,
          'take it away',
        ),
      ];
    return entries.includes(key)
      ? []
      : [unknown([...place, key], `the unknown entry "${key}"`, key, entries, 'take it away')];
  });
  const known = Object.entries(changes).filter(([key]) => entries.includes(key));
  return [
    ...top,
    ...known.flatMap(([key, patch]) =>
      takenAway(Object.entries(scenario).find(([name]) => name === key)?.[1], patch, [key], [...place, key]),
    ),
  ];
}

function unknown(place: Place, found: string, name: string, names: string[], otherwise: string): Fault {
  const near = nearest(name, names);
  return faultAt(
    place,
    found,
    listed(names, 'and', 40),
    near === null ? otherwise : `did you mean "${near}"?`,
  );
}

/**
 * A patch that takes away a name nobody has would say nothing and change nothing: most likely the name is
 * misspelt. An entry that the file may have and has not may be taken away: an option may be written so that
 * it holds for other files too.
 * @param at the place in the file, @param place the place of the patch.
 */
function takenAway(part: unknown, patch: unknown, at: Place, place: Place): Fault[] {
  if (!isGroup(patch)) return [];
  const own = isGroup(part) ? part : {};
  const known = keysAt(scenarioSchema, at).flat();
  return Object.entries(patch).flatMap(([name, value]) => {
    if (value !== null) return takenAway(own[name], value, [...at, name], [...place, name]);
    if (Object.hasOwn(own, name) || known.includes(name)) return [];
    const names = [...new Set([...Object.keys(own), ...known])];
    return [
      unknown(
        [...place, name],
        `"${name}" taken away, which is not there`,
        name,
        names,
        'take this entry away',
      ),
    ];
  });
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Faults of what the patch makes. Only the parts it touches can have lost their shape. */
function checkResult(changed: Scenario, changes: Record<string, unknown>, place: Place): Fault[] {
  const shape = readShape(changed, Object.keys(changes));
  const faults = shape.kind === 'wrong' ? shape.faults : checkMeaning(changed).faults;
  return faults.map((one) => faultAt([...place, ...one.place], one.found, one.allowed, one.remedy));
}

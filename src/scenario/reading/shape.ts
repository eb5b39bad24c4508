/** The shape of a file: what the schema refuses, in words of the shop rather than of the schema library. */
import type { z } from '../../zod.ts';
import { scenarioSchema, type Scenario } from '../schema.ts';
import { faultAt, listed, nearest, show, type Fault, type Place } from './fault.ts';
import { keysAt } from './schema-keys.ts';

/** Looked at of one file; a hostile one may have a million. */
const MOST_ISSUES = 1000;

type Issue = z.core.$ZodIssue;

export type ShapeReading = { kind: 'fits'; scenario: Scenario } | { kind: 'wrong'; faults: Fault[] };

/**
 * Whether a plain value has the shape of a scenario. `only` names the top-level keys to look at (default:
 * all).
 */
export function readShape(value: unknown, only?: readonly string[]): ShapeReading {
  const schema = only === undefined ? scenarioSchema : schemaOf(only);
  const aim =
    only === undefined || !isGroup(value)
      ? value
      : Object.fromEntries(only.filter((key) => Object.hasOwn(value, key)).map((key) => [key, value[key]]));
  const issues = issuesOf(schema, aim);
  if (issues.length === 0) return { kind: 'fits', scenario: value as Scenario };
  return {
    kind: 'wrong',
    faults: issues.slice(0, MOST_ISSUES).flatMap((issue) => faultsOf(issue, [], value)),
  };
}

function issuesOf(schema: z.ZodType, aim: unknown): Issue[] {
  try {
    return schema.safeParse(aim).error?.issues ?? [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    // The library hands its issues on as arguments: a hundred thousand of them end the stack. The beginning
    // of each list shows what is wrong.
    const found = schema.safeParse(beginning(aim)).error?.issues ?? [];
    return found.length > 0
      ? found
      : [
          {
            code: 'custom',
            path: [],
            input: undefined,
            message: 'lists whose later entries are like their first ones',
          },
        ];
  }
}

/** The value with long lists and groups cut short. At most forty levels deep, so recursion is safe. */
function beginning(value: unknown): unknown {
  if (Array.isArray(value)) return value.slice(0, 200).map(beginning);
  return isGroup(value)
    ? Object.fromEntries(
        Object.entries(value)
          .slice(0, 200)
          .map(([key, one]) => [key, beginning(one)]),
      )
    : value;
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const picked = new Map<string, z.ZodType>();

/**
 * The schema of some top-level keys, made once. Unknown keys are left to the strict schema, which names them.
 */
function schemaOf(only: readonly string[]): z.ZodType {
  const keys = Object.keys(scenarioSchema.shape).filter((key) => only.includes(key));
  const name = keys.join(' ');
  const known = picked.get(name);
  if (known !== undefined) return known;
  const mask: { [K in keyof Scenario]?: true } = Object.fromEntries(keys.map((key) => [key, true]));
  const schema = scenarioSchema.pick(mask);
  picked.set(name, schema);
  return schema;
}

function valueAt(value: unknown, place: Place): unknown {
  let here = value;
  for (const key of place) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Record<string | number, unknown>)[key];
  }
  return here;
}

/** Beyond so many unknown entries of one group nobody asks for each of them what was meant. */
const MOST_MEANT = 100;

function faultsOf(issue: Issue, above: Place, file: unknown): Fault[] {
  const place = [...above, ...issue.path.map((key) => (typeof key === 'number' ? key : String(key)))];
  const value = valueAt(file, place);
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key, i) =>
        i < MOST_MEANT
          ? unknownKey(place, key, value)
          : faultAt([...place, key], `the unknown entry "${key}"`, 'none', 'take it away'),
      );
    case 'invalid_union':
      return unionFaults(issue, place, value, file);
    case 'invalid_key':
      return [faultAt(place, `the name ${show(place.at(-1))}`, NAME_WORDS, nameRemedy(String(place.at(-1))))];
    case 'invalid_type':
      return [typeFault(issue.expected, place, value)];
    case 'invalid_value':
      return [choiceFault(place, value, issue.values.map(String))];
    case 'too_small':
    case 'too_big':
      return [sizeFault(issue, place, value)];
    case 'invalid_format':
      return [formatFault(place, value, issue.message)];
    default:
      return [faultAt(place, show(value), issue.message, 'look through the long lists')];
  }
}

const NAME_WORDS =
  'small letters, digits and hyphens, beginning with a letter, at most 40 ("constructor" is taken)';

function nameRemedy(name: string): string {
  const tidy = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
    .slice(0, 40);
  return tidy !== '' && tidy !== 'constructor'
    ? `write "${tidy}" here and give the full wording as its "name"`
    : 'give it a short name such as "glue"';
}

function unknownKey(place: Place, key: string, group: unknown): Fault {
  const own = isGroup(group) ? group : {};
  const common = (keys: string[]): number => keys.filter((one) => Object.hasOwn(own, one)).length;
  // Where several groups may stand, the one that shares most entries with the file's was meant, and of those
  // the smallest.
  const groups = keysAt(scenarioSchema, place).sort((a, b) => common(b) - common(a) || a.length - b.length);
  const meant = groups[0] ?? [];
  const found = `the unknown entry "${key}"`;
  if (groups.slice(1).some((keys) => keys.includes(key))) {
    // A merge patch keeps the entries it does not name: a new kind of time is merged into the old one.
    return faultAt(
      [...place, key],
      `"${key}", which belongs to another kind of entry`,
      listed(meant, 'and', 40),
      `take it away (in "changes": "${key}": null takes away what the base has)`,
    );
  }
  const near = nearest(key, meant) ?? nearest(key, groups.flat());
  return faultAt(
    [...place, key],
    found,
    listed(meant, 'and', 40),
    near === null ? 'take it away' : `did you mean "${near}"?`,
  );
}

/**
 * Branches of a union are weighed by how much would have to change to fit them; the lightest is what was
 * meant.
 */
function weight(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => {
    if (issue.path.length === 0 && issue.code === 'invalid_type') return sum + 100;
    if (issue.code === 'invalid_value') return sum + 4;
    if (issue.code === 'unrecognized_keys') return sum + 3 * issue.keys.length;
    return sum + (issue.code === 'invalid_type' ? 2 : 1);
  }, 0);
}

const lightest = (branches: Issue[][]): Issue[] =>
  branches.reduce((least, one) => (weight(one) < weight(least) ? one : least));

/** Whether a branch of the times has another curve, no curve, or is a plain number. */
const refusesCurve = (issue: Issue): boolean =>
  (issue.code === 'invalid_value' && issue.path[0] === 'curve') ||
  (issue.code === 'unrecognized_keys' && issue.keys.includes('curve')) ||
  (issue.code === 'invalid_type' && issue.path.length === 0);

function unionFaults(
  issue: z.core.$ZodIssueInvalidUnion,
  place: Place,
  value: unknown,
  file: unknown,
): Fault[] {
  const offered: unknown = 'options' in issue ? issue.options : undefined;
  if (issue.errors.length === 0)
    return [choiceFault(place, value, Array.isArray(offered) ? offered.map(String) : [])];
  // Only a time has so many branches.
  if (issue.errors.length > 5 && !isGroup(value)) return [timeFault(place, value)];
  const choices = issue.errors.flat().filter((one) => one.code === 'invalid_value');
  const curve = choices
    .filter((one) => one.path.length === 1 && one.path[0] === 'curve')
    .flatMap((one) => one.values.map(String));
  if (curve.length > 0) {
    // Where a curve is named, the name decides what was meant.
    const named = isGroup(value) ? value['curve'] : undefined;
    const fitting = named === undefined ? [] : issue.errors.filter((branch) => !branch.some(refusesCurve));
    if (named !== undefined && fitting.length === 0) return [choiceFault([...place, 'curve'], named, curve)];
    if (fitting.length > 0) return lightest(fitting).flatMap((one) => faultsOf(one, place, file));
  }
  if (choices.length > 0 && choices.every((one) => one.path.length === 0)) {
    const others = issue.errors.flat().filter((one) => one.code !== 'invalid_value');
    if (typeof value !== 'number' || others.length === 0) {
      return [
        choiceFault(place, value, [
          ...choices.flatMap((one) => one.values.map(String)),
          ...(others.length > 0 ? ['a number from 1 to 99.9'] : []),
        ]),
      ];
    }
  }
  const best = lightest(issue.errors);
  if (best.every((one) => one.path.length === 0 && one.code === 'invalid_type')) {
    return [typeFault(best[0]?.code === 'invalid_type' ? best[0].expected : 'number', place, value)];
  }
  return best.flatMap((one) => faultsOf(one, place, file));
}

const timeFault = (place: Place, value: unknown): Fault =>
  faultAt(
    place,
    show(value),
    'minutes as a number (0 or more), { quick, usual, slow }, { mean, cv }, or a named curve',
    value === undefined
      ? `add "${String(place.at(-1))}", for example 12.5`
      : typeof value === 'string' && Number.isFinite(Number.parseFloat(value))
        ? `write ${Number.parseFloat(value)} without quotes`
        : 'write the minutes, for example 12.5',
  );

function choiceFault(place: Place, value: unknown, choices: string[]): Fault {
  if (place.length === 1 && place[0] === 'format') return formatNumber(value);
  const near = typeof value === 'string' ? nearest(value, choices) : null;
  const first = choices.find((choice) => !choice.startsWith('a number')) ?? '';
  const written = choices.map((choice) => (/^\d|^a number/.test(choice) ? choice : `"${choice}"`));
  return faultAt(
    place,
    show(value),
    listed(written),
    near === null
      ? `write ${/^\d/.test(first) ? first : `"${first}"`} or another of these`
      : `did you mean "${near}"?`,
  );
}

const formatNumber = (value: unknown): Fault =>
  faultAt(
    ['format'],
    show(value),
    'the format number 1',
    value === undefined
      ? 'add "format": 1'
      : 'write "format": 1, or open the file with the version that wrote it',
  );

const TYPE_WORDS: Record<string, [allowed: string, remedy: string]> = {
  number: ['a number', 'write a number, for example 12.5'],
  int: ['a whole number', 'round it to a whole number'],
  string: ['text in double quotes', 'put it in double quotes'],
  boolean: ['true or false', 'write true or false, without quotes'],
  array: ['a list in [ ]', 'put it in [ ]'],
  object: ['a group in { }', 'write its entries in { }'],
  record: ['a group in { }, one entry a name', 'write its entries in { }, each under its name'],
};

function typeFault(expected: string, place: Place, value: unknown): Fault {
  const [allowed, remedy] = TYPE_WORDS[expected] ?? [expected, 'correct it'];
  if (place.length === 1 && place[0] === 'format') return formatNumber(value);
  if (value === undefined)
    return faultAt(
      place,
      'nothing',
      `${allowed} (it has to be there)`,
      `add "${String(place.at(-1) ?? '')}"`,
    );
  const number = typeof value === 'string' ? Number.parseFloat(value) : Number.NaN;
  const quoted = (expected === 'number' || expected === 'int') && Number.isFinite(number);
  return faultAt(place, show(value), allowed, quoted ? `write ${number} without quotes` : remedy);
}

function sizeFault(
  issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig,
  place: Place,
  value: unknown,
): Fault {
  const [limit, least] =
    issue.code === 'too_small' ? [Number(issue.minimum), true] : [Number(issue.maximum), false];
  const bound = limit.toLocaleString('en-US');
  if (issue.origin === 'string') {
    return faultAt(
      place,
      `text of ${String(value).length} letters`,
      `${least ? 'at least' : 'at most'} ${bound} letters`,
      least ? 'write something' : 'shorten it',
    );
  }
  if (issue.origin === 'array') {
    const length = Array.isArray(value) ? value.length : 0;
    return faultAt(
      place,
      `a list of ${length}`,
      `${'exact' in issue && issue.exact ? 'exactly' : least ? 'at least' : 'at most'} ${bound} entries`,
      length < limit ? 'add what is missing' : 'take some away',
    );
  }
  const words = least ? (issue.inclusive ? `${bound} or more` : `more than ${bound}`) : `${bound} or less`;
  const minus = least && typeof value === 'number' && value < 0 && -value > limit;
  return faultAt(
    place,
    show(value),
    words,
    minus ? `take the minus sign away, if ${-value} was meant` : `write a number of ${words}`,
  );
}

function formatFault(place: Place, value: unknown, message: string): Fault {
  const text = String(value);
  if (!message.startsWith('write a clock time'))
    return faultAt(place, show(value), NAME_WORDS, nameRemedy(text));
  const clock = /^(\d{1,2})[:.h]?(\d{2})?$/.exec(text);
  const hours = Number(clock?.[1]);
  const fixed =
    clock !== null && hours < 24 && Number(clock[2] ?? 0) < 60
      ? `${String(hours).padStart(2, '0')}:${clock[2] ?? '00'}`
      : null;
  return faultAt(
    place,
    show(value),
    'a clock time "HH:MM" from "00:00" to "23:59"',
    `write ${fixed === null ? 'it as "HH:MM", for example "06:00"' : `"${fixed}"`}`,
  );
}

/**
 * A grid in words: two things to vary, each a what-if with several values ("clamp=1..4",
 * "person:sand+bench=0..2", "cure=20,30,45"), and the fields they make.
 */
import { curveOf } from '../duration/time.ts';
import { applyChanges, shiftsOf } from '../scenario/options.ts';
import { checkScenario } from '../scenario/check.ts';
import { listed, nearest } from '../scenario/reading/fault.ts';
import { resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { spreadsheetNumber } from '../study/ceilings/spreadsheet.ts';
import { promiseShare, settingsOf } from '../study/from-scenario.ts';
import type { GridField, GridQuestion } from '../study/grid.ts';
import { counted, plural } from '../words/words.ts';
import { parted, plainNumber, shown } from './figures.ts';
import { cellOf, makeTogether, type Typed } from './make.ts';
import { anyStepOf, gearNamed, gearOf, postOf, waitsOf } from './names.ts';
import { postsOf, postWords } from './posts.ts';
import { NotSo, type Cell } from './what-if.ts';

export interface Axis {
  /** As it was typed. */
  typed: string;
  /** "clamp sets", "more people at sand, with a bench each". */
  name: string;
  values: number[];
  /** What each value is called: "3 clamp sets", "nobody more at sand". */
  told: string[];
  /** What each value is, as a what-if; null: things as they are. */
  made: (Typed | null)[];
  /** Values that the file does not take, and why. */
  left: { told: string; why: string }[];
}

const MOST_VALUES = 12;
export const MOST_FIELDS = 64;

interface Kind {
  word: string;
  /** How it is written, in front of "=". */
  takes: string;
  /** @throws NotSo */
  axis(cell: Cell, thing: string): Told;
}

interface Told {
  name: string;
  given: (value: number) => string | null;
  told: (value: number) => string;
}

const KINDS: Kind[] = [
  {
    word: 'gear',
    takes: 'a gear by its name',
    axis: (cell, thing) => {
      const gear = gearNamed(cell, thing);
      return {
        name: plural(gear.name),
        given: (value) => `${gear.id}=${value}`,
        told: (value) => counted(value, gear.name),
      };
    },
  },
  {
    word: 'person',
    takes: 'person:POST or person:POST+bench (so many more)',
    axis: (cell, thing) => {
      const bench = thing.endsWith('+bench');
      const post = bench ? thing.slice(0, -'+bench'.length) : thing;
      const where = postWords(cell, postsOf(cell, post));
      return {
        name: `more people at ${where}${bench ? ', a bench each' : ''}`,
        given: (value) => (value === 0 ? null : `${post}:${value}${bench ? '+bench' : ''}`),
        told: (value) => moreAt(value, where, bench),
      };
    },
  },
  {
    word: 'cure',
    takes: 'cure or cure:WAIT (minutes)',
    axis: (cell, thing) => {
      const waits = waitsOf(cell);
      const wait = thing === '' ? waits[0] : waits.find(({ id }) => id === anyStepOf(cell, thing).id);
      if (wait === undefined) throw new NotSo('the file has no such wait');
      return {
        name: `minutes of ${wait.name}`,
        given: (value) => `${wait.id}=${value}`,
        told: (value) => `${wait.name} ${shown(value)} min`,
      };
    },
  },
  {
    word: 'time',
    takes: 'time:POST (minutes)',
    axis: (cell, thing) => {
      const post = postOf(cell, thing);
      return {
        name: `minutes at ${post.name}`,
        given: (value) => `${post.id}=${value}`,
        told: (value) => `${post.name} ${shown(value)} min`,
      };
    },
  },
  {
    word: 'rack',
    takes: 'rack:STEP (slots)',
    axis: (cell, thing) => {
      const step = anyStepOf(cell, thing);
      return {
        name: `slots before ${step.name}`,
        given: (value) => `${step.id}=${value}`,
        told: (value) => `${counted(value, 'slot')} before ${step.name}`,
      };
    },
  },
  {
    word: 'bench',
    takes: 'bench:POST (benches)',
    axis: (cell, thing) => {
      const post = postOf(cell, thing);
      return {
        name: `benches at ${post.name}`,
        given: (value) => `${post.id}=${value}`,
        told: (value) => `${counted(value, 'bench')} at ${post.name}`,
      };
    },
  },
  {
    word: 'overtime',
    takes: 'overtime (minutes)',
    axis: () => ({
      name: 'overtime',
      given: (value) => String(value),
      told: (value) => (value === 0 ? 'no overtime' : `up to ${shown(value)} min of overtime`),
    }),
  },
];

function moreAt(value: number, where: string, bench: boolean): string {
  if (value === 0) return `nobody more at ${where}`;
  const benches = bench ? (value === 1 ? ' with a bench' : ' with a bench each') : '';
  return `${shown(value)} more ${value === 1 ? 'person' : 'people'} at ${where}${benches}`;
}

export const AXIS_TAKES = `THING=FROM..TO, THING=FROM..TO/STEP or THING=VALUE,VALUE; THING is ${listed(
  KINDS.map(({ takes }) => takes),
  'or',
)}`;

/** Says what was typed, what is wrong with it, and how it is written. */
export class AxisWrong extends Error {
  override name = 'AxisWrong';
}

/** @throws AxisWrong */
export function axisOf(scenario: Scenario, typed: string): Axis {
  const cell = cellOf(scenario);
  try {
    const [thing, list] = parted(typed, '=');
    if (thing === null) throw new NotSo('it has no “=”');
    const [word, of] = thing.includes(':') ? (parted(thing, ':') as [string, string]) : [thing, ''];
    const kind = KINDS.find((one) => one.word === word) ?? KINDS[0]!;
    const short = kind.word === 'gear' && word !== 'gear';
    const { name, given, told } = kind.axis(cell, short ? thing : of);
    const values = valuesOf(list);
    const whatIf = kind.word === 'gear' ? 'gear-count' : kind.word;
    const all = values.map((value) => {
      const text = given(value);
      const made = text === null ? null : { word: whatIf, given: text };
      return { value, told: told(value), made, why: whyNot(scenario, made) };
    });
    const fine = all.filter(({ why }) => why === null);
    if (fine.length === 0) throw new NotSo(`the file takes none of these: ${all[0]!.why!}`);
    return {
      typed,
      name,
      values: fine.map(({ value }) => value),
      told: fine.map((one) => one.told),
      made: fine.map(({ made }) => made),
      left: all.flatMap((one) => (one.why === null ? [] : [{ told: one.told, why: one.why }])),
    };
  } catch (error) {
    if (!(error instanceof NotSo)) throw error;
    const words = [...KINDS.map(({ word }) => word), ...gearOf(cell).map(({ id }) => id)];
    const near = error.near ?? nearest(parted(typed, '=')[0]?.split(':')[0] ?? typed, words);
    throw new AxisWrong(
      `What varies is written ${AXIS_TAKES}; such as clamp=1..4; found “${typed}”: ${error.message}.${near === null || typed.startsWith(near) ? '' : ` Did you mean “${near}”?`}`,
    );
  }
}

/** Why the file does not take a value; null where it does. */
function whyNot(scenario: Scenario, made: Typed | null): string | null {
  if (made === null) return null;
  const reading = checkScenario(applyChanges(scenario, makeTogether(scenario, [made]).changes));
  if (reading.kind === 'fine') return null;
  const [{ found, allowed }] = reading.faults as [(typeof reading.faults)[number]];
  return `${found}; allowed: ${allowed}`;
}

/** "1..4", "0..60/15", "1,2,4". */
function valuesOf(text: string): number[] {
  const [, from, to, by] = /^(\d+(?:\.\d+)?)\.\.(\d+(?:\.\d+)?)(?:\/(\d+(?:\.\d+)?))?$/.exec(text) ?? [];
  const values =
    from === undefined
      ? text.split(',').map((one) => plainNumber(one, 0, 100_000))
      : stepped(Number(from), Number(to), by === undefined ? 1 : Number(by));
  const apart = [...new Set(values)];
  if (apart.length > MOST_VALUES) throw new NotSo(`that is more than ${MOST_VALUES} values`);
  return apart;
}

function stepped(from: number, to: number, by: number): number[] {
  if (by <= 0 || to < from)
    throw new NotSo(`${shown(from)} to ${shown(to)} in steps of ${shown(by)} is no row of values`);
  const count = Math.floor((to - from) / by + 1e-9) + 1;
  if (count > MOST_VALUES) throw new NotSo(`that is more than ${MOST_VALUES} values`);
  return Array.from({ length: count }, (_, at) => Math.round((from + at * by) * 1e6) / 1e6);
}

/** Where nothing is said: the gear that is taken along, and more people where averages bind first. */
export function usualAxes(scenario: Scenario): { across: string; down: string } {
  const { shift } = cellOf(scenario);
  const taken = shift.steps.flatMap((step) => step.takes)[0]?.gear;
  const gear = shift.gear.find(({ id, kind }) => kind === 'gear' && id === taken);
  const posts = shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside);
  const lines = spreadsheetNumber(shift).lines.filter(({ kind }) => kind === 'step');
  const post = posts.find(({ id }) => id === lines[0]?.id) ?? posts[0];
  const down =
    post === undefined ? 'overtime=0..60/15' : `person:${post.id}${post.benches > 0 ? '+bench' : ''}=0..2`;
  return {
    across:
      gear === undefined
        ? 'overtime=0..60/15'
        : `${gear.id}=${Math.max(1, gear.count - 1)}..${gear.count + 2}`,
    down,
  };
}

/** What can be varied on a page: a few values of it, and more of them. */
export interface AxisOffer {
  name: string;
  /** As it is typed, with few values; what was chosen goes by it. */
  typed: string;
  /** The same with six values. */
  wide: string;
}

/** What can be varied on a page, the usual two among them. */
export function axesOffered(scenario: Scenario): AxisOffer[] {
  const cell = cellOf(scenario);
  const { shift } = cell;
  const posts = shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside);
  const each = (thing: string, few: string, six: string): [string, string] => [
    `${thing}=${few}`,
    `${thing}=${six}`,
  ];
  const usual = usualAxes(scenario);
  const offers = [
    ...gearOf(cell).map(({ id, count }) => {
      const from = Math.max(1, count - 1);
      return each(id, `${from}..${count + 2}`, `${from}..${from + 5}`);
    }),
    ...posts.map(({ id }) => each(`person:${id}`, '0..2', '0..5')),
    ...posts.filter(({ benches }) => benches > 0).map(({ id }) => each(`person:${id}+bench`, '0..2', '0..5')),
    ...waitsOf(cell).flatMap(({ id, time }) => {
      const usually = Math.round(curveOf(time).typical(time));
      const upTo = (last: number): string => `${usually - 10}..${usually + last}/10`;
      return usually <= 10 ? [] : [each(`cure:${id}`, upTo(20), upTo(40))];
    }),
    ...shift.steps.flatMap(({ id, rack }) =>
      rack === null ? [] : [each(`rack:${id}`, `${rack}..${rack + 4}/2`, `${rack}..${rack + 10}/2`)],
    ),
    each('overtime', '0..60/15', '0..75/15'),
  ];
  const first = offers.filter(([few]) => few === usual.across || few === usual.down);
  const rest = offers.filter((one) => !first.includes(one));
  return [...first, ...rest].map(([typed, wide]) => ({ typed, wide, name: axisName(scenario, typed) }));
}

function axisName(scenario: Scenario, typed: string): string {
  const [thing] = parted(typed);
  const [word, of] = thing!.includes(':') ? (parted(thing!, ':') as [string, string]) : [thing!, ''];
  const kind = KINDS.find((one) => one.word === word) ?? KINDS[0]!;
  return kind.axis(cellOf(scenario), kind.word === word ? of : thing!).name;
}

/**
 * The grid's question. @throws AxisWrong where there are too many fields, or the file does not take one.
 * @param count shifts of each field
 */
export function gridOf(scenario: Scenario, down: Axis, across: Axis, count: number): GridQuestion {
  if (down.values.length * across.values.length > MOST_FIELDS)
    throw new AxisWrong(
      `${down.values.length} times ${across.values.length} fields are more than the ${MOST_FIELDS} that are played; take fewer values.`,
    );
  const { options: _options, ...base } = scenario;
  const fields = down.made.flatMap((row) => across.made.map((column) => fieldOf(base, [row, column])));
  return {
    fields,
    columns: across.values.length,
    money: resolvePlant(scenario).money,
    promise: promiseShare(scenario),
    count,
    settings: settingsOf(scenario),
  };
}

function fieldOf(scenario: Scenario, typed: (Typed | null)[]): GridField {
  const made = makeTogether(
    scenario,
    typed.filter((one) => one !== null),
  );
  const reading = checkScenario(applyChanges(scenario, made.changes));
  if (reading.kind === 'wrong')
    throw new AxisWrong(`With ${made.label} the file cannot be run: ${reading.faults[0]!.text}`);
  return { shifts: shiftsOf(reading.scenario), price: made.price ?? 0 };
}

/** A field as a choice: what its row and column come to; null where that is things as they are. */
export function choiceOf(down: Axis, across: Axis, row: number, column: number): Typed[] {
  return [down.made[row] ?? null, across.made[column] ?? null].filter((one) => one !== null);
}

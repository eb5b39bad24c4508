/** Which column holds what: a first guess from the column names and the rows, for people to correct. */
import type { Scenario } from '../scenario/schema.ts';
import { momentOf, orderTold, type DateOrder } from './clock-text.ts';
import { roleOf, unitOf, type Role } from './header-words.ts';
import { decimalOf, isColonPair, minutesOf, type ColonStyle, type MinutesUnit } from './minutes-text.ts';
import { idOf, namedOf, type Named } from './names.ts';
import type { Table } from './table.ts';

export interface Mapping {
  /** Column of each thing, from 0. */
  columns: Partial<Record<Role, number>>;
  /**
   * Where every step has a column of its own with its minutes: column by step id. Used when no column is the
   * step.
   */
  stepColumns: Record<string, number>;
  /** The step all rows are about, where no column tells it. */
  onlyStep: string | null;
  /** What bare numbers count. */
  unit: MinutesUnit;
  /** What "1:05" means as a length of time; null: minutes and seconds, and say so where it is open. */
  colon: ColonStyle | null;
  /** Order of day and month; null: told by the data, and said where the data leave it open. */
  dateOrder: DateOrder | null;
  /** Written names and the ids they stand for, where they differ. */
  steps: Record<string, string>;
  products: Record<string, string>;
  people: Record<string, string>;
}

export type NamesOf = Pick<Scenario, 'steps' | 'products' | 'people'>;

const SAMPLE = 500;

/** The first texts of a column that are not blank. */
function sampleOf(table: Table, column: number): string[] {
  return (table.columns[column]?.texts ?? []).filter((text) => text !== '').slice(0, SAMPLE);
}

/** Guesses the mapping of a table for a scenario. Every field may be corrected afterwards. */
export function guessMapping(table: Table, scenario: NamesOf): Mapping {
  const steps = namedOf(scenario.steps);
  const columns: Mapping['columns'] = {};
  const free = new Set(table.header.keys());
  const take = (role: Role, column: number | undefined): void => {
    if (column === undefined || columns[role] !== undefined || !free.has(column)) return;
    columns[role] = column;
    free.delete(column);
  };
  const stepColumns = stepColumnsOf(table, steps);
  if (Object.keys(stepColumns).length >= 2)
    for (const column of Object.values(stepColumns)) free.delete(column);
  if (table.hasHeader) takeByName(table, free, take);
  takeByContent(table, scenario, steps, columns, free, take);
  const wide = columns.step === undefined && Object.keys(stepColumns).length >= 2;
  const unitColumn = columns.minutes === undefined ? '' : table.header[columns.minutes]!;
  return {
    columns,
    stepColumns: wide ? stepColumns : {},
    onlyStep:
      columns.step === undefined && !wide
        ? steps.length === 1
          ? steps[0]!.id
          : stepInTitle(table, steps)
        : null,
    unit: unitOf(unitColumn) ?? 'minutes',
    colon: null,
    dateOrder: null,
    steps: {},
    products: {},
    people: {},
  };
}

/**
 * Names that are a whole word for a role go before names that only contain one; the first column of a role
 * wins.
 */
function takeByName(table: Table, free: Set<number>, take: (role: Role, column: number) => void): void {
  const roles = table.header.map(roleOf);
  const words = (column: number): number => table.header[column]!.split(/\s+/).length;
  const order = [...free].sort((a, b) => words(a) - words(b) || a - b);
  for (const column of order) {
    const role = roles[column];
    if (role != null && contentAllows(role, sampleOf(table, column))) take(role, column);
  }
}

/**
 * A name is not believed where what stands below it cannot be meant: a "Time" of clock times with a.m., an
 * "in" of words.
 */
function contentAllows(role: Role, texts: string[]): boolean {
  if (texts.length === 0) return true;
  const share = (test: (text: string) => boolean): number => texts.filter(test).length / texts.length;
  const timeOfDayOnly = (text: string): boolean =>
    momentOf(text, 'day first').ok && !minutesOf(text, 'minutes', 'mm:ss').ok;
  if (role === 'minutes') return share(timeOfDayOnly) < 0.5;
  if (role === 'start' || role === 'end' || role === 'date') return share((text) => /\d/.test(text)) > 0.3;
  if (role === 'rating') return share((text) => !Number.isNaN(decimalOf(text.replace('%', '')))) > 0.3;
  return true;
}

/** What the names left open, by what stands in the columns. */
function takeByContent(
  table: Table,
  scenario: NamesOf,
  steps: Named[],
  columns: Mapping['columns'],
  free: Set<number>,
  take: (role: Role, column: number | undefined) => void,
): void {
  const knownShare =
    (known: Named[]) =>
    (column: number): boolean => {
      const texts = sampleOf(table, column);
      return (
        texts.length > 0 && texts.filter((text) => idOf(text, known) !== null).length / texts.length >= 0.5
      );
    };
  const find = (test: (column: number) => boolean): number | undefined => [...free].find(test);
  if (columns.step === undefined) take('step', find(knownShare(steps)));
  if (columns.product === undefined) take('product', find(knownShare(namedOf(scenario.products))));
  if (columns.person === undefined) take('person', find(knownShare(namedOf(scenario.people))));
  if (columns.date === undefined)
    take(
      'date',
      find((column) => every(sampleOf(table, column), isDateOnly)),
    );
  if (columns.minutes === undefined && columns.start === undefined && columns.end === undefined) {
    const clocks = [...free].filter((column) => every(sampleOf(table, column), isClockLike));
    if (clocks.length >= 2) {
      take('start', clocks[0]);
      take('end', clocks[1]);
    } else {
      take(
        'minutes',
        find((column) => every(sampleOf(table, column), (text) => minutesOf(text, 'minutes', 'mm:ss').ok)),
      );
    }
  }
}

/** Most of the texts pass (a few cells of any list are spoilt). */
function every(texts: string[], test: (text: string) => boolean): boolean {
  return texts.length > 0 && texts.filter(test).length / texts.length >= 0.7;
}

const isDateOnly = (text: string): boolean =>
  /^\d{4}-\d{1,2}-\d{1,2}$/.test(text) ||
  /^\d{1,2}([./-])\d{1,2}\1(\d{4}|\d{2})$/.test(text) ||
  orderTold(text) !== null;
const isClockLike = (text: string): boolean => /\d{1,2}:\d{2}/.test(text) || isColonPair(text);

/** Columns named after steps. */
function stepColumnsOf(table: Table, steps: Named[]): Record<string, number> {
  const found: Record<string, number> = {};
  if (!table.hasHeader) return found;
  for (const [column, name] of table.header.entries()) {
    const id = idOf(name.replace(/[([{].*?[)\]}]/g, ' '), steps);
    if (id !== null && found[id] === undefined) found[id] = column;
  }
  return found;
}

/** A title above the header that names one step ("Stopwatch study: sand"). */
function stepInTitle(table: Table, steps: Named[]): string | null {
  const named = steps.filter((step) =>
    table.above.some(
      (title) =>
        title.text.split(/[\s:,;–-]+/).some((word) => idOf(word, [step]) !== null) ||
        idOf(title.text, [step]) !== null,
    ),
  );
  return named.length === 1 ? named[0]!.id : null;
}

/**
 * The ways of reckoning side by side: by the cure alone, a spreadsheet of averages, the ceiling, and what the
 * shifts made.
 */
import type { ResolvedShift } from '../scenario/resolve.ts';
import { fluidCeiling } from '../study/ceilings/fluid-ceiling.ts';
import { naiveNumber, spreadsheetNumber } from '../study/ceilings/spreadsheet.ts';
import type { Block } from '../document/document.ts';
import { capitalized, fixed, plural } from '../words/words.ts';

export interface Way {
  /** "a spreadsheet of averages". */
  name: string;
  /** Good units a shift, one of each shift reckoned; infinite where nothing limits it. */
  units: number[];
  /** What limits it in the first of them, "clamp sets" or "“fit”"; empty where nothing is named. */
  limit: string;
}

/** The last of the ways: not reckoned but run. */
export const MADE = 'what the shifts made, on average';
export const PRICE_OF_WAITING = 'What lies between the last two lines is the price of waiting and variation.';

/**
 * Every way of reckoning the shifts given, the crudest first. By the cure alone only where something is tied
 * up by a cure.
 */
export function waysOf(shifts: ResolvedShift[]): Way[] {
  const naive = shifts.map(naiveNumber);
  const sheets = shifts.map(spreadsheetNumber);
  const tied = naive.find((one) => one !== null);
  const gear = tied === undefined || tied === null ? '' : gearName(shifts[0]!, tied.id);
  const [first] = sheets[0]!.lines;
  return [
    ...(gear === ''
      ? []
      : [{ name: `${gear} by the cure alone`, units: naive.map((one) => one?.units ?? NaN), limit: gear }]),
    {
      name: 'a spreadsheet of averages',
      units: sheets.map(({ units }) => units),
      limit: first === undefined ? '' : limitName(shifts[0]!, first),
    },
    {
      name: 'the most this crew and gear could make, nobody ever waiting',
      units: shifts.map((shift) => fluidCeiling(shift).good),
      limit: '',
    },
  ];
}

const gearName = (shift: ResolvedShift, id: string): string =>
  plural(shift.gear.find((one) => one.id === id)?.name ?? id);

const limitName = (shift: ResolvedShift, { kind, id }: { kind: 'step' | 'gear'; id: string }): string =>
  kind === 'gear' ? gearName(shift, id) : `“${shift.steps.find((one) => one.id === id)?.name ?? id}”`;

export interface Reckoned {
  label: string;
  shift: ResolvedShift;
  /** Good units the shifts made, on average. */
  made: number;
}

/** The ways as a table, a column for each shift reckoned, and what the spreadsheet names as the limit. */
export function waysBlocks(reckoned: Reckoned[]): Block[] {
  const ways = [
    ...waysOf(reckoned.map(({ shift }) => shift)),
    { name: MADE, units: reckoned.map(({ made }) => made), limit: '' },
  ];
  const { limit } = ways.at(-3)!;
  return [
    {
      kind: 'table',
      caption: 'Where averages mislead: good units a shift by each way of reckoning.',
      head: ['', ...reckoned.map(({ label }) => label)],
      align: ['left', ...reckoned.map(() => 'right' as const)],
      rows: ways.map(({ name, units }) => [
        capitalized(name),
        ...units.map((value) => (Number.isFinite(value) ? fixed(value, 1) : '-')),
      ]),
    },
    ...(limit === ''
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text: `The spreadsheet names ${limit} as the limit. ${PRICE_OF_WAITING}`,
          },
        ]),
  ];
}

/** Where the minutes of people and gear went by reason: a table, the same in every place that tells it. */
import type { Block } from '../../document/document.ts';
import type { Cause } from '../../record/why/causes.ts';
import type { ReasonPart, ReasonSums } from '../../record/why/sums.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { reasonWords } from '../../words/causes.ts';
import { gearStateWords, personStateWords } from '../../words/states.ts';
import { counted, fixed, percent, plural } from '../../words/words.ts';

/** One line of the sums in words. */
export interface ReasonLine {
  /** "free", "waiting for hands: unclamp is next", "fit". */
  doing: string;
  /** What was missing, and what kept that; empty at work and the like. */
  why: string;
  behind: string;
  minutes: number;
  first: Cause | null;
  last: Cause | null;
}

export interface ReasonLines {
  kind: 'person' | 'gear';
  id: string;
  name: string;
  /** Pieces of gear that are added up; 1 for a person. */
  count: number;
  lines: ReasonLine[];
}

/** Everything that is summed, benches of a step left out unless `benches`. Minutes add up exactly. */
export function reasonLines(
  shift: ResolvedShift,
  { people, gear }: ReasonSums,
  benches = false,
): ReasonLines[] {
  return [
    ...shift.gear.flatMap(({ id, name, kind, count }, index): ReasonLines[] =>
      kind === 'bench' && !benches
        ? []
        : [
            {
              kind: 'gear',
              id,
              name: count === 1 ? name : `${plural(name)} (${count} of them)`,
              count,
              lines: gear[index]!.map((part) =>
                lineOf(part, gearStateWords(part.state, index, shift).words, shift),
              ),
            },
          ],
    ),
    ...shift.people.map(({ id, name }, index): ReasonLines => ({
      kind: 'person',
      id,
      name,
      count: 1,
      lines: people[index]!.map((part) => lineOf(part, personStateWords(part.state, shift).words, shift)),
    })),
  ];
}

function lineOf({ first, behind, minutes }: ReasonPart, doing: string, shift: ResolvedShift): ReasonLine {
  const why = first === null ? '' : reasonWords(first, shift);
  const last = behind === null ? '' : reasonWords(behind, shift);
  return { doing, why, behind: last === why ? '' : last, minutes, first, last: behind };
}

/** As data: the minutes of each shift of the day by reason, benches too. */
export const minutesJson = (shifts: readonly ResolvedShift[], sums: readonly ReasonSums[]): unknown[] =>
  sums.map((one, i) => ({
    shifts: one.count,
    length: one.minutes,
    of: reasonLines(shifts[i]!, one, true),
  }));

/** Reasons named one by one; what is less is added up. */
const MOST_REASONS = 6;
const LEAST_MINUTES = 1;

/** A table each for gear and people: minutes without work, by reason, the most first. */
export function reasonTables(shift: ResolvedShift, sums: ReasonSums): Block[] {
  const lines = reasonLines(shift, sums);
  const table = (kind: ReasonLines['kind'], caption: string): Block[] => {
    const rows = lines.filter((one) => one.kind === kind).flatMap((one) => rowsOf(one, sums.minutes));
    return rows.length === 0
      ? []
      : [{ kind: 'table', caption, head: ['', 'Doing', 'Why', 'Minutes', 'Share'], rows, align: ALIGN }];
  };
  const over = `Means of ${counted(sums.count, 'shift')}; the minutes of each add up to the whole shift.`;
  return [
    ...table('gear', `Where the minutes of the gear went, by reason. ${over}`),
    ...table('person', `Where the minutes of the people went, by reason. ${over}`),
  ];
}

const ALIGN: ('left' | 'right')[] = ['left', 'left', 'left', 'right', 'right'];

function rowsOf({ name, count, lines }: ReasonLines, shiftMinutes: number): string[][] {
  const whole = shiftMinutes * count;
  const row = (doing: string, why: string, minutes: number): string[] => [
    '',
    doing,
    why,
    fixed(minutes, 1),
    percent(minutes / whole),
  ];
  const reasoned = lines.filter(({ first }) => first !== null);
  const shown = reasoned.filter(({ minutes }, i) => i < MOST_REASONS && minutes >= LEAST_MINUTES);
  const rest = reasoned
    .filter((line) => !shown.includes(line))
    .reduce((sum, { minutes }) => sum + minutes, 0);
  const rows = [
    ...lines
      .filter(({ first, minutes }) => first === null && minutes >= 0.05)
      .map(({ doing, minutes }) => row(doing, '', minutes)),
    ...shown.map(({ doing, why, behind, minutes }) =>
      row(doing, behind === '' ? why : `${why}; ${behind}`, minutes),
    ),
    ...(rest >= 0.05 ? [row('other reasons', '', rest)] : []),
  ];
  return rows.map((cells, i) => (i === 0 ? [name, ...cells.slice(1)] : cells));
}

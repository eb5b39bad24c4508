/** What overtime is made of, person by person: finishing what is in hand, and what was planned. */
import type { Block } from '../../document/document.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import type { ResolvedPerson, ResolvedShift } from '../../scenario/resolve.ts';
import type { LevelRange } from '../../study/level-range.ts';
import type { ShiftSummary } from '../../study/shift-summary.ts';
import { fixed } from '../../words/words.ts';

/** People under this are left out: half a minute a shift. */
const WORTH_SHOWING = 0.5;
const minutes = (value: number): string => fixed(value, value > 0 && value < 9.95 ? 1 : 0);

/** When somebody is home who stays so many minutes after their own end. */
export const homeAt = (start: string, to: number, late: number): string =>
  clockOfMinutes(minutesOfClock(start) + to + Math.round(late));

/** "15:52 (15:48 to 15:57)". */
export function homeBetween(start: string, to: number, late: number, { low, high }: LevelRange): string {
  const at = (minutes: number): string => homeAt(start, to, minutes);
  const [least, most] = [Math.max(0, Math.floor(low + 1e-9)), Math.ceil(high - 1e-9)];
  return !Number.isFinite(high - low) || at(least) === at(most)
    ? at(late)
    : `${at(late)} (${at(least)} to ${at(most)})`;
}

export const OVERTIME_SAYS =
  'Finishing: with the piece in hand at their own end. Planned: kept on for more, tidying up in. A cap ends what is begun, so the last piece and tidying up may run over it: the last column says how late that gets.';

/** Nothing where hardly anybody stays. */
export function overtimeTables(shift: ShiftSummary, resolved: ResolvedShift): Block[] {
  const { until, cap, who } = resolved.overtime;
  const asked = (person: ResolvedPerson): boolean =>
    until !== 'none' && cap > 0 && person.overtime && (who?.includes(person.id) ?? true);
  const anybody = resolved.people.some((person) => asked(person) && person.chance > 0);
  const rows = shift.people.flatMap((one, at): string[][] => {
    const person = resolved.people[at]!;
    const all = one.overtimeMinutes.estimate;
    if (all < WORTH_SHOWING) return [];
    const capped = asked(person) ? homeAt(resolved.start, person.to, cap) : '-';
    return [
      [
        person.name,
        minutes(one.finishing),
        minutes(Math.max(0, all - one.finishing)),
        ...(anybody ? [capped] : []),
        homeBetween(resolved.start, person.to, one.staysOneInTen, one.staysBetween),
      ],
    ];
  });
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: `Overtime of each, minutes a shift. ${OVERTIME_SAYS}`,
      head: ['Person', 'Finishing', 'Planned', ...(anybody ? ['At most until'] : []), '1 in 10 home after'],
      rows,
      align: ['left', 'right', 'right', ...(anybody ? ['right' as const] : []), 'right'],
    },
  ];
}

/**
 * What the file says of single pieces that a record of events does not repeat: when each is due, and which go
 * first.
 */
import { clockAfter } from '../scenario/clock.ts';
import { resolve, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';

/** Minutes. */
const DAY = 1440;

export type Told = Pick<CarryOver, 'due' | 'dueIn' | 'rush'> & {
  /** Of a piece of the opening stock: where it has stood for so many minutes at the start. */
  stood?: { at: string; minutes: number };
};

/**
 * By the name a record gives a piece: its own, of several alike with a number, otherwise its number in order
 * of arrival, carry-over first.
 */
export function toldOfUnits(scenario: Scenario): Map<string, Told> {
  const { start, intake, carryOver } = resolve(scenario);
  const arrivals = intake.kind === 'list' ? intake.arrivals : [];
  const inOrder = [...carryOver, ...[...arrivals].sort((a, b) => a.at - b.at)];
  const all = inOrder.flatMap((one) =>
    Array.from({ length: one.units }, (_, i) => ({
      one,
      base: one.name === null ? null : one.units === 1 ? one.name : `${one.name} ${i + 1}`,
    })),
  );
  const alike = new Map<string, number>();
  const met = new Map<string, number>();
  for (const { base } of all) if (base !== null) alike.set(base, (alike.get(base) ?? 0) + 1);
  return new Map(
    all.map(({ one, base }, i) => {
      const told: Told = {
        ...dueOf(one.due, start),
        ...(one.rush ? { rush: true } : {}),
        ...('waited' in one && one.waited > 0 ? { stood: { at: one.at, minutes: one.waited } } : {}),
      };
      if (base === null) return [String(i + 1), told];
      met.set(base, (met.get(base) ?? 0) + 1);
      return [alike.get(base) === 1 ? base : `${base} ${met.get(base)!}`, told];
    }),
  );
}

/** Of a piece that the file does not list, `at` minutes after the start: due as all are. */
export const toldOfArrival = ({ intake: { dueAfter }, start }: ResolvedShift, at: number): Told =>
  dueAfter === null ? {} : dueOf(at + dueAfter, start);

/** By the clock where that says it, otherwise by minutes from the start. */
function dueOf(due: number | null, start: string): Told {
  if (due === null) return {};
  return due >= 0 && due < DAY && Number.isInteger(due) ? { due: clockAfter(start, due) } : { dueIn: due };
}

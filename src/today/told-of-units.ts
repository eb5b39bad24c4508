/**
 * What the file says of single pieces that a record of events does not repeat: when each is due, and which go
 * first.
 */
import { minutesAfter } from '../scenario/clock.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';

export type Told = Pick<CarryOver, 'due' | 'rush'>;

/**
 * By the name a record gives a piece: its own, of several alike with a number, otherwise its number in order
 * of arrival, carry-over first.
 */
export function toldOfUnits(scenario: Scenario): Map<string, Told> {
  const start = scenario.shift?.start ?? '06:00';
  const arrivals = scenario.intake?.kind === 'list' ? scenario.intake.arrivals : [];
  const inOrder = [
    ...(scenario.carryOver ?? []),
    ...arrivals.toSorted((a, b) => minutesAfter(start, a.at) - minutesAfter(start, b.at)),
  ];
  const all = inOrder.flatMap((one) =>
    Array.from({ length: one.units ?? 1 }, (_, i) => ({
      one,
      base: one.name === undefined ? null : (one.units ?? 1) === 1 ? one.name : `${one.name} ${i + 1}`,
    })),
  );
  const alike = new Map<string, number>();
  const met = new Map<string, number>();
  for (const { base } of all) if (base !== null) alike.set(base, (alike.get(base) ?? 0) + 1);
  return new Map(
    all.map(({ one, base }, i) => {
      const told: Told = {
        ...(one.due === undefined ? {} : { due: one.due }),
        ...(one.rush === true ? { rush: true } : {}),
      };
      if (base === null) return [String(i + 1), told];
      met.set(base, (met.get(base) ?? 0) + 1);
      return [alike.get(base) === 1 ? base : `${base} ${met.get(base)!}`, told];
    }),
  );
}

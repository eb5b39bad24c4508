/** One day of the book as it stands: of each kind what holds now. A pure view; nothing is kept here. */
import { byAge, contentOf, type Entry } from './entry.ts';
import type { Content, Kind } from './kinds.ts';
import { madeAfterStart, standing } from './standing.ts';

/** What an entry says, and which one it was: to be taken back by its id. */
export interface Said<K extends Kind> {
  entry: Entry;
  content: Content<K>;
}

export interface Day {
  day: string;
  plan: Said<'plan'> | null;
  /** Made before the shift began where there is one, otherwise the newest of the later ones. */
  forecast: (Said<'forecast'> & { late: boolean }) | null;
  target: Said<'target'> | null;
  /** One of each clock time, in the order of the shift. */
  counts: Said<'count'>[];
  notes: Said<'note'>[];
  /** Of this day and the days before it, those nobody has decided. */
  holds: Said<'hold'>[];
  handover: Said<'handover'> | null;
  result: Said<'result'> | null;
  record: Said<'record'> | null;
  times: Said<'times'> | null;
}

/**
 * @param start the shift's, "HH:MM": a count at 02:00 of a shift from 22:00 comes after the one at 23:00.
 */
export function dayOf(entries: readonly Entry[], day: string, start = '00:00'): Day {
  const all = standing(entries);
  const own = all.filter((entry) => entry.day === day);
  const newest = <K extends Kind>(kind: K): Said<K> | null => saidOf(own, kind).at(-1) ?? null;
  const forecasts = saidOf(own, 'forecast').map((one) => ({ ...one, late: madeAfterStart(one.entry) }));
  return {
    day,
    plan: newest('plan'),
    forecast: forecasts.findLast((one) => !one.late) ?? forecasts.at(-1) ?? null,
    target: newest('target'),
    counts: countsOf(own, start),
    notes: saidOf(own, 'note'),
    holds: holdsOf(all.filter((entry) => entry.day <= day)),
    handover: newest('handover'),
    result: newest('result'),
    record: newest('record'),
    times: newest('times'),
  };
}

/** Days that anything stands of, ascending. */
export const daysOf = (entries: readonly Entry[]): string[] =>
  [
    ...new Set(
      standing(entries)
        .filter(({ kind }) => kind !== 'correction')
        .map(({ day }) => day),
    ),
  ].sort();

/** The newest handover of the days before; null where there is none. What a day opens with. */
export function handoverBefore(entries: readonly Entry[], day: string): Said<'handover'> | null {
  const before = saidOf(standing(entries), 'handover').filter(({ entry }) => entry.day < day);
  return before.reduce<Said<'handover'> | null>(
    (best, one) =>
      best === null ||
      one.entry.day > best.entry.day ||
      (one.entry.day === best.entry.day && byAge(best.entry, one.entry) < 0)
        ? one
        : best,
    null,
  );
}

function saidOf<K extends Kind>(entries: readonly Entry[], kind: K): Said<K>[] {
  return entries.flatMap((entry) => {
    const content = contentOf(entry, kind);
    return content === null ? [] : [{ entry, content }];
  });
}

function countsOf(own: readonly Entry[], start: string): Said<'count'>[] {
  const byTime = new Map<string, Said<'count'>>();
  for (const one of saidOf(own, 'count')) byTime.set(one.content.at, one);
  const since = (at: string): string => `${at < start ? 1 : 0}${at}`;
  return [...byTime.values()].sort((a, b) => (since(a.content.at) < since(b.content.at) ? -1 : 1));
}

function holdsOf(entries: readonly Entry[]): Said<'hold'>[] {
  const byName = new Map<string, Said<'hold'>>();
  for (const one of saidOf(entries, 'hold')) byName.set(one.content.name, one);
  return [...byName.values()].filter(({ content }) => content.over !== true);
}

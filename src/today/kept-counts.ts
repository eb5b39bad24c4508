/** Counts of the cell as the book keeps them, and as a shift under way takes them up. */
import type { Content } from '../book/kinds.ts';
import { minutesAfter } from '../scenario/clock.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { checkNow } from './check-now.ts';
import type { Forecast } from './forecast.ts';
import type { OpenedDay } from './opened-day.ts';
import { goodSoFar, type NowState } from './state.ts';

/** A count of the book as one that can be checked. */
export function countKept(content: Content<'count'>): unknown {
  const { at, good, goodByHour, inside, holds, out, broken, outRack } = content;
  const all = { at, good, goodByHour, inside, holds, out, broken, outRack };
  return Object.fromEntries(Object.entries(all).filter(([, one]) => one !== undefined));
}

/** A checked count as the book keeps it. */
export const countSaid = (now: NowState): Content<'count'> => ({
  at: now.at,
  ...(now.good === undefined ? { goodByHour: now.goodByHour } : { good: now.good }),
  inside: now.inside as Record<string, unknown>[],
  holds: now.holds as Record<string, unknown>[],
  out: now.out,
  broken: now.broken,
  ...(now.outRack === undefined ? {} : { outRack: now.outRack }),
});

/** The counts kept of a day, for the picture: as they were counted, minutes from the start. */
export function countedBefore(scenario: Scenario, { view }: Pick<OpenedDay, 'view'>): Forecast['fact'] {
  const { start } = resolve(scenario);
  return view.counts.flatMap(({ content }) => {
    const checked = checkNow(scenario, countKept(content));
    return checked.kind === 'fine'
      ? [{ at: minutesAfter(start, content.at), good: goodSoFar(checked.now) }]
      : [];
  });
}

/** Does the book say anything that changes this day: a plan, a count, what was handed over to it? */
export const isKnownDay = ({ view, opening }: OpenedDay): boolean =>
  view.plan !== null || view.counts.length > 0 || opening.kind === 'handover';

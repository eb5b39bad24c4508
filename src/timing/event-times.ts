/** What a list of events tells: the times pieces took, and the good ones by the hour. */
import type { EventRow } from '../record/event-row.ts';
import type { Observation, UnreadRow } from './observation.ts';

export interface TimesOfEvents {
  observations: Observation[];
  /** Pieces begun and not ended, ended and not begun. `row` is the place of the event, from 1. */
  unread: UnreadRow[];
}

interface Going {
  place: number;
  product: string;
  person: string;
  repeat: boolean;
  /** ms worked before it was put down; since when it goes on, or null while it is put down. */
  worked: number;
  since: number | null;
}

const MINUTE = 60_000;
const BEGINNINGS = new Set<string>(['begins', 'cure begins']);
const ENDINGS = new Set<string>(['ends', 'cure ends']);

/**
 * Times between `begins` and `ends` of the same piece at the same step, less what it was put down; waits
 * likewise. They contain whatever happened at the bench meanwhile (allowance). @param date of the shift,
 * "2024-03-05", or null.
 */
export function timesOfEvents(events: readonly EventRow[], date: string | null = null): TimesOfEvents {
  const going = new Map<string, Going>();
  const visits = new Set<string>();
  const products = new Map<string, string>();
  const out: TimesOfEvents = { observations: [], unread: [] };
  const lose = (place: number, why: string): void => {
    const event = events[place]!;
    out.unread.push({
      row: place + 1,
      why,
      text: [event.event, event.unit, event.step, event.person].filter((text) => text !== '').join(', '),
    });
  };
  for (const [place, event] of events.entries()) {
    if (event.product !== '' && event.unit !== '') products.set(event.unit, event.product);
    const key = `${event.unit}\n${event.step}`;
    const open = going.get(key);
    if (BEGINNINGS.has(event.event)) {
      if (open !== undefined) lose(open.place, 'begun again before it ended');
      going.set(key, {
        place,
        product: event.product,
        person: event.person,
        repeat: visits.has(key),
        worked: 0,
        since: event.time,
      });
      visits.add(key);
    } else if (event.event === 'put down' && open?.since != null) {
      open.worked += event.time - open.since;
      open.since = null;
    } else if (event.event === 'resumed' && open !== undefined && open.since === null) {
      open.since = event.time;
    } else if (ENDINGS.has(event.event)) {
      going.delete(key);
      const took = open === undefined ? 0 : open.worked + (open.since === null ? 0 : event.time - open.since);
      if (open === undefined) lose(place, 'ended and never begun here');
      else if (took <= 0) lose(place, 'it took no time');
      else out.observations.push(observed(event, open, took, products.get(event.unit) ?? '', date, place));
    }
  }
  for (const open of going.values()) lose(open.place, 'begun and not ended');
  return out;
}

function observed(
  event: EventRow,
  open: Going,
  took: number,
  product: string,
  date: string | null,
  place: number,
): Observation {
  const person = open.person || event.person;
  return {
    step: event.step,
    product: product === '' ? null : product,
    person: person === '' ? null : person,
    minutes: took / MINUTE,
    rating: null,
    repeat: open.repeat,
    date,
    row: place + 1,
  };
}

/** Good pieces of a record, in all and by the hour from the start (before it: in the first hour). */
export function goodOfEvents(events: readonly EventRow[]): { good: number; byHour: number[] } {
  const byHour: number[] = [];
  const good = events.filter((event) => event.event === 'good');
  for (const event of good) {
    const hour = Math.max(0, Math.floor(event.time / (60 * MINUTE)));
    while (byHour.length <= hour) byHour.push(0);
    byHour[hour]! += 1;
  }
  return { good: good.length, byHour };
}

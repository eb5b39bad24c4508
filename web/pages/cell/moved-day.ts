/** The whole day earlier or later: all that stands at a clock time moves with the start. */
import { clockOfMinutes, minutesOfClock } from '../../../src/scenario/clock.ts';
import { duration } from '../../../src/words/words.ts';
import { say } from '../../parts/notice.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, JsonGroup, Place } from '../../store/draft.ts';

const CLOCK = /^([01]\d|2[0-3]):[0-5]\d$/;
/** What people wrote, even where it looks like a time. */
const WORDS = new Set(['name', 'note', 'about', 'cause', 'timesFrom', 'seed']);

/** Every clock time in it, so many minutes later; nothing else. */
export function moved(value: Json, by: number): Json {
  if (typeof value === 'string')
    return CLOCK.test(value) ? clockOfMinutes(minutesOfClock(value) + by) : value;
  if (Array.isArray(value)) return value.map((one) => moved(one, by));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [key, WORDS.has(key) ? one : moved(one, by)]),
  );
}

/** The parts of a file that are others once all of its day but the start itself has moved. */
export function restOfDay(draft: JsonGroup, by: number): [Place, Json][] {
  return Object.entries(draft).flatMap(([key, value]): [Place, Json][] => {
    if (WORDS.has(key)) return [];
    const after = moved(value, by);
    const whole =
      key === 'shift' && typeof value === 'object' && value !== null && 'start' in value
        ? { ...(after as JsonGroup), start: (value as JsonGroup)['start']! }
        : after;
    return JSON.stringify(whole) === JSON.stringify(value) ? [] : [[[key], whole]];
  });
}

/** Offered once the start was changed; never done unasked. */
export function offerMovedDay(store: CellStore, from: string, to: string): void {
  const by = minutesOfClock(to) - minutesOfClock(from);
  const rest = restOfDay(store.draft.get() as JsonGroup, by);
  if (by === 0 || rest.length === 0) return;
  const how = `${duration(Math.abs(by))} ${by > 0 ? 'later' : 'earlier'}`;
  say(`The shift starts at ${to} now. Its end, breaks and deliveries are where they were.`, {
    act: { label: `move them ${how} too`, run: () => store.changeMany(`the whole day ${how}`, rest) },
  });
}

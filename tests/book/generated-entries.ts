/** Entries of every kind, with letters of all lengths in UTF-8 and ids and instants that often meet. */
import fc from 'fast-check';
import { instantOf } from '../../src/book/calendar-day.ts';
import type { Entry } from '../../src/book/entry.ts';

const units = fc.integer({ min: 0, max: 60 });
const text = fc.string({ unit: 'binary', maxLength: 20 });
const contents: fc.Arbitrary<{ kind: string; content: Entry['content'] }> = fc.oneof(
  units.map((good) => ({ kind: 'result', content: { good } })),
  units.map((p50) => ({
    kind: 'forecast',
    content: { forecast: { p10: p50, p50, p90: p50 + 2, chance: 0.5 }, target: p50 },
  })),
  text.map((note) => ({ kind: 'note', content: { note: `${note} Ödön \u{1FAB5} holz` } })),
  // A kind of a later version.
  units.map((rain) => ({ kind: 'weather', content: { rain } })),
);

/** Entries with few days, few instants and the given ids. */
export const entryWith = (id: fc.Arbitrary<string>): fc.Arbitrary<Entry> =>
  fc
    .record({
      id,
      said: contents,
      day: fc.constantFrom('2027-03-04', '2027-03-05', '2028-02-29'),
      at: fc.integer({ min: 0, max: 3 }),
      offset: fc.constantFrom(0, 60, -300, 330),
    })
    .map(({ id: own, said, day, at, offset }) => ({
      entry: 1 as const,
      id: own,
      day,
      kind: said.kind,
      at: instantOf(Date.UTC(2027, 2, 4) + at, offset),
      by: 'clampwright 0.2.0',
      content: said.content,
    }));

export const entries = (most = 12): fc.Arbitrary<Entry[]> =>
  fc.uniqueArray(entryWith(fc.uuid()), { maxLength: most, selector: (entry) => entry.id });

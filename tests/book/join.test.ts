/**
 * The laws of joining: a grow-only set's union is commutative, associative and idempotent (Shapiro et al.
 * 2011, read as an abstract), and the newest of a kind is the same in any order and grouping.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holding, joinBooks, newestOf, writeBook } from '../../src/book/book.ts';
import { instantOf, isDay, millisecondsOf } from '../../src/book/calendar-day.ts';
import type { Entry } from '../../src/book/entry.ts';
import { entries, entryWith } from './generated-entries.ts';
import { holds } from '../support/holds.ts';

/** Books that share entries, as two tablets' do. */
const books = entries(12).chain((all) =>
  fc.tuple(...[0, 1, 2].map(() => fc.subarray(all))).map((parts) => parts as Entry[][]),
);
const joined = (...parts: Entry[][]): Entry[] => {
  const result = joinBooks(...parts);
  return result.kind === 'joined' ? result.entries : expect.fail(`refused ${result.ids.join()}`);
};

describe('joining', () => {
  it('is commutative, associative and idempotent, to the byte', () => {
    holds(
      fc.property(books, ([a, b, c]) => {
        const whole = writeBook(joined(a!, b!, c!));
        expect(writeBook(joined(b!, a!))).toBe(writeBook(joined(a!, b!)));
        expect(writeBook(joined(joined(a!, b!), c!))).toBe(whole);
        expect(writeBook(joined(a!, joined(c!, b!)))).toBe(whole);
        expect(writeBook(joined(a!, a!))).toBe(writeBook(joined(a!)));
        expect(new Set(joined(a!, b!, c!).map((entry) => entry.id))).toEqual(
          new Set([a!, b!, c!].flat().map((entry) => entry.id)),
        );
      }),
      { numRuns: 500, seed: 3 },
    );
  });

  it('does not ask in which order the fields of an entry stand', () => {
    holds(
      fc.property(entries(4), (list) => {
        const turned = list.map(
          (entry) => Object.fromEntries(Object.entries(entry).reverse()) as unknown as Entry,
        );
        expect(writeBook(joined(list, turned))).toBe(writeBook(joined(turned, list)));
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  it('refuses two entries of one id that say different things, in any order, and names them', () => {
    holds(
      fc.property(books, fc.nat(), ([a, b, c], place) => {
        const all = joined(a!, b!, c!);
        fc.pre(all.length > 0);
        const one = all[place % all.length]!;
        const other: Entry = { ...one, content: { ...one.content, added: 1 } };
        expect(joinBooks(all, [other])).toEqual({ kind: 'refused', ids: [one.id] });
        expect(joinBooks([other], all)).toEqual({ kind: 'refused', ids: [one.id] });
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

describe('the newest of a kind', () => {
  const ids = fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f');
  const meeting = fc.uniqueArray(entryWith(ids), { maxLength: 6, selector: (entry) => entry.id });

  it('is the same whatever the order of the entries', () => {
    holds(
      fc.property(
        meeting.chain((list) =>
          fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
        ),
        ([list, shuffled]) => {
          expect(holding(shuffled)).toEqual(holding(list));
          for (const { day, kind } of list)
            expect(newestOf(shuffled, day, kind)).toEqual(newestOf(list, day, kind));
        },
      ),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('goes by the instant, whatever the zone it was written in, and by the id where two are of one', () => {
    const entry = (id: string, at: string): Entry => ({
      entry: 1,
      id,
      day: '2027-03-05',
      kind: 'result',
      at,
      by: 'x',
      content: { good: 1 },
    });
    const noon = entry('a', '2027-03-05T12:00:00+01:00');
    const later = entry('b', '2027-03-05T11:30:00Z');
    const same = entry('c', '2027-03-05T06:30:00-05:00');
    expect(newestOf([later, noon], '2027-03-05', 'result')?.id).toBe('b');
    expect(newestOf([same, later, noon], '2027-03-05', 'result')?.id).toBe('c');
    expect(newestOf([noon], '2027-03-05', 'note')).toBeNull();
  });
});

describe('days and instants', () => {
  it.each([
    '2027-02-30',
    '2027-13-01',
    '2027-00-10',
    '2027-2-3',
    '2027-04-31',
    '2100-02-29',
    '0050-01-01',
    '',
    '5.3.2027',
  ])('there is no day %s', (text) => expect(isDay(text)).toBe(false));
  it.each(['2028-02-29', '2000-02-29', '2027-12-31'])('%s is a day', (text) =>
    expect(isDay(text)).toBe(true),
  );
  it.each(['2027-02-30T06:00:00Z', '2027-03-05T24:00:00Z', '2027-03-05 06:00Z', '2027-03-05T06:00:00'])(
    '%s is no instant',
    (text) => expect(millisecondsOf(text)).toBeNull(),
  );
  it('an instant is written as the clock on the wall shows it, and read back', () => {
    holds(
      fc.property(
        fc.integer({ min: 0, max: 4e12 }),
        fc.integer({ min: -840, max: 840 }),
        (milliseconds, offset) => {
          expect(millisecondsOf(instantOf(milliseconds, offset))).toBe(milliseconds);
        },
      ),
      { numRuns: 500, seed: 7 },
    );
    expect(instantOf(Date.UTC(2027, 2, 5, 5, 10), 60)).toBe('2027-03-05T06:10:00.000+01:00');
    expect(instantOf(Date.UTC(2027, 2, 5, 5, 10), -210)).toBe('2027-03-05T01:40:00.000-03:30');
  });
});

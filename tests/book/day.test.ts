/** What of a day stands: the newest, undo by further entries, forecasts made in time. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinBooks } from '../../src/book/book.ts';
import { instantOf, millisecondsOf } from '../../src/book/calendar-day.ts';
import { dayOf, daysOf, handoverBefore } from '../../src/book/day.ts';
import type { Entry } from '../../src/book/entry.ts';
import type { Kind } from '../../src/book/kinds.ts';
import { standing } from '../../src/book/standing.ts';
import { coverageOfBook, logOfBook } from '../../src/timing/log-book.ts';
import { entries } from './generated-entries.ts';
import { holds as always } from '../support/holds.ts';

const DAY = '2027-03-05';
let made = 0;
/** An entry said at a clock time of a day, an hour ahead of UTC. */
const said = (kind: Kind, at: string, content: Entry['content'], day = DAY): Entry => ({
  entry: 1,
  id: `entry-${(made += 1)}`,
  day,
  kind,
  at: `${at}:00+01:00`,
  by: 'clampwright 0.2.0',
  content,
});
const undo = (entry: Entry, at: string): Entry => said('correction', at, { undoes: entry.id });
const forecast = (p50: number): Entry['content'] => ({
  forecast: { p10: p50 - 2, p50, p90: p50 + 2, chance: 0.5 },
  target: 20,
  start: '06:00',
});

describe('a day of the book', () => {
  it('holds the newest of a kind, and what held before once that is taken back', () => {
    const first = said('result', '2027-03-05T15:00', { good: 17 });
    const second = said('result', '2027-03-05T15:10', { good: 18 });
    const back = undo(second, '2027-03-05T15:20');
    expect(dayOf([first, second], DAY).result?.content.good).toBe(18);
    expect(dayOf([first, second, back], DAY).result?.content.good).toBe(17);
    const again = undo(back, '2027-03-05T15:30');
    expect(dayOf([again, back, second, first], DAY).result?.content.good).toBe(18);
    expect(daysOf([back, said('result', '2027-03-04T15:00', { good: 1 }, '2027-03-04')])).toEqual([
      '2027-03-04',
    ]);
  });

  it('keeps a count of each time, in the order of a night shift, and corrects one by a further one', () => {
    const counts = [
      said('count', '2027-03-05T23:01', { at: '23:00', good: 4 }),
      said('count', '2027-03-06T02:01', { at: '02:00', good: 9 }),
      said('count', '2027-03-06T02:05', { at: '23:00', good: 5 }),
    ];
    expect(dayOf(counts, DAY, '22:00').counts.map(({ content }) => [content.at, content.good])).toEqual([
      ['23:00', 5],
      ['02:00', 9],
    ]);
  });

  it('holds a batch over days until it is decided', () => {
    const put = said('hold', '2027-03-03T09:00', { name: 'gaps', whose: 'Orla' }, '2027-03-03');
    const over = said('hold', '2027-03-06T09:00', { name: 'gaps', over: true }, '2027-03-06');
    const names = (day: string): string[] => dayOf([put, over], day).holds.map(({ content }) => content.name);
    expect([names('2027-03-02'), names('2027-03-05'), names('2027-03-06')]).toEqual([[], ['gaps'], []]);
  });

  it('opens with the last handover before it', () => {
    const friday = said('handover', '2027-03-05T14:30', { at: '14:30', good: 20 });
    const late = said('handover', '2027-03-05T14:40', { at: '14:30', good: 21 });
    expect(handoverBefore([late, friday], '2027-03-08')?.content.good).toBe(21);
    expect(handoverBefore([late, friday], DAY)).toBeNull();
  });
});

describe('a forecast', () => {
  it('made after the shift began is shown as such and counts in no coverage', () => {
    const before = said('forecast', '2027-03-05T05:59', forecast(19));
    const after = said('forecast', '2027-03-05T06:00', forecast(25));
    const result = said('result', '2027-03-05T15:00', { good: 19 });
    expect(dayOf([before, after], DAY).forecast).toMatchObject({ late: false, entry: { id: before.id } });
    const both = logOfBook([before, after, result], 'Bench');
    expect(both.days[0]).toMatchObject({ forecast: { p50: 19 }, good: 19 });
    expect(both.days[0]!.late).toBeUndefined();
    const alone = logOfBook([after, result], 'Bench');
    expect(alone.days[0]).toMatchObject({ late: true, forecast: { p50: 25 } });
    expect([coverageOfBook(both).count, coverageOfBook(alone).count]).toEqual([1, 0]);
    // An earlier program said no start: only a later day is surely too late.
    const { start: _start, ...bare } = forecast(19);
    expect(dayOf([said('forecast', '2027-03-05T23:00', bare)], DAY).forecast?.late).toBe(false);
    expect(dayOf([said('forecast', '2027-03-06T00:00', bare)], DAY).forecast?.late).toBe(true);
  });
});

describe('undoing', () => {
  it('gives the same day in any order of entries and any interleaving of two books', () => {
    const corrected = entries(8).chain((list) =>
      fc.array(fc.nat(Math.max(0, list.length - 1)), { maxLength: 6 }).map((places) => {
        const all = [...list];
        places.forEach((place, i) => {
          const aim = all[place];
          if (aim === undefined) return;
          const at = instantOf(millisecondsOf(aim.at)! + 1 + i, 60);
          all.push({ ...aim, id: `back-${i}`, kind: 'correction', at, content: { undoes: aim.id } });
        });
        return all;
      }),
    );
    always(
      fc.property(corrected, fc.infiniteStream(fc.boolean()), (all, coin) => {
        const [one, other]: [Entry[], Entry[]] = [[], []];
        for (const entry of all) {
          const { value } = coin.next() as { value: boolean };
          (value ? one : other).push(entry);
        }
        const joined = joinBooks(other, one);
        if (joined.kind !== 'joined') throw new Error('refused');
        expect(standing(joined.entries)).toEqual(standing(all));
        expect(logOfBook(joined.entries, '')).toEqual(logOfBook(all, ''));
        for (const day of daysOf(all)) expect(dayOf(joined.entries, day)).toEqual(dayOf(all, day));
      }),
      { numRuns: 80, seed: 11 },
    );
  });
});

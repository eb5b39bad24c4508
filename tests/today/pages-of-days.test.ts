/** What the pages of the book of days show, as far as no browser is needed for it. */
import { describe, expect, it } from 'vitest';
import { nextEntries, type ToSay } from '../../src/book/next-entry.ts';
import type { Entry } from '../../src/book/entry.ts';
import { daySentence } from '../../src/report/day-words.ts';
import { morningAnswer } from '../../src/report/morning-page.ts';
import { isKnownDay } from '../../src/today/kept-counts.ts';
import { openedDay } from '../../src/today/opened-day.ts';
import { changedCause, contentOf, hoursIn, resultOf } from '../../web/pages/log/result.ts';
import { calendarWords } from '../../web/pages/cell/calendar-words.ts';
import { nameFor, withOrders } from '../../web/pages/week/asked-order.ts';
import { dayNotes, daysToChoose, farOff } from '../../web/shell/day-notes.ts';
import { shop } from '../support/shops.ts';

const FRIDAY = '2027-03-05';
const MONDAY = '2027-03-08';

let made = 0;
/** Entries made at a minute of a day, each after those before. */
const book = (before: Entry[], at: string, ...said: ToSay[]): Entry[] => [
  ...before,
  ...nextEntries(before, said, {
    idOf: () => `entry ${(made += 1)}`,
    now: Date.parse(at),
    offset: 0,
    by: 'clampwright test',
    cell: 'stair-parts',
  }),
];
const planOf = (day: string): ToSay => ({
  day,
  kind: 'plan',
  content: { changes: {}, target: 26, promise: { units: 24, chance: 0.9 } },
});

describe('the days to choose from', () => {
  it('are those of the book, the day itself, and the next ones that are worked', () => {
    const calendar = { calendar: { holidays: [{ day: '2027-03-09' }] } };
    const entries = book([], '2027-03-01T06:00:00Z', planOf('2027-03-01'), planOf('2027-03-20'));
    expect(daysToChoose(calendar, entries, FRIDAY)).toEqual([
      '2027-03-01',
      FRIDAY,
      MONDAY,
      '2027-03-10',
      '2027-03-11',
      '2027-03-12',
      '2027-03-15',
      '2027-03-20',
    ]);
  });

  it('say what the book has of them, as long as nobody takes it back', () => {
    const counted = book(
      book([], '2027-03-05T13:00:00Z', planOf(MONDAY)),
      '2027-03-08T09:00:00Z',
      { day: MONDAY, kind: 'count', content: { at: '09:00', good: 4 } },
      { day: MONDAY, kind: 'count', content: { at: '11:00', good: 9 } },
    );
    expect(dayNotes(counted, MONDAY)).toBe('a plan, 2 counts');
    expect(dayNotes(counted, FRIDAY)).toBe('');
    const back = book(counted, '2027-03-08T12:00:00Z', {
      day: MONDAY,
      kind: 'correction',
      content: { undoes: counted[0]!.id },
    });
    expect(dayNotes(back, MONDAY)).toBe('2 counts');
    expect([FRIDAY, '2027-03-06', '2027-03-04', MONDAY].map((day) => farOff(day, FRIDAY))).toEqual([
      'today',
      'tomorrow',
      'yesterday',
      '',
    ]);
  });
});

describe('a day as the pages take it up', () => {
  const stairs = shop('stair-parts');

  it('is the file’s own until the book says something of it', () => {
    const opened = openedDay(stairs, [], MONDAY);
    expect(isKnownDay(opened)).toBe(false);
    expect(morningAnswer(opened)).toBe('Monday 8 March 2027 has no plan yet.');
  });

  it('has the plan of the book, and says when that is of an older cell', () => {
    const entries = book([], '2027-03-05T13:00:00Z', planOf(MONDAY));
    const opened = openedDay(stairs, entries, MONDAY);
    expect(isKnownDay(opened)).toBe(true);
    expect(morningAnswer(opened)).toBe('Monday 8 March 2027: 24 good are promised, with a chance of 90%.');
    expect(daySentence(opened)).toContain('The posts are those of the plan of this day.');
    const older = book(entries, '2027-03-05T14:00:00Z', {
      ...planOf(MONDAY),
      content: { ...entries[0]!.content, of: 'another cell' },
    } as ToSay);
    expect(daySentence(openedDay(stairs, older, MONDAY))).toContain('made of an older cell: plan again');
  });
});

describe('a result written down bit by bit', () => {
  it('comes out of the book as it went in', () => {
    const content = {
      good: 7,
      byHour: [3, 4],
      scrap: { split: 1 },
      rework: { scratch: 2 },
      overtime: { orla: 15 },
    };
    expect(contentOf(resultOf(content))).toEqual(content);
    expect(contentOf({ ...resultOf(null), good: 5 })).toEqual({ good: 5 });
  });

  it('takes causes in and out, and counts one that was written twice once', () => {
    const one = changedCause([], 0, 'split', 1);
    const two = changedCause(one, 1, 'split', 2);
    expect(contentOf({ ...resultOf(null), good: 1, scrap: two })).toEqual({ good: 1, scrap: { split: 3 } });
    expect(changedCause(two, 0, '', 1)).toEqual([['split', 2]]);
    expect(changedCause(two, 1, 'split', 0)).toEqual([['split', 1]]);
  });

  it.each([
    ['0, 2,3', [0, 2, 3]],
    ['4 5', [4, 5]],
    ['', null],
    ['2, x', null],
    ['1.5', null],
    ['-1', null],
  ])('reads the hours %j', (text, hours) => expect(hoursIn(text)).toEqual(hours));
});

describe('an order that is only asked about', () => {
  const stairs = shop('stair-parts');
  const order = { name: 'rush order', units: 2, day: MONDAY, due: MONDAY, rush: true };

  it('stands beside those of the calendar under a name of its own', () => {
    const asked = withOrders(stairs, [order]);
    expect(asked.kind === 'fine' && asked.scenario.calendar?.orders).toEqual([order]);
    expect(nameFor(stairs, [order])).toBe('rush order 2');
  });

  it('is refused in words where it is due before it comes', () => {
    const asked = withOrders(stairs, [{ ...order, due: FRIDAY }]);
    expect(asked.kind === 'wrong' && asked.faults[0]!.text).toContain('or a later day');
  });
});

describe('the calendar', () => {
  it('is told in a line', () => {
    const stairs = shop('stair-parts');
    expect(calendarWords(stairs)).toBe('Monday to Friday');
    const calendar = { workingDays: ['mon' as const, 'sat' as const], holidays: [{ day: MONDAY }] };
    expect(calendarWords({ ...stairs, calendar })).toBe('Mon, Sat; 1 holiday');
  });
});

/** The calendar file is read back by ical.js, which has nothing to do with the writer. */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { calendarFile, crewEvents, type CalendarEvent } from '../../src/staffing/calendar.ts';
import { openDay } from '../../src/staffing/question.ts';
import { personDays, sheetOf } from '../../src/staffing/sheet.ts';
import { holds } from '../support/holds.ts';
import { shop, SHOPS } from '../support/shops.ts';

const stamp = Date.UTC(2026, 10, 25, 13, 5, 9);
const event = (more: Partial<CalendarEvent>): CalendarEvent => ({
  uid: 'one@shop',
  day: '2026-11-26',
  from: 360,
  to: 870,
  summary: 'Orla',
  ...more,
});

function read(file: string) {
  const calendar = new ICAL.Component(ICAL.parse(file));
  return calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

test('an event keeps its text, its floating times and its stamp', () => {
  const [back] = read(
    calendarFile(
      [event({ description: 'fit; glue, clamp\nC:\\shop', location: 'Cell "A"', categories: ['a,b', 'c'] })],
      { stamp },
    ),
  );
  expect(back!.uid).toBe('one@shop');
  expect(back!.summary).toBe('Orla');
  expect(back!.description).toBe('fit; glue, clamp\nC:\\shop');
  expect(back!.location).toBe('Cell "A"');
  expect(back!.component.getFirstProperty('categories')!.getValues()).toEqual(['a,b', 'c']);
  expect(back!.startDate.toString()).toBe('2026-11-26T06:00:00');
  expect(back!.endDate.toString()).toBe('2026-11-26T14:30:00');
  expect(back!.startDate.zone).toBe(ICAL.Timezone.localTimezone);
  expect(String(back!.component.getFirstPropertyValue('dtstamp'))).toBe('2026-11-25T13:05:09Z');
});

test('minutes past midnight are on the day after, over the end of a month and of a leap February', () => {
  const ends = [
    ['2026-11-30', '2026-12-01T06:30:00'],
    ['2028-02-28', '2028-02-29T06:30:00'],
    ['2026-12-31', '2027-01-01T06:30:00'],
  ];
  for (const [day, end] of ends) {
    const [back] = read(calendarFile([event({ day: day!, from: 1320, to: 1830 })], { stamp }));
    expect(back!.startDate.toString()).toBe(`${day}T22:00:00`);
    expect(back!.endDate.toString()).toBe(end);
  }
});

test('an hour that daylight saving leaves out stays what it is', () => {
  const zone = process.env.TZ;
  process.env.TZ = 'America/New_York';
  try {
    // 2027-03-14 has no 02:30 there.
    const [back] = read(calendarFile([event({ day: '2027-03-14', from: 150, to: 600 })], { stamp }));
    expect(back!.startDate.toString()).toBe('2027-03-14T02:30:00');
  } finally {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  }
});

test('no line is longer than 75 octets, every line ends with CRLF, and no character is split', () => {
  const file = calendarFile([event({ summary: 'é🪵ß木'.repeat(60), description: 'x'.repeat(500) })], {
    stamp,
    name: 'Ö'.repeat(80),
  });
  for (const line of file.split('\r\n')) {
    expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(line).not.toMatch(/[\n\r\uD83E]$/);
  }
  expect(file.endsWith('END:VCALENDAR\r\n')).toBe(true);
  expect(read(file)[0]!.summary).toBe('é🪵ß木'.repeat(60));
});

test('a hostile name stays a name', () => {
  const summary = 'Bo\r\nEND:VEVENT\r\nBEGIN:VALARM\nTRIGGER:-PT5M;,\\n';
  const events = read(calendarFile([event({ summary }), event({ uid: 'two@shop' })], { stamp }));
  expect(events.map((one) => one.uid)).toEqual(['one@shop', 'two@shop']);
  expect(events[0]!.summary).toBe(summary.replaceAll('\r\n', '\n'));
  expect(events[0]!.component.getAllSubcomponents('valarm')).toHaveLength(0);
});

test('any text comes back as it was, control characters aside', () => {
  const text = fc.string({
    unit: fc.constantFrom('a', ' ', ',', ';', ':', '\\', 'n', 'N', '"', '\n', 'é', '🪵', '\t', '=', '-'),
    minLength: 1,
    maxLength: 200,
  });
  holds(
    fc.property(text, (summary) => {
      expect(read(calendarFile([event({ summary })], { stamp }))[0]!.summary).toBe(summary);
    }),
    { numRuns: 300 },
  );
  expect(read(calendarFile([event({ summary: 'a\u0000\u0007b\u001Bc' })], { stamp }))[0]!.summary).toBe(
    'abc',
  );
});

test('a crew day has one event a shift, and one a post for those who change posts', () => {
  const events = crewEvents({
    day: '2026-11-26',
    cell: 'Chair cell 2',
    people: [
      {
        id: 'orla',
        name: 'Orla',
        from: 360,
        to: 870,
        posts: [{ from: 360, to: 870, steps: ['fit'] }],
        breaks: [{ from: 480, minutes: 10, name: 'break' }],
        away: [{ from: 720, minutes: 70 }],
        overtime: 45,
      },
      {
        id: 'kofi',
        name: 'Kofi',
        from: 360,
        to: 870,
        posts: [
          { from: 360, to: 600, steps: ['sand', 'clean'] },
          { from: 600, to: 870, steps: ['check'] },
        ],
        breaks: [],
        away: [],
        overtime: 0,
      },
    ],
  });
  const back = read(calendarFile(events, { stamp, name: 'Crew' }));
  expect(back.map((one) => [one.uid, one.summary])).toEqual([
    ['2026-11-26-chair-cell-2-orla-shift@clampwright', 'Orla: Chair cell 2'],
    ['2026-11-26-chair-cell-2-orla-away-1@clampwright', 'Orla: away, another line'],
    ['2026-11-26-chair-cell-2-orla-overtime@clampwright', 'Orla: overtime, if asked'],
    ['2026-11-26-chair-cell-2-kofi-shift@clampwright', 'Kofi: Chair cell 2'],
    ['2026-11-26-chair-cell-2-kofi-post-1@clampwright', 'Kofi: sand, clean'],
    ['2026-11-26-chair-cell-2-kofi-post-2@clampwright', 'Kofi: check'],
  ]);
  expect(back[0]!.description).toBe(
    '06:00 to 14:30: fit\n08:00 break, 10 min\n12:00 to 13:10: away, another line\nmay be asked to stay until 15:15 (overtime)',
  );
  expect(back[1]!.startDate.toString()).toBe('2026-11-26T12:00:00');
  expect(back[2]!.endDate.toString()).toBe('2026-11-26T15:15:00');
  expect(back[5]!.startDate.toString()).toBe('2026-11-26T10:00:00');
});

test('a day that is none is refused', () => {
  expect(() => calendarFile([event({ day: 'tomorrow' })], { stamp })).toThrow(
    'a day is written YYYY-MM-DD, not "tomorrow"',
  );
});

test.each(SHOPS)(
  'the sheet of %s has times away, overtime and posts with help, in words of the standard',
  (name) => {
    const scenario = shop(name);
    const sheet = sheetOf(openDay({ scenario }), scenario);
    const events = crewEvents({ day: '2027-03-08', cell: sheet.cell, people: personDays(sheet) });
    const file = calendarFile(events, { stamp, name: sheet.cell });
    expect(file.split('\r\n').filter((line) => /^X-/.test(line))).toEqual([]);
    expect(String(new ICAL.Component(ICAL.parse(file)).getFirstPropertyValue('name'))).toBe(sheet.cell);
    const of = (what: string): number => events.filter(({ categories }) => categories![0] === what).length;
    const there = sheet.people.filter(({ chance }) => chance > 0);
    expect(of('away')).toBe(there.reduce((sum, one) => sum + one.away.length, 0));
    expect(of('overtime')).toBe(there.filter(({ overtime }) => overtime > 0).length);
    const learning = there.some(({ posts }) =>
      posts.some(({ steps }) => steps.some(({ level }) => level === 2)),
    );
    expect(events.some(({ description = '' }) => description.includes('(with help)'))).toBe(learning);
  },
);

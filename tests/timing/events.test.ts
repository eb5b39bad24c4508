import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bareEvent, EVENT_NAMES, type EventRow } from '../../src/record/event-row.ts';
import { EVENT_COLUMNS, readEvents, writeEvents } from '../../src/timing/events-csv.ts';
import { goodOfEvents, timesOfEvents } from '../../src/timing/event-times.ts';
import { holds } from '../support/holds.ts';

const MINUTE = 60_000;
const event = (minutes: number, name: EventRow['event'], more: Partial<EventRow> = {}): EventRow => ({
  ...bareEvent(minutes * MINUTE, name),
  ...more,
});

describe('the list of events', () => {
  it('is written as documented', () => {
    const text = writeEvents(
      [
        event(10, 'begins', { unit: '7', product: 'straight', step: 'fit', person: 'orla' }),
        event(1440.0125, 'gear free', { gear: 'clamps', item: 2 }),
      ],
      '06:00',
    );
    expect(text.split('\r\n')).toEqual([
      EVENT_COLUMNS.join(','),
      '1,06:10:00,begins,7,straight,fit,orla,,,,',
      '2,06:00:00.750,gear free,,,,,,clamps,2,',
      '',
    ]);
  });

  it('comes back as it went out, whatever the texts', () => {
    const text = fc
      .oneof(
        fc.string({ maxLength: 10 }),
        fc.constantFrom('=1+1', "'=x", '-', '@', '"', 'a,b', 'a;b', 'two\nlines', 'ß œ ł'),
        fc.string({ unit: 'grapheme', maxLength: 6 }),
      )
      .map((value) => value.replace(/\r\n?/g, '\n').trim())
      .filter((value) => !value.startsWith('\ufeff'));
    const row = fc.record<EventRow>({
      time: fc.integer({ min: -3_600_000, max: 400_000_000 }),
      event: fc.constantFrom(...EVENT_NAMES),
      unit: text,
      product: text,
      step: text,
      person: text,
      second: text,
      gear: text,
      item: fc.integer({ min: 0, max: 99 }),
      detail: text,
    });
    holds(
      fc.property(
        fc.array(row, { maxLength: 12 }),
        fc.constantFrom('00:00', '06:00', '22:30'),
        (rows, start) => {
          const ordered = rows.toSorted((a, b) => a.time - b.time);
          expect(readEvents(writeEvents(ordered, start), start)).toEqual({ events: ordered, unread: [] });
        },
      ),
      { seed: 5, numRuns: 500 },
    );
  });

  it('is read from a hand-written list, columns in any order, no day, and loses no row', () => {
    const read = readEvents(
      'Event;Time;Step;Unit\nbegins;22:10;fit;A\nENDS;0:05 am;fit;A\nbegin;23:00;fit;B\nbegins;;fit;C\ncomes;21:50;;\ngood;25:00;;A\n',
      '22:00',
    );
    expect(read.events.map((one) => [one.time / MINUTE, one.event, one.unit])).toEqual([
      [-10, 'comes', ''],
      [10, 'begins', 'A'],
      [125, 'ends', 'A'],
    ]);
    expect(read.unread.map((one) => [one.row, one.why])).toEqual([
      [4, 'no event is called “begin”; the nearest is “begins”'],
      [5, 'no time of day given'],
      [7, '“25:00” is no time of day'],
    ]);
  });

  it('never throws, and every row with anything in it is an event or unread', () => {
    holds(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        const read = readEvents(`time,event\n${text}`, '06:00');
        // A row of separators alone is a blank one, as spreadsheets write them.
        expect(read.events.length + read.unread.length).toBeGreaterThanOrEqual(
          /[\p{L}\p{N}]/u.test(text) ? 1 : 0,
        );
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});

describe('times out of a list of events', () => {
  const events = [
    event(0, 'arrives', { unit: 'A', product: 'bent' }),
    event(5, 'begins', { unit: 'A', step: 'fit', person: 'orla' }),
    event(10, 'put down', { unit: 'A', step: 'fit', person: 'orla' }),
    event(20, 'resumed', { unit: 'A', step: 'fit', person: 'orla' }),
    event(29, 'ends', { unit: 'A', step: 'fit', person: 'orla' }),
    event(30, 'cure begins', { unit: 'A', step: 'cure' }),
    event(40, 'begins', { unit: 'B', step: 'fit', person: 'kofi' }),
    event(60, 'cure ends', { unit: 'A', step: 'cure' }),
    event(61, 'begins', { unit: 'A', step: 'fit', person: 'kofi' }),
    event(65, 'ends', { unit: 'A', step: 'fit', person: 'kofi' }),
    event(66, 'ends', { unit: 'C', step: 'fit', person: 'kofi' }),
    event(119, 'good', { unit: 'A' }),
    event(121, 'good', { unit: 'D' }),
  ];
  it('are from begin to end, less what was put down; a second visit is a repeat', () => {
    const { observations, unread } = timesOfEvents(events, '2024-03-05');
    expect(observations.map((one) => [one.step, one.product, one.person, one.minutes, one.repeat])).toEqual([
      ['fit', 'bent', 'orla', 14, false],
      ['cure', 'bent', null, 30, false],
      ['fit', 'bent', 'kofi', 4, true],
    ]);
    expect(unread.map((one) => one.why)).toEqual(['ended and never begun here', 'begun and not ended']);
  });
  it('counts the good by the hour', () =>
    expect(goodOfEvents(events)).toEqual({ good: 2, byHour: [0, 1, 1] }));
});

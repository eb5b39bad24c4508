import { describe, expect, it } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import {
  dayWords,
  isWorkingDay,
  minutesToDue,
  nextWorkingDay,
  scenarioOn,
  workingDays,
} from '../../src/scenario/calendar.ts';
import { daysBetween, daysOn, mondayOf, weekdayOf } from '../../src/scenario/days.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { shop, SHOPS } from '../support/shops.ts';

const bench: Scenario = {
  format: 1,
  name: 'Bench',
  steps: { fit: { time: 10, takes: [{ gear: 'clamp', until: 'off' }] }, off: { time: 2 } },
  gear: { clamp: { count: 3 } },
  people: { orla: { covers: ['fit', 'off'] }, kofi: { covers: ['off', 'fit'] } },
  shift: { start: '06:00', end: '14:00' },
  intake: { kind: 'list', arrivals: [{ at: '06:00', units: 8 }] },
  calendar: {
    holidays: [{ day: '2027-03-08', name: 'fair' }],
    alsoWorked: [{ day: '2027-03-13' }],
    absences: [{ person: 'kofi', from: '2027-03-09', to: '2027-03-10', why: 'leave' }],
    gearAway: [{ gear: 'clamp', from: '2027-03-09', items: 2 }],
    deliveries: [{ day: '2027-03-07', at: '09:00', units: 4 }],
    orders: [{ name: 'school', units: 3, day: '2027-03-09', at: '10:00', due: '2027-03-11', rush: true }],
  },
};

describe('the calendar', () => {
  it('is the calendar of the wall: 5 March 2027 is a Friday, February 2028 has 29 days', () => {
    expect([weekdayOf('2027-03-05'), dayWords('2027-03-05')]).toEqual(['fri', 'Friday 5 March 2027']);
    expect([daysOn('2028-02-28', 1), daysBetween('2028-02-28', '2028-03-01')]).toEqual(['2028-02-29', 2]);
    expect([mondayOf('2027-03-07'), mondayOf('2027-03-08')]).toEqual(['2027-03-01', '2027-03-08']);
  });

  it('puts Monday after a Friday, past a holiday, and a Saturday that is worked among the days', () => {
    expect(nextWorkingDay({}, '2027-03-05')).toBe('2027-03-08');
    expect(nextWorkingDay(bench, '2027-03-05')).toBe('2027-03-09');
    expect(workingDays(bench, '2027-03-06', 6)).toEqual([
      '2027-03-09',
      '2027-03-10',
      '2027-03-11',
      '2027-03-12',
      '2027-03-13',
      '2027-03-15',
    ]);
    expect(isWorkingDay(bench, '2027-03-08')).toBe(false);
    // No working day at all for years still comes to an end.
    const never = {
      calendar: { holidays: Array.from({ length: 500 }, (_, i) => ({ day: daysOn('2027-03-05', i) })) },
    };
    expect(nextWorkingDay(never, '2027-03-05')).toBe('2027-03-06');
  });

  it('says of a day who is out, which gear is away, and what comes; a day of no news is the file', () => {
    expect(checkScenario(bench).kind).toBe('fine');
    const day = scenarioOn(bench, '2027-03-09');
    expect(checkScenario(day).kind).toBe('fine');
    const shift = resolve(day);
    expect(shift.people.map(({ id, chance }) => [id, chance])).toEqual([
      ['orla', 1],
      ['kofi', 0],
    ]);
    expect(shift.gear.find(({ id }) => id === 'clamp')!.out).toEqual([{ from: 0, minutes: 480, items: 2 }]);
    // The delivery of a Sunday is there at the next start that is worked; the order is due two days on.
    expect(shift.intake).toMatchObject({
      arrivals: [
        { at: 0, units: 8, due: null },
        { at: 0, units: 4, due: null },
        { at: 240, units: 3, due: 2 * 1440 + 480, rush: true, name: 'school' },
      ],
    });
    const { calendar: _calendar, ...file } = bench;
    expect(scenarioOn(bench, '2027-03-12')).toEqual(file);
    expect(minutesToDue(bench, { due: '2027-03-11', dueAt: '09:00' }, '2027-03-12')).toBe(-1440 + 180);
  });

  it.each([
    [{ absences: [{ person: 'kofy', from: '2027-03-09' }] }, /kofy.*kofi/],
    [{ absences: [{ person: 'kofi', from: '2027-03-09', to: '2027-03-08' }] }, /before "2027-03-09"/],
    [{ gearAway: [{ gear: 'clamps', from: '2027-03-09' }] }, /clamp/],
    [{ holidays: [{ day: '2027-02-30' }] }, /a date as YYYY-MM-DD/],
    [{ orders: [{ name: 'a', units: 1, day: '2027-03-09', due: '2027-03-08' }] }, /put the two in order/],
    [{ deliveries: [{ day: '2027-03-09', at: '15:00', units: 1 }] }, /outside the shift/],
  ])('refuses %j in a sentence', (calendar, words) => {
    const reading = checkScenario({ ...bench, calendar });
    expect(reading.kind === 'wrong' ? reading.faults.map(({ text }) => text).join(' ') : 'fine').toMatch(
      words,
    );
  });

  it('adds to a list only: to pieces that come by a beat a delivery comes instead', () => {
    const beat: Scenario = { ...bench, intake: { kind: 'beat', every: 7 }, calendar: {} };
    const on = (instead: boolean): string =>
      checkScenario({ ...beat, calendar: { deliveries: [{ day: '2027-03-09', units: 4, instead }] } }).kind;
    expect([on(true), on(false)]).toEqual(['fine', 'wrong']);
  });

  it('leaves the three shops as they are without one', () => {
    for (const name of SHOPS) expect(scenarioOn(shop(name), '2027-03-05')).toEqual(shop(name));
  });
});

import { describe, expect, it } from 'vitest';
import { dayOfEvents } from '../../src/today/day-of-events.ts';
import {
  CAUSES,
  whyMissed,
  type Cause,
  type DayAsItWas,
  type WhyMissed,
} from '../../src/today/why-missed.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { timesOfEvents } from '../../src/timing/event-times.ts';
import { paceOfDay } from '../../src/timing/pace-of-day.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { runOf, scenarioOf } from './support.ts';

const cell: Scenario = { ...scenarioOf('cell-k'), study: { precision: 0.5 } };
const [first] = Object.keys(cell.people);
const partOf = (why: WhyMissed, cause: Cause): { estimate: number; low: number; high: number } =>
  why.parts.find((part) => part.cause === cause)!.units;
const why = (day: DayAsItWas): Promise<WhyMissed> => whyMissed(cell, day, inLineRunner());

describe('why a day missed', () => {
  it('has parts that add up to the whole difference between the plan and what came, whatever the day was', async () => {
    for (const day of [
      { good: 9 },
      { good: 21, out: [first!] },
      {
        good: 12,
        pace: { sand: 1.3 },
        late: { [first!]: 40 },
        rework: { check: { back: [9], scrapped: 2, of: 20 } },
      },
    ]) {
      const told = await why(day);
      expect(told.parts.map((part) => part.cause)).toEqual([...CAUSES]);
      expect(told.parts.reduce((sum, part) => sum + part.units.estimate, 0)).toBeCloseTo(
        day.good - told.planned.estimate,
        9,
      );
    }
  });

  it.each<[Cause, Partial<DayAsItWas>]>([
    ['late kits', { intake: { kind: 'at start', units: 60, late: 120 } }],
    ['people', { late: { [first!]: 120 } }],
    ['times', { pace: { glue: 1.6, unclamp: 1.6, sand: 1.6 } }],
    ['rework', { rework: { check: { back: [14], scrapped: 4, of: 20 } } }],
  ])('puts a planted cause where it belongs, and next to nothing on the others: %s', async (cause, day) => {
    const told = await why({ good: 12, ...day });
    expect(partOf(told, cause).high).toBeLessThan(-0.5);
    for (const other of CAUSES)
      if (other !== cause && other !== 'luck')
        expect(Math.abs(partOf(told, other).estimate), other).toBeLessThan(1e-9);
  });

  it('calls everything luck where the day was as planned, and says how rare it is', async () => {
    const told = await why({ good: 13 });
    expect(partOf(told, 'luck').estimate).toBeCloseTo(13 - told.planned.estimate, 9);
    expect(told.asFew).toBeGreaterThan(0);
    expect(told.asFew).toBeLessThan(0.1);
  });
});

describe('a day read off its record', () => {
  it('holds what was planted in it: who was out, how late, how the kits came, the pace, what came back', () => {
    const odd: Scenario = {
      ...cell,
      intake: {
        kind: 'list',
        arrivals: [
          { at: '06:20', units: 10 },
          { at: '09:00', units: 20 },
        ],
      },
      people: { ...cell.people, [first!]: { ...cell.people[first!], attendance: { late: 25 } } },
      products: { piece: { factors: { sand: 1.5 } } },
    };
    const record = runOf(odd);
    const day = dayOfEvents(cell, record);
    expect(day.good).toBe(record.filter((one) => one.event === 'good').length);
    expect(day.intake).toEqual({
      kind: 'list',
      arrivals: [
        { at: '06:20', units: 10 },
        { at: '09:00', units: 20 },
      ],
    });
    expect(day.late).toEqual({ [first!]: 25 });
    expect(day.out).toEqual([]);
    const pace = paceOfDay(cell, timesOfEvents(record).observations);
    expect(pace['sand']! / pace['glue']!).toBeGreaterThan(1.25);
    expect(pace['cure']).toBeCloseTo(1, 9);
    const back = record.filter((one) => one.event === 'rework' && one.step === 'check').length;
    expect(day.rework!['check']!.back.reduce((sum, one) => sum + one, 0)).toBe(back);
  });
  it('names who never came', () => {
    const record = runOf({
      ...cell,
      people: { ...cell.people, [first!]: { ...cell.people[first!], attendance: { percent: 0 } } },
    });
    expect(dayOfEvents(cell, record).out).toEqual([first!]);
  });
  it('of no record at all says nothing was different', () => {
    expect(dayOfEvents(cell, [])).toEqual({ good: 0, rework: {} });
  });
});

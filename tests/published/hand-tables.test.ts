/**
 * Tables of a textbook that are worked by hand, played with fixed times, event by event: Banks, Carson,
 * Nelson & Nicol, Discrete-Event System Simulation, chapter 2, a checkout and a desk of two. The data and the
 * totals are from memory; the lines between follow from them by the book's own rule (a customer is served
 * when they have come and the one before is done). One product a customer, with its own time.
 */
import { describe, expect, test } from 'vitest';
import { eventTable, type Sketch } from '../support/event-table.ts';

/** `arrivals` and `times` in minutes, a customer each. */
const desk = (arrivals: number[], times: number[], people: string[]): Sketch => ({
  steps: { serve: { time: 1, benches: people.length } },
  products: Object.fromEntries(times.map((time, i) => [`c${i + 1}`, { times: { serve: time } }])),
  people: Object.fromEntries(people.map((person) => [person, { covers: ['serve'] }])),
  shift: { start: '06:00', end: '08:00' },
  intake: {
    kind: 'list',
    arrivals: arrivals.map((minute, i) => ({
      at: `${minute < 60 ? '06' : '07'}:${String(minute % 60).padStart(2, '0')}`,
      product: `c${i + 1}`,
    })),
  },
});

interface Served {
  starts: number[];
  ends: number[];
  by: string[];
}

/** When each customer's service began and ended, and by whom, from the table of events. */
function served(sketch: Sketch): Served {
  const lines = eventTable(sketch, ['start', 'good']).map((line) => line.split(' '));
  const of = (what: string): string[][] =>
    lines.filter(([, word]) => word === what).sort((a, b) => Number(a[2]) - Number(b[2]));
  return {
    starts: of('start').map(([minute]) => Number(minute)),
    by: of('start').map((line) => line[4]!),
    ends: of('good').map(([minute]) => Number(minute)),
  };
}

const less = (a: number[], b: number[]): number[] => a.map((one, i) => one - b[i]!);
const sum = (values: number[]): number => values.reduce((total, one) => total + one, 0);

describe('one checkout, twenty customers', () => {
  const arrivals = [0, 8, 14, 15, 23, 26, 34, 41, 43, 46, 47, 48, 53, 59, 62, 70, 71, 73, 77, 82];
  const times = [4, 1, 4, 3, 2, 4, 5, 4, 5, 3, 3, 5, 4, 1, 5, 4, 3, 3, 2, 3];
  const { starts, ends } = served(desk(arrivals, times, ['ana']));

  test('is played line by line', () => {
    expect(starts).toEqual([0, 8, 14, 18, 23, 26, 34, 41, 45, 50, 53, 56, 61, 65, 66, 71, 75, 78, 81, 83]);
    expect(ends).toEqual([4, 9, 18, 21, 25, 30, 39, 45, 50, 53, 56, 61, 65, 66, 71, 75, 78, 81, 83, 86]);
  });

  test('has 13 wait 56 minutes in all, 2.8 on average; idle 18 minutes of 86; 6.2 minutes in the system', () => {
    const waits = less(starts, arrivals);
    expect([sum(waits), sum(waits) / 20, waits.filter((wait) => wait > 0).length]).toEqual([56, 2.8, 13]);
    expect([ends.at(-1), ends.at(-1)! - sum(less(ends, starts))]).toEqual([86, 18]);
    expect(sum(less(ends, arrivals)) / 20).toBeCloseTo(6.2, 12);
  });
});

describe('two at a desk, the first preferred', () => {
  const arrivals = [
    0, 2, 6, 10, 12, 14, 17, 20, 23, 24, 26, 28, 30, 31, 33, 35, 37, 40, 42, 44, 48, 49, 51, 54, 55, 59,
  ];
  // As served: the second is slower, and these are the times of whoever served.
  const times = [5, 3, 3, 5, 6, 3, 2, 4, 4, 3, 3, 4, 5, 3, 4, 4, 4, 5, 2, 4, 3, 3, 5, 3, 6, 3];
  const { starts, ends, by } = served(desk(arrivals, times, ['ana', 'ben']));

  test('make the waits of the table: 1 1 1 1 2 2 1 1 1 for customers 6 7 11 14 15 17 19 20 25, none else', () => {
    const waits = less(starts, arrivals);
    const who = waits.flatMap((wait, i) => (wait > 0 ? [i + 1] : []));
    expect(who).toEqual([6, 7, 11, 14, 15, 17, 19, 20, 25]);
    expect(who.map((one) => waits[one - 1])).toEqual([1, 1, 1, 1, 2, 2, 1, 1, 1]);
    expect(sum(waits) / 26).toBeCloseTo(0.423077, 6);
  });

  test('end at 62, the first busy for 56 minutes, the second for 43', () => {
    const busy = (person: string): number => sum(times.filter((_, i) => by[i] === person));
    expect([Math.max(...ends), busy('ana'), busy('ben')]).toEqual([62, 56, 43]);
    expect(less(ends, starts)).toEqual(times);
  });
});

describe('the exercise of six customers', () => {
  const arrivals = [0, 2, 6, 10, 12, 14];
  const times = [5, 3, 3, 5, 6, 3];

  test('by two alike: ends 5 5 9 15 18 18, one wait of a minute, busy for 16 and 9', () => {
    const { starts, ends, by } = served(desk(arrivals, times, ['ana', 'ben']));
    expect(ends).toEqual([5, 5, 9, 15, 18, 18]);
    expect(less(starts, arrivals)).toEqual([0, 0, 0, 0, 0, 1]);
    expect(['ana', 'ben'].map((person) => sum(times.filter((_, i) => by[i] === person)))).toEqual([16, 9]);
  });

  test('by one alone: waits 0 3 2 1 4 8, the last done at 25', () => {
    const { starts, ends } = served(desk(arrivals, times, ['ana']));
    expect(less(starts, arrivals)).toEqual([0, 3, 2, 1, 4, 8]);
    expect(ends.at(-1)).toBe(25);
  });
});

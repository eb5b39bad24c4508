import type { Scenario } from '../../src/scenario/schema.ts';
import { luckOf } from '../../src/timing/luck.ts';
import { quantileOf, type Fitted } from '../../src/timing/maximum-likelihood.ts';
import type { LogBook, LogDay } from '../../src/timing/log-book.ts';
import type { Observation } from '../../src/timing/observation.ts';

/** `count` times of a curve, the same for the same seed. */
export function timesFrom(curve: Fitted, count: number, seed: number): number[] {
  const luck = luckOf('tests of times', seed, 9);
  return Array.from({ length: count }, (_, i) => quantileOf(curve, luck(i)));
}

export function observation(step: string, minutes: number, more: Partial<Observation> = {}): Observation {
  return {
    step,
    product: null,
    person: null,
    minutes,
    rating: null,
    repeat: false,
    date: null,
    row: 1,
    ...more,
  };
}

/** A small cell for these tests; its figures are invented. */
export const CELL: Scenario = {
  format: 1,
  name: 'Bench',
  products: { straight: {}, bent: { factors: { sand: 1.5 }, times: { fit: 21 } } },
  steps: { fit: { time: 14 }, cure: { kind: 'wait', time: 30 }, sand: { time: 24, repeatTime: 9 } },
  people: { orla: { skills: { fit: 4, sand: 4 } }, kofi: { skills: { fit: 2, sand: 3 } } },
  shift: { allowance: 1.1 },
};

/**
 * The log with what is said of a day added to it, days in order; what was said of it before and is not said
 * now stays.
 */
export function withDay(log: LogBook, day: LogDay): LogBook {
  const before = log.days.find((one) => one.date === day.date);
  const days = [...log.days.filter((one) => one.date !== day.date), { ...before, ...day }];
  return { ...log, days: days.sort((a, b) => (a.date < b.date ? -1 : 1)) };
}

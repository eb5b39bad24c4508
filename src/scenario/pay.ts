/** The pay rules of a scenario file with every default filled in, hours turned into minutes. */
import { DEFAULTS } from './defaults.ts';
import type { Scenario } from './schema.ts';

export interface PayRules {
  /** Times the rate, in overtime. */
  overtimeFactor: number;
  /**
   * Overtime after so many paid minutes a day, or after the person's own end. Infinity: no rule by the day.
   */
  dailyAfter: number | 'own end';
  /** Overtime after so many minutes a week at the plain rate. Infinity: no rule by the week. */
  weeklyAfter: number;
  /** Double time after so many paid minutes a day. Infinity: never. */
  doubleAfter: number;
  doubleFactor: number;
  /** The seventh day in a row is overtime from its first minute, and double time after eight hours. */
  seventhDay: boolean;
}

/** In a file `null` switches a threshold off; left out, the default holds. */
export function resolvePay(scenario: Pick<Scenario, 'pay'>): PayRules {
  const { pay = {} } = scenario;
  const { dailyAfter, weeklyAfter = DEFAULTS.pay.weeklyAfter } = pay;
  return {
    overtimeFactor: pay.overtimeFactor ?? DEFAULTS.pay.overtimeFactor,
    dailyAfter: dailyAfter === undefined ? DEFAULTS.pay.dailyAfter : minutesOf(dailyAfter),
    weeklyAfter: minutesOf(weeklyAfter),
    doubleAfter: minutesOf(pay.doubleAfter ?? DEFAULTS.pay.doubleAfter),
    doubleFactor: pay.doubleFactor ?? DEFAULTS.pay.doubleFactor,
    seventhDay: pay.seventhDay ?? DEFAULTS.pay.seventhDay,
  };
}

const minutesOf = (hours: number | null): number => (hours === null ? Infinity : hours * 60);

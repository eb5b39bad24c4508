/**
 * Money over time: when something bought pays back, and what it is worth today, each with the range of the
 * gain behind it.
 */

/** An estimate and its range. */
export interface Ranged {
  estimate: number;
  low: number;
  high: number;
}

/**
 * Periods until what has come in covers what went out: the first time the running total reaches zero from
 * below, evenly spread within the period. `flows[0]` is paid at the start (time 0), `flows[1]` by the end of
 * period 1. Null: never within the flows given. 0: nothing is ever owed.
 */
export function payback(flows: number[]): number | null {
  let total = 0;
  let owed = false;
  for (const [period, flow] of flows.entries()) {
    const before = total;
    total += flow;
    if (owed && total >= 0) return period - 1 - before / flow;
    owed ||= total < 0;
  }
  return owed ? null : 0;
}

/** Worth today of flows at the ends of periods 0, 1, 2 ... at `rate` a period (0.1 is 10 %). */
export function presentValue(flows: number[], rate: number): number {
  return flows.reduceRight((later, flow) => later / (1 + rate) + flow, 0);
}

/**
 * Worth today of 1 a period at the end of each of `periods` (a part of one counts in proportion) at `rate` a
 * period.
 */
export function annuity(periods: number, rate: number): number {
  const whole = Math.floor(periods);
  let worth = 0;
  for (let period = whole; period > 0; period -= 1) worth = (worth + 1) / (1 + rate);
  return worth + (periods - whole) / (1 + rate) ** (whole + 1);
}

export interface Investment {
  price: number;
  /** Extra good units a shift; null where it changes none. */
  units: Ranged | null;
  /** What one extra good unit brings in, material off. */
  margin: number;
  /**
   * Labour cost saved a shift (overtime avoided), money; below zero where it costs more. Null where unknown
   * or unchanged.
   */
  saved: Ranged | null;
  shiftsPerYear: number;
  /** Yearly discount rate, per cent. */
  discount: number;
  /** Years of use the present value counts. */
  years: number;
}

export type Payback =
  | { kind: 'nothing to pay' }
  /** Shifts until it is paid for; the range is that of the gain. */
  | { kind: 'pays back'; shifts: Ranged }
  /**
   * The gain's interval covers zero: at the low end never. `shifts` at the estimate (null if that is not
   * above zero) and at best.
   */
  | { kind: 'may never pay back'; shifts: { estimate: number | null; low: number } }
  | { kind: 'never pays back' };

export interface Return {
  /** Money a shift. */
  gain: Ranged;
  payback: Payback;
  /** Worth today of the gain over the years of use, price off. */
  presentValue: Ranged;
}

/**
 * What an investment returns. The two parts of the gain are added end to end (low with low, high with high):
 * whatever they have to do with each other, the sum holds the truth at least as often as both parts do, so
 * the range is too wide rather than too narrow. Where the gain itself was measured run by run, hand it over
 * as `saved` with `units` null.
 */
export function investmentReturn(investment: Investment): Return {
  const { price, units, margin, saved } = investment;
  const gain = addRanges(scaleRange(units ?? NOTHING, margin), saved ?? NOTHING);
  const worth = investment.shiftsPerYear * annuity(investment.years, investment.discount / 100);
  const value = scaleRange(gain, worth);
  return {
    gain,
    payback: paybackOf(price, gain),
    presentValue: { estimate: value.estimate - price, low: value.low - price, high: value.high - price },
  };
}

/** Shifts until a price is covered by a gain a shift. */
export function paybackOf(price: number, gain: Ranged): Payback {
  if (price <= 0) return { kind: 'nothing to pay' };
  if (gain.high <= 0) return { kind: 'never pays back' };
  const best = price / gain.high;
  if (gain.low > 0)
    return {
      kind: 'pays back',
      shifts: { estimate: price / gain.estimate, low: best, high: price / gain.low },
    };
  return {
    kind: 'may never pay back',
    shifts: { estimate: gain.estimate > 0 ? price / gain.estimate : null, low: best },
  };
}

/**
 * Overtime avoided in money a shift: minutes avoided by all people together, at an average rate an hour times
 * its factor.
 */
export function overtimeMoney(minutes: Ranged, rate: number, factor: number): Ranged {
  return scaleRange(minutes, (rate * factor) / 60);
}

const NOTHING: Ranged = { estimate: 0, low: 0, high: 0 };

const scaleRange = (one: Ranged, by: number): Ranged => ({
  estimate: one.estimate * by,
  low: one.low * by,
  high: one.high * by,
});

const addRanges = (a: Ranged, b: Ranged): Ranged => ({
  estimate: a.estimate + b.estimate,
  low: a.low + b.low,
  high: a.high + b.high,
});

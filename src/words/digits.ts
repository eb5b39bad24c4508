/**
 * Writers of numbers with exactly so many decimals, thousands set apart: making one takes longer than writing
 * hundreds of numbers with it.
 */
const made: Intl.NumberFormat[] = [];

export const digits = (decimals: number): Intl.NumberFormat =>
  (made[decimals] ??= new Intl.NumberFormat('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  }));

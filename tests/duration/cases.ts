import type { Time } from '../../src/duration/time.ts';

/**
 * Times of every curve, usual and awkward, with tails that 32-bit words can reach (coefficient of variation
 * up to about 1.5).
 */
export const CASES: readonly Time[] = [
  12,
  { quick: 6, usual: 8, slow: 12 },
  { quick: 6, usual: 8, slow: 10 },
  { quick: 2, usual: 8, slow: 9 },
  { quick: 4, usual: 8, slow: 16 },
  { quick: 8, usual: 8, slow: 12 },
  { quick: 4, usual: 8, slow: 8 },
  { quick: 4, usual: 8, slow: 8.01 },
  { quick: 7.99, usual: 8, slow: 20 },
  { quick: 0, usual: 8, slow: 12 },
  { quick: 8, usual: 8, slow: 8 },
  { mean: 8, cv: 0.5 },
  { mean: 13, cv: 0.25 },
  { mean: 8, cv: 1.2 },
  { mean: 8, cv: 0 },
  { mean: 0, cv: 1 },
  { curve: 'triangular', least: 3, likeliest: 5, most: 20 },
  { curve: 'triangular', least: 3, likeliest: 3, most: 20 },
  { curve: 'triangular', least: 0, likeliest: 9, most: 9 },
  { curve: 'triangular', least: 4, likeliest: 4, most: 4 },
  { curve: 'gamma', mean: 8, cv: 0.3 },
  { curve: 'gamma', mean: 8, cv: 1 },
  { curve: 'gamma', mean: 8, cv: 1.4 },
  { curve: 'gamma', mean: 8, cv: 0.06 },
  { curve: 'gamma', mean: 8, cv: 0.04 },
  { curve: 'gamma', mean: 8, cv: 0.01 },
  { curve: 'weibull', shape: 0.8, scale: 5 },
  { curve: 'weibull', shape: 1.7207973, scale: 606.527558 },
  { curve: 'weibull', shape: 100, scale: 5 },
  { curve: 'exponential', mean: 8 },
  { curve: 'uniform', least: 2, most: 9 },
  { curve: 'uniform', least: 0, most: 1 },
  { curve: 'observed', values: [9, 4, 5, 3, 4] },
  { curve: 'observed', values: [7] },
];

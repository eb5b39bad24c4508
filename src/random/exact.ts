/**
 * The only transcendental functions the engine may use. The platform's own Math.exp and Math.log may differ
 * in the last bit from one browser to the next; these are plain JavaScript (after FreeBSD's msun and Cephes),
 * built from + - x / and integer operations, and so the same everywhere. Math.sqrt, floor, abs, min, max and
 * imul are exact by IEEE 754 or ECMAScript and are used as they are.
 */
import expOf from '@stdlib/math-base-special-exp';
import gammaOf from '@stdlib/math-base-special-gamma';
import logOf from '@stdlib/math-base-special-ln';
import gammaQuantileOf from '@stdlib/stats-base-dists-gamma-quantile';
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile';

/** e to the power x. */
export const exp: (x: number) => number = expOf;

/** Natural logarithm; -Infinity at 0, NaN below. */
export const log: (x: number) => number = logOf;

/**
 * `base` (0 or more) to the power `exponent`, within a few units in the last place times |exponent log base|.
 */
export const power = (base: number, exponent: number): number =>
  base === 0 ? (exponent === 0 ? 1 : 0) : exp(exponent * log(base));

/** Euler's gamma function, x > 0. */
export const gammaFunction: (x: number) => number = gammaOf;

/** Quantile of the standard normal curve, 0 < u < 1. */
export const normalQuantile = (u: number): number => normalQuantileOf(u, 0, 1);

/** Quantile of the gamma curve of this shape and scale 1, 0 < u < 1. */
export const gammaQuantile = (u: number, shape: number): number => gammaQuantileOf(u, shape, 1);

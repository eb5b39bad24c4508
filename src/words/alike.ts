/** Ranges under each other: written with the same number of decimals, whatever each alone would have. */
import type { Ranged } from '../money/payback.ts';
import { fixed, roundDown, roundUp, type RangeText } from './words.ts';

/** More would be read as a precision that nobody has. */
const MOST_DECIMALS = 2;
const A_FEW = 3;

/**
 * The same for all: enough for the narrowest to show its width to one figure, within reason. Ranges without a
 * known width ask for nothing.
 */
export function decimalsAlike(ranges: readonly Ranged[]): number {
  const wanted = ranges.map(({ low, high }) => {
    const half = (high - low) / 2;
    if (!Number.isFinite(half) || half === 0) return 0;
    return Math.max(half < A_FEW ? 1 : 0, Math.ceil(-Math.log10(half) - 1e-9));
  });
  return Math.min(MOST_DECIMALS, Math.max(0, ...wanted));
}

/**
 * An estimate and its range, rounded outwards. An end that leaves zero out and would be written as zero says
 * so: "−0.6 to under 0".
 */
export function rangeAlike({ estimate, low, high }: Ranged, decimals: number): RangeText {
  const [down, up] = [roundDown(low, decimals), roundUp(high, decimals)];
  const from = low > 0 && down === 0 ? 'over 0' : fixed(down, decimals);
  const to = high < 0 && up === 0 ? 'under 0' : fixed(up, decimals);
  return { estimate: fixed(estimate, decimals), range: low === high ? '' : `${from} to ${to}` };
}

/**
 * Decimals of a column of gains: as many as what matters needs, one at least. The narrowest would ask for
 * figures that nobody's decision hangs on.
 * @param matters the difference in units a shift that matters, over 0.
 */
export const gainDecimals = (matters: number): number =>
  Math.min(MOST_DECIMALS, Math.max(1, Math.ceil(-Math.log10(matters) - 1e-9)));

/** "+3.5 (3.2 to 3.8)" in a column of gains. */
export function gainCell(gain: Ranged, matters: number): string {
  const { estimate, range } = differenceAlike(gain, gainDecimals(matters));
  return range === '' ? estimate : `${estimate} (${range})`;
}

/** The same with the sign of a gain: "+3.5", "−0.3", "0.0". */
export function differenceAlike(difference: Ranged, decimals: number): RangeText {
  const { estimate, range } = rangeAlike(difference, decimals);
  return { estimate: difference.estimate > 0 && /[1-9]/.test(estimate) ? `+${estimate}` : estimate, range };
}

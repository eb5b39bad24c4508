/** What is said of usual days in a row: which days they are, what stands in the cell, where they differ. */
import type { Interval } from '../study/intervals/interval.ts';
import type { OnUsualDays } from '../study/usual-days.ts';
import { counted, fixed, listed, plain } from './words.ts';

type Days = Pick<OnUsualDays, 'warmUp' | 'counted' | 'begins' | 'ends' | 'byShift'>;

/** "usual days in a row (5 shifts, what stands over carried on, the first 2 not counted)". */
export const usualDaysWords = ({ warmUp, counted: counts }: Days): string =>
  `usual days in a row (${counted(warmUp + counts, 'shift')}, what stands over carried on, the first ${plain(warmUp)} not counted)`;

/** Units a shift by which the stock of the cell may grow, or shrink, without a word about it. */
const STEADY = 1;

/** What stands in the cell, and whether the days that count are alike. */
export function stockWords(days: Days, matters: number): string[] {
  const { begins, ends, byShift, warmUp, counted: counts } = days;
  const growth = (ends - begins) / counts;
  const stock = `As it is, the cell begins them with ${pieces(begins)} in it or waiting before it, and ends them with ${fixed(ends, 0)}.`;
  const grows =
    Math.abs(growth) <= STEADY
      ? []
      : growth > 0
        ? [
            `${fixed(growth, 1)} more come each shift than are made, so the stock grows: what more of a thing brings is said for a cell that never wants for parts.`,
          ]
        : [
            `${fixed(-growth, 1)} more are made each shift than come, so the stock runs down: more of a thing brings less later on.`,
          ];
  // Shifts of a file that says several are unlike each other by themselves.
  const alike = warmUp !== 2 || Math.max(...byShift) - Math.min(...byShift) < matters;
  const differ = alike
    ? []
    : [`The days that count still differ: ${listed(byShift.map((good) => fixed(good, 1)))} good units.`];
  return [stock, ...grows, ...differ];
}

const pieces = (count: number): string => {
  const text = fixed(count, 0);
  return `${text} ${text === '1' ? 'piece' : 'pieces'}`;
};

/** Where tonight's stock makes tomorrow's gain differ from that of usual days by what matters; else null. */
export function tonightWords(usual: Interval, tomorrow: Interval, matters: number): string | null {
  const more = tomorrow.estimate - usual.estimate;
  if (!(Math.abs(more) >= matters)) return null;
  return `Tomorrow, with tonight’s stock, it is ${fixed(Math.abs(more), 1)} ${more > 0 ? 'more' : 'fewer'}: that is tonight’s stock, not what is bought.`;
}

/** The arrivals of a list, one entry a unit. */
import { toMilliseconds } from './compile.ts';
import type { CompiledCell } from './tables.ts';

/** One arrival of a list, flat: `time` ms, `product` -1 where it is drawn. */
export interface ListedArrival {
  time: number;
  product: number;
  due: number;
  rush: boolean;
  name: string | null;
}

/** The arrivals of a list in order of time, one entry a unit. */
export const listArrivals = (cell: CompiledCell): ListedArrival[] => {
  const { intake } = cell.shift;
  if (intake.kind !== 'list') return [];
  const entries = intake.arrivals.flatMap((entry): ListedArrival[] => {
    const one: ListedArrival = {
      time: toMilliseconds(entry.at) + toMilliseconds(intake.late),
      product:
        entry.product === null
          ? -1
          : cell.shift.products.findIndex((product) => product.id === entry.product),
      due: entry.due === null ? Infinity : toMilliseconds(entry.due),
      rush: entry.rush,
      name: entry.name,
    };
    return Array.from({ length: entry.units }, () => one);
  });
  return entries
    .map((entry, i) => ({ entry, i }))
    .sort((a, b) => a.entry.time - b.entry.time || a.i - b.i)
    .map(({ entry }) => entry);
};

import { DEFAULTS } from '../../scenario/defaults.ts';
import { clockAfter } from '../../scenario/clock.ts';
import { clockTyped, parted, plainNumber, shown } from '../figures.ts';
import { freeId, postOf, stepName } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';
import { takesLots, withLot } from './rush.ts';

/** Pieces that come back from a later department and enter at a post; no new good units. */
export const returned: WhatIf = {
  word: 'returned',
  group: 'parts',
  takes: 'POST:UNITS@TIME',
  says: 'so many pieces come back from finishing then and begin at this post; no new good units',
  example: 'sand:3@09:00',
  such: (cell) => {
    const posts = cell.shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside);
    const last = posts.at(-1);
    return last === undefined || !takesLots(cell) ? null : `${last.id}:3@${clockAfter(cell.shift.start, 60)}`;
  },
  read(cell, given) {
    const [lot, at] = parted(given, '@');
    const [post, units] = parted(lot ?? '', ':');
    if (lot === null || post === null) throw new NotSo(`“${given}” does not say where, how many and when`);
    const step = postOf(cell, post);
    const count = plainNumber(units, 1, 100_000, true);
    const { products } = cell.scenario;
    const id = freeId(products, 'returned');
    const comes = clockTyped(at);
    return {
      changes: {
        products: {
          ...(products === undefined ? { [DEFAULTS.product.id]: {} } : {}),
          [id]: { name: 'returned piece', share: 0, enters: step.id, returned: true },
        },
        intake: withLot(cell, { at: comes, units: count, product: id }),
      },
      label: `${shown(count)} back to ${stepName(cell, step)} at ${comes}`,
    };
  },
  offers: () => [],
};

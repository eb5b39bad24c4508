import { clockAfter, minutesAfter } from '../../scenario/clock.ts';
import { DEFAULTS } from '../../scenario/defaults.ts';
import { capitalized, plural } from '../../words/words.ts';
import { bothParts, clockTyped, parted } from '../figures.ts';
import { anyStepOf, productName, productOf, stepName } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** Pieces stand aside before a step until somebody has decided. */
export const hold: WhatIf = {
  word: 'hold',
  group: 'parts',
  takes: '[PRODUCT@]STEP=TIME',
  says: 'all pieces (or those of a product) stand aside before a step until then',
  example: 'bent@sand=10:00',
  such: ({ shift }) => {
    const post = shift.steps.findLast(({ kind, aside }) => kind === 'hands' && !aside);
    return post === undefined ? null : `${post.id}=${clockAfter(shift.start, 120)}`;
  },
  read(cell, given) {
    const [thing, time] = bothParts(given);
    const [product, place] = parted(thing, '@');
    const step = anyStepOf(cell, place);
    const meant = product === null ? null : productOf(cell, product);
    const until = clockTyped(time);
    const { start, length } = cell.shift;
    if (minutesAfter(start, until) > length) throw new NotSo(`${until} is outside the shift`);
    const held = meant === null ? cell.shift.products : [meant];
    const more = held.map(({ id }) => ({ before: step.id, until, product: id }));
    const what = meant === null ? 'All pieces' : capitalized(plural(productName(cell, meant)));
    return {
      changes: {
        // A hold names a product; a file that names none has one without saying so.
        ...(cell.scenario.products === undefined ? { products: { [DEFAULTS.product.id]: {} } } : {}),
        holds: [...(cell.scenario.holds ?? []), ...more],
      },
      label: `${what} held before ${stepName(cell, step)} until ${until}`,
    };
  },
  offers: () => [],
};

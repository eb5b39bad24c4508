import { resolvePlant } from '../../scenario/resolve.ts';
import { capitalized, counted } from '../../words/words.ts';
import { bothParts, numberOf } from '../figures.ts';
import { postOf, stepName } from '../names.ts';
import type { WhatIf } from '../what-if.ts';

/** Benches of a post. */
export const bench: WhatIf = {
  word: 'bench',
  group: 'gear and benches',
  takes: 'POST=NUMBER, +NUMBER or -NUMBER',
  says: 'so many benches at a post in all',
  example: 'sand=3',
  such: ({ shift }) =>
    shift.steps.filter(({ benches }) => benches > 0).map(({ id, benches }) => `${id}=${benches + 1}`)[0] ??
    null,
  read(cell, given) {
    const [name, value] = bothParts(given);
    const post = postOf(cell, name);
    const benches = numberOf(value, post.benches, 0, 1000, true);
    const price = resolvePlant(cell.scenario).money.benchPrice;
    const more = benches - post.benches;
    return {
      changes: { steps: { [post.id]: { benches } } },
      label: `${capitalized(counted(benches, 'bench'))} at ${stepName(cell, post)} instead of ${post.benches}`,
      ...(more > 0 && price !== null ? { price: price * more } : {}),
    };
  },
  offers: ({ shift }) =>
    shift.steps
      .filter(({ benches, kind }) => kind === 'hands' && benches > 0)
      .map(({ id, benches }) => `${id}=${benches + 1}`),
};

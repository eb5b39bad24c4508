import type { ResolvedGear } from '../../scenario/resolve.ts';
import {
  capitalized,
  counted,
  inSentence,
  listed,
  ordinal,
  plural,
  singular,
  withArticle,
} from '../../words/words.ts';
import { bothParts, numberOf, shown } from '../figures.ts';
import { gearName, gearNamed, gearOf } from '../names.ts';
import type { Cell, WhatIf } from '../what-if.ts';

const MOST = 1000;

/** More or fewer of a gear: `--clamp 3` is short for `--gear-count clamp=3`. */
export const gearCount: WhatIf = {
  word: 'gear-count',
  group: 'gear and benches',
  takes: 'GEAR=NUMBER, +NUMBER or -NUMBER',
  says: 'so many of a gear in all; the name of any gear is short for it: --clamp 3',
  example: 'clamp=3',
  such: (cell) => gearOf(cell).map(({ id, count }) => `${id}=${count + 1}`)[0] ?? null,
  read(cell, given) {
    const [name, value] = bothParts(given);
    const gear = gearNamed(cell, name.replace(/^--/, ''));
    const count = numberOf(value, gear.count, 0, MOST, true);
    const more = count - gear.count;
    return {
      changes: { gear: { [gear.id]: { count } } },
      label: labelOf(cell, gear, count),
      ...(more > 0 && gear.price !== null ? { price: gear.price * more } : {}),
    };
  },
  offers: (cell) =>
    gearOf(cell).flatMap(({ id, count }) => [
      `${id}=${count + 1}`,
      ...(count > 1 ? [`${id}=${count - 1}`] : []),
    ]),
};

/** "A third clamp set", "A third and a fourth clamp set", "7 clamp sets instead of 2". */
function labelOf(cell: Cell, gear: ResolvedGear, count: number): string {
  const name = inSentence(gearName(cell, gear));
  const more = count - gear.count;
  if (more === 0) return `${capitalized(counted(count, name))}, as it is`;
  if (more < 1 || more > 2)
    return `${shown(count)} ${count === 1 ? singular(name) : plural(name)} instead of ${gear.count}`;
  const places = Array.from({ length: more }, (_, at) => withArticle(ordinal(gear.count + 1 + at)));
  return `${capitalized(listed(places))} ${singular(name)}`;
}

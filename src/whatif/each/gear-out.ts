import { clockAfter } from '../../scenario/clock.ts';
import { capitalized, counted, inSentence, singular, withArticle } from '../../words/words.ts';
import { bothParts, clockTyped, parted, plainNumber, shown } from '../figures.ts';
import { gearName, gearNamed, gearOf } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** One of a gear (or several) is out of order for a while. */
export const gearOut: WhatIf = {
  word: 'gear-out',
  group: 'gear and benches',
  takes: 'GEAR[:HOW MANY]=TIME+MINUTES',
  says: 'one of a gear (or so many) is out of order from then on, for so long',
  example: 'clamp=08:00+120',
  such: (cell) => gearOf(cell).map(({ id }) => `${id}=${clockAfter(cell.shift.start, 120)}+120`)[0] ?? null,
  read(cell, given) {
    const [thing, time] = bothParts(given);
    const [from, minutes] = parted(time, '+');
    if (from === null) throw new NotSo(`“${time}” is no time and minutes such as 08:00+120`);
    const [many, name] = thing.includes(':') ? [parted(thing, ':')[1], parted(thing, ':')[0]!] : ['1', thing];
    const gear = gearNamed(cell, name);
    const items = plainNumber(many, 1, Math.max(1, gear.count), true);
    const [at, long] = [clockTyped(from), plainNumber(minutes, 0.001, 100_000)];
    const before = cell.scenario.gear?.[gear.id]?.out ?? [];
    const one = inSentence(gearName(cell, gear));
    return {
      changes: {
        gear: {
          [gear.id]: { out: [...before, { from: at, minutes: long, ...(items === 1 ? {} : { items }) }] },
        },
      },
      label: `${items === 1 ? capitalized(withArticle(singular(one))) : capitalized(counted(items, one))} out of order from ${at} for ${shown(long)} min`,
    };
  },
  offers: (cell) => gearOf(cell).map(({ id }) => `${id}=${clockAfter(cell.shift.start, 120)}+120`),
};

import { DEFAULTS } from '../../scenario/defaults.ts';
import { plainNumber } from '../figures.ts';
import { counted } from '../../words/words.ts';
import type { WhatIf } from '../what-if.ts';

const MOST = 60;

/** How many shifts in a row are played, each with what the one before it left. */
export const shifts: WhatIf = {
  word: 'shifts',
  group: 'the shift',
  takes: 'NUMBER',
  says: 'play so many shifts in a row, a day each, each beginning with what the one before left; of every choice',
  example: '2',
  frames: true,
  such: () => '2',
  read({ scenario }, given) {
    const count = plainNumber(given, 1, MOST + 1, true);
    const filed = scenario.nextShifts ?? [];
    const last = filed.at(-1);
    const after = last === undefined ? 0 : (last.days ?? DEFAULTS.nextShift.days);
    const more = Array.from({ length: Math.max(0, count - 1 - filed.length) }, (_, at) => ({
      days: after + at + 1,
    }));
    const next = [...filed.slice(0, count - 1), ...more];
    return {
      changes: { nextShifts: next.length === 0 ? null : next },
      label: counted(count, 'shift') + (count === 1 ? '' : ' in a row'),
    };
  },
  offers: () => [],
};

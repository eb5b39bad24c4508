import { plainNumber, shown } from '../figures.ts';
import type { WhatIf } from '../what-if.ts';

/** How many are due. */
export const target: WhatIf = {
  word: 'target',
  group: 'the shift',
  takes: 'UNITS or none',
  says: 'so many good units are due in a shift; of every choice',
  example: '20',
  frames: true,
  such: ({ shift }) => String(Math.max(1, (shift.target ?? 20) - 1)),
  read(_cell, given) {
    if (given === 'none') return { changes: { shift: { target: null } }, label: 'Nothing due' };
    const units = plainNumber(given, 0, 100_000, true);
    return { changes: { shift: { target: units } }, label: `${shown(units)} due` };
  },
  offers: () => [],
};

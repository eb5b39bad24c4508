import { plainNumber, shown } from '../figures.ts';
import type { WhatIf } from '../what-if.ts';

/** How much overtime there may be. */
export const overtime: WhatIf = {
  word: 'overtime',
  group: 'the shift',
  takes: 'MINUTES',
  says: 'up to so much overtime until the number is made (without one: until the cell is empty); 0 for none',
  example: '45',
  such: () => '45',
  read({ shift }, given) {
    const cap = plainNumber(given, 0, 1440);
    const now = shift.overtime.until;
    const until = now === 'none' ? (shift.target === null ? 'empty' : 'target') : now;
    return {
      changes: { shift: { overtime: cap === 0 ? { until: 'none' } : { until, cap } } },
      label: cap === 0 ? 'No overtime' : `Up to ${shown(cap)} min of overtime`,
    };
  },
  offers: ({ shift }) => {
    const cap = shift.overtime.until === 'none' ? 0 : shift.overtime.cap;
    return [30, 60].filter((minutes) => minutes !== cap).map(String);
  },
};

import { comingLater } from '../../scenario/changing/inputs.ts';
import { plainNumber, shown } from '../figures.ts';
import type { WhatIf } from '../what-if.ts';

/** Everything that comes during the shift comes later. */
export const lateParts: WhatIf = {
  word: 'late-parts',
  group: 'parts',
  takes: 'MINUTES',
  says: 'all parts come so many minutes later',
  example: '60',
  such: () => '60',
  read({ scenario }, given) {
    const minutes = plainNumber(given, 0, 1440);
    return {
      changes: { intake: comingLater(scenario, minutes).intake },
      label: minutes === 60 ? 'Parts an hour late' : `Parts ${shown(minutes)} min late`,
    };
  },
  offers: () => ['60'],
};

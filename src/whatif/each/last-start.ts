import { clockAfter } from '../../scenario/clock.ts';
import { bothParts, clockTyped } from '../figures.ts';
import { capitalized } from '../../words/words.ts';
import { anyStepOf, stepName } from '../names.ts';
import type { WhatIf } from '../what-if.ts';

/** Until when a step may be begun. */
export const lastStart: WhatIf = {
  word: 'last-start',
  group: 'the shift',
  takes: 'STEP=TIME or STEP=none',
  says: 'a step (the glue-up, say) is not begun after this time; none: as long as it fits',
  example: 'glue=12:30',
  such: ({ shift }) => {
    const step = shift.steps.find(({ kind }) => kind === 'hands');
    return step === undefined
      ? null
      : `${step.id}=${clockAfter(shift.start, Math.min(390, shift.length - 30))}`;
  },
  read(cell, given) {
    const [name, value] = bothParts(given);
    const step = anyStepOf(cell, name);
    const what = capitalized(stepName(cell, step));
    if (value === 'none')
      return {
        changes: { steps: { [step.id]: { lastStart: null } } },
        label: `${what} without a last start`,
      };
    const at = clockTyped(value);
    return {
      changes: { steps: { [step.id]: { lastStart: at } } },
      label: `${what} not begun after ${at}`,
    };
  },
  offers: () => [],
};

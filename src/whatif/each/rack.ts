import { counted } from '../../words/words.ts';
import { bothParts, numberOf } from '../figures.ts';
import { anyStepOf, stepName } from '../names.ts';
import type { WhatIf } from '../what-if.ts';

/** Slots of the rack before a step. */
export const rack: WhatIf = {
  word: 'rack',
  group: 'gear and benches',
  takes: 'STEP=SLOTS, +SLOTS, -SLOTS or none',
  says: 'so many slots in the rack before a step; none: no limit',
  example: 'glue=8',
  such: ({ shift }) =>
    shift.steps.flatMap(({ id, rack: slots }) => (slots === null ? [] : [`${id}=${slots + 4}`]))[0] ?? null,
  read(cell, given) {
    const [name, value] = bothParts(given);
    const step = anyStepOf(cell, name);
    const before = `the rack before ${stepName(cell, step)}`;
    const was = step.rack === null ? 'no limit' : String(step.rack);
    if (value === 'none')
      return { changes: { steps: { [step.id]: { rack: null } } }, label: `No limit to ${before}` };
    const slots = numberOf(value, step.rack ?? 0, 0, 100_000, true);
    return {
      changes: { steps: { [step.id]: { rack: slots } } },
      label: `${counted(slots, 'slot')} in ${before} instead of ${was}`,
    };
  },
  offers: ({ shift }) =>
    shift.steps.flatMap(({ id, rack: slots }) => (slots === null ? [] : [`${id}=${slots + 4}`])),
};

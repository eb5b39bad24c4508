import { bothParts, plainNumber, shown } from '../figures.ts';
import { anyStepOf, stepName } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** How much is scrapped behind a step. */
export const scrap: WhatIf = {
  word: 'scrap',
  group: 'times',
  takes: 'STEP=PERCENT',
  says: 'so many pieces in a hundred are scrapped at the end of a step',
  example: 'check=2',
  such: ({ shift }) => {
    const last = shift.steps.findLast(({ kind, rework }) => kind === 'hands' && rework.length === 0);
    return last === undefined ? null : `${last.id}=2`;
  },
  read(cell, given) {
    const [name, value] = bothParts(given);
    const step = anyStepOf(cell, name);
    const percent = plainNumber(value, 0, 100);
    const back = step.rework.reduce((sum, one) => sum + one.share * 100, 0);
    if (percent + back > 100)
      throw new NotSo(`with what is sent back that is ${shown(percent + back)} in 100, more than all pieces`);
    return {
      changes: { steps: { [step.id]: { scrap: percent } } },
      label: `${shown(percent)} in 100 scrapped at ${stepName(cell, step)}`,
    };
  },
  offers: () => [],
};

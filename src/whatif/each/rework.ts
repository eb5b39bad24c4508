import { listed } from '../../scenario/reading/fault.ts';
import type { ResolvedStep } from '../../scenario/resolve.ts';
import { listed as all } from '../../words/words.ts';
import { bothParts, parted, plainNumber, shown } from '../figures.ts';
import { anyStepOf, stepName } from '../names.ts';
import { NotSo, type Cell, type Change, type WhatIf } from '../what-if.ts';

interface Asked {
  from: ResolvedStep;
  to: ResolvedStep;
  percent: number;
}

/** How much is sent back to a post. */
export const rework: WhatIf = {
  word: 'rework',
  group: 'times',
  takes: '[FROM:]POST=PERCENT[,POST=PERCENT]',
  says: 'so many pieces in a hundred are sent back to this post, from where they are now',
  example: 'sand=16',
  such: (cell) => {
    const from = cell.shift.steps.find((step) => step.rework.length > 0);
    return from === undefined ? null : `${from.id}:${from.rework[0]!.to}=8`;
  },
  read(cell, given) {
    const asked = given.split(',').map((one) => askedOf(cell, one.trim()));
    const steps = new Map<string, Change>();
    for (const { from } of asked) {
      const filed = cell.scenario.steps[from.id]?.rework ?? [];
      const ofFrom = asked.filter((one) => one.from.id === from.id);
      const percentTo = (to: string, now: number): number =>
        ofFrom.findLast((one) => one.to.id === to)?.percent ?? now;
      const back = filed.map((one) => ({ ...one, percent: percentTo(one.to, one.percent) }));
      const sum = back.reduce((total, one) => total + one.percent, from.scrap * 100);
      if (sum > 100)
        throw new NotSo(
          `more than all pieces would be sent back or scrapped at “${from.id}” (${shown(sum)} in 100)`,
        );
      steps.set(from.id, { rework: back });
    }
    const words = asked.map(
      ({ from, to, percent }) =>
        `${shown(percent)} in 100 back to ${stepName(cell, to)} from ${stepName(cell, from)}`,
    );
    return { changes: { steps: Object.fromEntries(steps) }, label: all(words) };
  },
  offers: ({ shift }) =>
    shift.steps.flatMap((step) => {
      const total = step.rework.reduce((sum, back) => sum + back.share, step.scrap);
      return step.rework
        .filter(
          ({ to, share }) =>
            share > 0 && total + share < 1 && step.rework.filter((one) => one.to === to).length === 1,
        )
        .map(({ to, share }) => `${step.id}:${to}=${Math.round(share * 2e6) / 1e4}`);
    }),
};

/** From where, to where, how much; where from is left out, from the only step that sends pieces there. */
function askedOf(cell: Cell, given: string): Asked {
  const [thing, value] = bothParts(given);
  const [whence, where] = parted(thing, ':');
  const to = anyStepOf(cell, where);
  const percent = plainNumber(value, 0, 100);
  const sends = (step: ResolvedStep): number => step.rework.filter((one) => one.to === to.id).length;
  const senders = cell.shift.steps.filter((step) => sends(step) > 0);
  const from = whence === null ? senders : senders.filter(({ id }) => id === anyStepOf(cell, whence).id);
  if (from.length === 1) {
    if (sends(from[0]!) === 1) return { from: from[0]!, to, percent };
    throw new NotSo(
      `“${from[0]!.id}” sends pieces back to “${to.id}” for several causes; change them in the file`,
    );
  }
  if (senders.length > 1 && whence === null)
    throw new NotSo(
      `several steps send pieces back there; say which: ${listed(senders.map(({ id }) => `${id}:${to.id}`))}`,
    );
  const ways = cell.shift.steps.flatMap((step) => step.rework.map((one) => `${step.id}:${one.to}`));
  throw new NotSo(
    ways.length === 0
      ? 'the file sends nothing back'
      : `nothing is sent back there${whence === null ? '' : ' from there'}; the file sends back ${listed(ways, 'and')}`,
  );
}

import { listed } from '../../scenario/reading/fault.ts';
import { curveOf } from '../../duration/time.ts';
import type { ResolvedStep } from '../../scenario/resolve.ts';
import { capitalized } from '../../words/words.ts';
import { laterBy, parted, shown, timeMoved } from '../figures.ts';
import { anyStepOf, stepName, waitsOf } from '../names.ts';
import { NotSo, type Cell, type Change, type Made, type WhatIf } from '../what-if.ts';

/** A wait such as the cure: how long. The data sheet sets it; this says what it would do. */
export const cure: WhatIf = {
  word: 'cure',
  group: 'times',
  takes: '[WAIT=]MINUTES, +MINUTES or -MINUTES',
  says: 'the cure (or another wait) takes so long, or so much longer or shorter; the data sheet rules',
  example: '+5',
  such: (cell) => {
    const [first, ...others] = waitsOf(cell);
    return first === undefined ? null : others.length === 0 ? '+5' : `${first.id}=+5`;
  },
  read(cell, given) {
    const [thing, value] = parted(given);
    return movedTime(cell, thing === null ? onlyWait(cell) : waitNamed(cell, thing), value);
  },
  offers: (cell) =>
    waitsOf(cell).flatMap(({ id, time }) => [
      ...(curveOf(time).typical(time) > 10 ? [`${id}=-10`] : []),
      `${id}=+15`,
    ]),
};

function onlyWait(cell: Cell): ResolvedStep {
  const waits = waitsOf(cell);
  const named = waits.filter((one) => /cur(e|ing)/i.test(`${one.id} ${one.name}`));
  const found = waits.length === 1 ? waits : named;
  if (found.length === 1) return found[0]!;
  throw new NotSo(
    waits.length === 0
      ? 'the file has no step that waits'
      : `the file has several waits; say which: ${listed(waits.map(({ id }) => id))}`,
  );
}

function waitNamed(cell: Cell, given: string): ResolvedStep {
  const step = anyStepOf(cell, given);
  if (step.kind === 'wait') return step;
  throw new NotSo(`“${step.id}” is no wait; for what hands take: --time ${step.id}=+1`);
}

/** The step's time moved, and that of each product that has its own there by as much. */
export function movedTime(cell: Cell, step: ResolvedStep, value: string): Made {
  const { by, usual } = timeMoved(step.time, value);
  const products = cell.shift.products.flatMap((product): [string, Change][] => {
    const task = product.tasks[step.id]!;
    if (!task.own) return [];
    const own = laterBy(task.time, by);
    if (own === null)
      throw new NotSo(`the time of ${product.name} at ${step.name} cannot be moved by ${shown(by)} min`);
    return [[product.id, { times: { [step.id]: own } }]];
  });
  return {
    changes: {
      steps: { [step.id]: { time: laterBy(step.time, by) } },
      ...(products.length === 0 ? {} : { products: Object.fromEntries(products) }),
    },
    label: `${capitalized(stepName(cell, step))} ${shown(usual)} min`,
  };
}

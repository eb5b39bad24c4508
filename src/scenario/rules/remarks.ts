/** What is pointed out in a cell that can run. */
import { listed, inMinutes } from '../reading/fault.ts';
import { remark, type Cell } from './cell.ts';
import { reachedByAny } from './ways.ts';

export function unusedThings(cell: Cell): void {
  const used = new Set(
    cell.shift.steps.flatMap((step) => [...step.uses, ...step.takes.map((take) => take.gear)]),
  );
  for (const gear of cell.shift.gear) {
    if (!used.has(gear.id))
      remark(
        cell,
        ['gear', gear.id],
        `"${gear.id}", which no step uses`,
        'gear that some step uses or takes',
        'add it to a step, or take it out',
      );
    else if (gear.count === 0)
      remark(
        cell,
        ['gear', gear.id, 'count'],
        '0',
        'at least 1 for the steps that need it to begin',
        'raise the count',
      );
  }
  const reached = reachedByAny(cell);
  for (const step of cell.shift.steps) {
    if (!reached.has(step))
      remark(
        cell,
        ['steps', step.id],
        `"${step.id}", which no unit comes to`,
        'steps that some product goes through, or that rework leads to',
        'send rework there, or take the step out',
      );
  }
}

export function money(cell: Cell): void {
  const { scenario, shift } = cell;
  const unpaid = shift.people.filter((person) => person.pay === 0).map((person) => person.id);
  if (unpaid.length === 0) return;
  if (scenario.pay !== undefined) {
    remark(
      cell,
      ['people', unpaid[0]!, 'pay'],
      `no pay for ${listed(unpaid, 'and')}, and rules for overtime pay`,
      'the pay an hour',
      'add "pay", or costs come out too low',
    );
  } else if (unpaid.length < shift.people.length) {
    remark(
      cell,
      ['people', unpaid[0]!, 'pay'],
      `no pay for ${listed(unpaid, 'and')}, while others have one`,
      'the pay an hour',
      'add "pay", or costs come out too low',
    );
  }
}

/** Shorter than any yellow glue is left in clamps; the figure is common practice, no source. */
const SHORT_CURE = 20;

export function glue(cell: Cell): void {
  cell.shift.steps.forEach((step, i) => {
    if (step.kind !== 'wait') return;
    const shortest = Math.min(
      ...cell.shift.products.map((product) => cell.compiled(product.tasks[step.id]!.time).mean),
    );
    const inClamps = cell.shift.steps.some((by) => by.takes.length > 0 && cell.shift.steps.indexOf(by) < i);
    if (inClamps && shortest < SHORT_CURE && !/rest/i.test(`${step.id} ${step.name}`)) {
      remark(
        cell,
        ['steps', step.id, 'time'],
        `a cure of ${inMinutes(shortest)}`,
        `usually ${SHORT_CURE} min or more`,
        "look at the adhesive's data sheet: it rules",
      );
    }
  });
  restBeforeSanding(cell);
}

/** A hands step whose id or name says so; "rest before sanding" is a wait. */
export const isSanding = (step: { id: string; name: string; kind: 'hands' | 'wait' }): boolean =>
  step.kind === 'hands' && /sand/i.test(`${step.id} ${step.name}`);

function restBeforeSanding(cell: Cell): void {
  const main = cell.shift.steps.filter((step) => !step.aside);
  const sand = main.findIndex(isSanding);
  const waits = main
    .slice(0, Math.max(sand, 0))
    .filter((step) => step.kind === 'wait' && cell.compiled(step.time).mean > 0);
  if (sand === -1 || waits.length !== 1) return;
  remark(
    cell,
    ['steps', main[sand]!.id],
    `no rest between "${waits[0]!.id}" and "${main[sand]!.id}"`,
    "a rest as long as the adhesive's data sheet asks for before sanding",
    'add a wait before it if the data sheet asks for one',
  );
}

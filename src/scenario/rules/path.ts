/** The path: what may stand on it, aside from it, first and last. */
import { RULE_NAMES } from '../step-rules.ts';
import { listed, type Place } from '../reading/fault.ts';
import type { Step } from '../schema.ts';
import { fault, stepOf, type Cell } from './cell.ts';

/** Rules on the path that must hold before anything can follow it. */
export function path(cell: Cell): void {
  const main = cell.shift.steps.filter((step) => !step.aside);
  if (main.length === 0)
    fault(
      cell,
      ['steps'],
      'only steps aside',
      'at least one step on the main path',
      'take "aside" away from the steps every unit goes through',
    );
  for (const [id, step] of Object.entries(cell.scenario.steps)) {
    if (step.kind === 'wait') waitAlone(cell, id, step);
    aside(cell, id, step);
    rework(cell, id);
  }
  if (main.length > 0)
    products(
      cell,
      main.map((step) => step.id),
    );
}

/** What only people do, or a line has, says nothing at a wait. */
const HANDS_ONLY = [
  'people',
  'benches',
  'whole',
  'plannedAt',
  ...RULE_NAMES,
  'rack',
  'order',
  'takes',
] as const;

function waitAlone(cell: Cell, id: string, step: Step): void {
  for (const key of HANDS_ONLY) {
    if (step[key] === undefined) continue;
    const remedy =
      key === 'takes'
        ? 'write it as "uses": gear of a wait is held until the next hands step starts'
        : 'take it away, or make the step a hands step';
    fault(
      cell,
      ['steps', id, key],
      `"${key}" at the wait "${id}"`,
      'at hands steps only: a wait needs no people, no bench and no line',
      remedy,
    );
  }
}

function aside(cell: Cell, id: string, step: Step): void {
  const at: Place = ['steps', id, 'then'];
  if (!step.aside) {
    if (step.then !== undefined)
      fault(
        cell,
        at,
        `"then" at "${id}"`,
        '"then" at steps aside only: the main path goes on in the file\'s order',
        'take it away, or add "aside": true',
      );
    return;
  }
  if (step.then === undefined) {
    fault(
      cell,
      at,
      'nothing',
      'the step that follows a step aside',
      `add "then": the step a unit goes to after "${id}"`,
    );
    return;
  }
  const seen = [id];
  let next: string | undefined = step.then;
  while (next !== undefined && cell.scenario.steps[next]?.aside) {
    if (seen.includes(next)) {
      // Told once a loop, at the step that stands first in the file.
      const loop = seen.slice(seen.indexOf(next));
      const first = Object.keys(cell.scenario.steps).find((one) => loop.includes(one));
      if (first === id)
        fault(
          cell,
          at,
          `a loop: ${[...loop, next].join(', then ')}`,
          'a way back to the main path',
          'let one of them go on to a step of the main path',
        );
      return;
    }
    seen.push(next);
    next = cell.scenario.steps[next]?.then;
  }
}

function rework(cell: Cell, id: string): void {
  const from = stepOf(cell, id);
  const main = cell.shift.steps.filter((step) => !step.aside).map((step) => step.id);
  from.rework.forEach((back, i) => {
    const target = stepOf(cell, back.to);
    if (from.aside || target.aside || main.indexOf(back.to) <= main.indexOf(id)) return;
    fault(
      cell,
      ['steps', id, 'rework', i, 'to'],
      `"${back.to}", which comes after "${id}"`,
      `"${id}" itself, a step before it, or a step aside`,
      'name the step it goes back to',
    );
  });
}

function products(cell: Cell, main: string[]): void {
  for (const product of cell.shift.products) {
    const at: Place = cell.scenario.products === undefined ? [] : ['products', product.id];
    const way = main.filter((step) => !product.skips.includes(step));
    if (way.length === 0) {
      fault(
        cell,
        [...at, 'skips'],
        `"${product.id}" skipping every step`,
        'at least one step left',
        'take a step out of "skips"',
      );
      continue;
    }
    if (!way.includes(product.enters)) {
      fault(
        cell,
        [...at, 'enters'],
        `"${product.enters}", a step ${product.skips.includes(product.enters) ? `"${product.id}" skips` : 'aside'}`,
        `a step of its path: ${listed(way)}`,
        'name one of these',
      );
      continue;
    }
    // The way is this product's own doing only where it says so.
    const ownPlace = (...keys: ('enters' | 'skips')[]): Place => {
      const given = keys.find((key) => cell.scenario.products?.[product.id]?.[key] !== undefined);
      return given === undefined ? ['steps'] : [...at, given];
    };
    const who = cell.scenario.products === undefined ? '' : ` of "${product.id}"`;
    const last = way.at(-1)!;
    if (stepOf(cell, product.enters).kind === 'wait') {
      fault(
        cell,
        ownPlace('enters', 'skips'),
        `the wait "${product.enters}" as the first step${who}`,
        'a hands step first',
        'add the step that comes before the wait, or let it enter later',
      );
    }
    if (stepOf(cell, last).kind === 'wait') {
      fault(
        cell,
        ownPlace('skips'),
        `the wait "${last}" as the last step${who}`,
        'a hands step last',
        'add the step that ends the wait, such as unclamping',
      );
    }
  }
}

/** Rules on steps a product skips; they follow its way, so the path itself must be sound. */
export function skips(cell: Cell): void {
  for (const product of cell.shift.products) {
    for (const step of cell.shift.steps) {
      if (product.skips.includes(step.id)) continue;
      step.rework.forEach((back, i) => {
        if (back.share === 0 || !product.skips.includes(back.to)) return;
        fault(
          cell,
          ['steps', step.id, 'rework', i, 'to'],
          `"${back.to}", a step that "${product.id}" skips`,
          `a step that "${product.id}" goes through`,
          `take "${back.to}" out of its "skips", or let it skip "${step.id}" too`,
        );
      });
      if (step.aside && step.next !== null && product.skips.includes(step.next)) {
        fault(
          cell,
          ['steps', step.id, 'then'],
          `"${step.next}", a step that "${product.id}" skips`,
          `a step that "${product.id}" goes through`,
          `take "${step.next}" out of its "skips", or name another step`,
        );
      }
    }
  }
}

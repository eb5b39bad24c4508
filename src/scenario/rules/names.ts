/** Every name that points to something points to something there is. The nearest name is offered. */
import type { Place } from '../reading/fault.ts';
import { benchOf } from '../resolve.ts';
import { fault, gearIds, known, noneTwice, personIds, productIds, stepIds, type Cell } from './cell.ts';

export function names(cell: Cell): void {
  stepNames(cell);
  productNames(cell);
  personNames(cell);
  otherNames(cell);
  carryNames(cell);
  benchNames(cell);
}

function each(
  cell: Cell,
  place: Place,
  list: readonly string[],
  names: readonly string[],
  what: string,
): void {
  list.forEach((name, i) => known(cell, [...place, i], name, names, what));
  noneTwice(cell, place, list);
}

function keys(
  cell: Cell,
  place: Place,
  group: object | undefined,
  names: readonly string[],
  what: string,
): void {
  for (const key of Object.keys(group ?? {})) known(cell, [...place, key], key, names, what);
}

function stepNames(cell: Cell): void {
  const steps = stepIds(cell);
  const gear = gearIds(cell);
  for (const [id, step] of Object.entries(cell.scenario.steps)) {
    const at: Place = ['steps', id];
    each(cell, [...at, 'uses'], step.uses ?? [], gear, 'kind of gear');
    (step.takes ?? []).forEach((take, i) => {
      known(cell, [...at, 'takes', i, 'gear'], take.gear, gear, 'kind of gear');
      known(cell, [...at, 'takes', i, 'until'], take.until, steps, 'step');
      if (
        (step.takes ?? []).findIndex((other) => other.gear === take.gear) < i ||
        step.uses?.includes(take.gear)
      ) {
        fault(
          cell,
          [...at, 'takes', i, 'gear'],
          `"${take.gear}" a second time at this step`,
          'each kind of gear once a step',
          'take one away',
        );
      }
    });
    (step.rework ?? []).forEach((back, i) => known(cell, [...at, 'rework', i, 'to'], back.to, steps, 'step'));
    if (step.then !== undefined) known(cell, [...at, 'then'], step.then, steps, 'step');
  }
}

function productNames(cell: Cell): void {
  const steps = stepIds(cell);
  for (const [id, product] of Object.entries(cell.scenario.products ?? {})) {
    const at: Place = ['products', id];
    keys(cell, [...at, 'factors'], product.factors, steps, 'step');
    keys(cell, [...at, 'times'], product.times, steps, 'step');
    keys(cell, [...at, 'timesFrom'], product.timesFrom, steps, 'step');
    keys(cell, [...at, 'known'], product.known, steps, 'step');
    each(cell, [...at, 'skips'], product.skips ?? [], steps, 'step');
    if (product.enters !== undefined) known(cell, [...at, 'enters'], product.enters, steps, 'step');
  }
}

function personNames(cell: Cell): void {
  const steps = stepIds(cell);
  for (const [id, person] of Object.entries(cell.scenario.people)) {
    const at: Place = ['people', id];
    keys(cell, [...at, 'skills'], person.skills, steps, 'step');
    each(cell, [...at, 'covers'], person.covers ?? [], steps, 'step');
    (person.changes ?? []).forEach((change, i) =>
      each(cell, [...at, 'changes', i, 'covers'], change.covers, steps, 'step'),
    );
  }
  each(
    cell,
    ['shift', 'overtime', 'who'],
    cell.scenario.shift?.overtime?.who ?? [],
    personIds(cell),
    'person',
  );
}

function otherNames(cell: Cell): void {
  const { intake, holds, limits } = cell.scenario;
  const steps = stepIds(cell);
  if (intake?.kind === 'list') {
    // There may be a hundred thousand, in every option and shift: only a wrong one is spoken of.
    const products = new Set(productIds(cell));
    intake.arrivals.forEach((one, i) => {
      if (one.product !== undefined && !products.has(one.product))
        product(cell, ['intake', 'arrivals', i, 'product'], one.product);
    });
  }
  (holds ?? []).forEach((hold, i) => {
    known(cell, ['holds', i, 'before'], hold.before, steps, 'step');
    if (hold.product !== undefined) product(cell, ['holds', i, 'product'], hold.product);
  });
  keys(cell, ['limits', 'vibration'], limits?.vibration, steps, 'step');
  keys(cell, ['limits', 'trigger'], limits?.trigger, steps, 'step');
}

const product = (cell: Cell, place: Place, name: string): boolean =>
  known(cell, place, name, productIds(cell), 'product');

function carryNames(cell: Cell): void {
  const steps = stepIds(cell);
  (cell.scenario.carryOver ?? []).forEach((unit, i) => {
    const at: Place = ['carryOver', i];
    known(cell, [...at, 'at'], unit.at, steps, 'step');
    if (unit.to !== undefined) known(cell, [...at, 'to'], unit.to, steps, 'step');
    if (unit.product !== undefined) product(cell, [...at, 'product'], unit.product);
    if (unit.person !== undefined) known(cell, [...at, 'person'], unit.person, personIds(cell), 'person');
    // The same kind more than once where it is taken more than once: see carry-over.ts.
    unit.gear?.forEach((gear, g) => known(cell, [...at, 'gear', g], gear, gearIds(cell), 'kind of gear'));
    keys(cell, [...at, 'visits'], unit.visits, steps, 'step');
  });
}

/** `<step>-bench` stands for a step's own benches in every result. */
function benchNames(cell: Cell): void {
  const taken = new Set(stepIds(cell).map(benchOf));
  for (const id of gearIds(cell)) {
    if (taken.has(id))
      fault(
        cell,
        ['gear', id],
        `gear named "${id}"`,
        'any name but that of a step with "-bench"',
        'write "benches" at the step, or choose another name',
      );
  }
}

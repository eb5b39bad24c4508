/**
 * What is in the cell at the start could be there: at its step in its state, with gear and places that exist.
 */
import { DEFAULTS } from '../defaults.ts';
import { inMinutes, listed, type Place } from '../reading/fault.ts';
import type { ResolvedProduct, ResolvedStep } from '../resolve.ts';
import type { CarryOver } from '../schema.ts';
import { fault, stepOf, type Cell } from './cell.ts';
import { holdings, holdingWay, mainWay, position, type Holding } from './ways.ts';

type State = NonNullable<CarryOver['state']>;

interface Carried {
  unit: CarryOver;
  state: State;
  step: ResolvedStep;
  units: number;
  place: Place;
}

export function carryOver(cell: Cell): void {
  const before = cell.faults.length;
  const all = (cell.scenario.carryOver ?? []).map((unit, i): Carried => ({
    unit,
    state: unit.state ?? DEFAULTS.carried.state,
    step: stepOf(cell, unit.at),
    units: unit.units ?? 1,
    place: ['carryOver', i],
  }));
  const mayHold = holdable(cell);
  for (const one of all) {
    state(cell, one);
    inHand(cell, one);
    where(cell, one);
    namedGear(cell, one, mayHold);
  }
  twoAtOnce(cell, all);
  if (cell.faults.length > before) return;
  enoughGear(cell, all);
  enoughPlaces(cell, all);
}

function state(cell: Cell, { unit, state, step, place }: Carried): void {
  const wait = step.kind === 'wait';
  if (wait && state !== 'curing') {
    fault(
      cell,
      [...place, 'state'],
      `"${state}" at the wait "${step.id}"`,
      '"curing" at a wait',
      'write "curing", or name the hands step after the wait as "at"',
    );
  } else if (!wait && state === 'curing') {
    fault(
      cell,
      [...place, 'state'],
      `"curing" at the hands step "${step.id}"`,
      '"waiting", "in hand", "put down" or "blocked" at a hands step',
      'name the wait as "at", or write another state',
    );
  }
  if (unit.minutes !== undefined && (state === 'waiting' || state === 'blocked')) {
    fault(
      cell,
      [...place, 'minutes'],
      `minutes of a unit that is ${state}`,
      'minutes only in hand (worked), curing or put down (left)',
      'take "minutes" away, or add the state',
    );
  }
  if (unit.to !== undefined && state !== 'blocked')
    fault(
      cell,
      [...place, 'to'],
      `"to" of a unit that is ${state}`,
      '"to" of a blocked unit only',
      'take it away, or write "blocked"',
    );
  if (unit.person !== undefined && state !== 'in hand') {
    fault(
      cell,
      [...place, 'person'],
      `"person" of a unit that is ${state}`,
      '"person" of a unit in hand only',
      'take it away, or write "in hand"',
    );
  }
}

function inHand(cell: Cell, { unit, state, step, units, place }: Carried): void {
  if (state !== 'in hand' || step.kind === 'wait') return;
  if (units > 1)
    fault(
      cell,
      [...place, 'units'],
      `${units} units in hand at once`,
      'one unit in hand an entry',
      'write one entry a unit, each with its person',
    );
  if (step.people === 2) {
    fault(
      cell,
      [...place, 'state'],
      `"in hand" at "${step.id}", which takes two people`,
      '"put down" there',
      'write "put down" with the minutes left: the two who cover it take it up again',
    );
    return;
  }
  if (unit.person === undefined) {
    fault(cell, [...place, 'person'], 'nothing', 'the person who has it in hand', 'add "person"');
    return;
  }
  const person = cell.shift.people.find((one) => one.id === unit.person)!;
  const skill = person.skills[step.id];
  if (skill === undefined || !person.cover.some((one) => one.steps.includes(step.id))) {
    const able = cell.shift.people
      .filter((one) => one.cover.some((cover) => cover.steps.includes(step.id)))
      .map((one) => one.id);
    fault(
      cell,
      [...place, 'person'],
      `"${person.id}", who does not cover "${step.id}"`,
      `somebody who covers it: ${listed(able)}`,
      'name one of these',
    );
    return;
  }
  const most = cell.compiled(timeHere(cell, unit, step)).longest;
  const factor =
    unit.product === undefined ? Infinity : (cell.scenario.products?.[unit.product]?.factors?.[step.id] ?? 1);
  const limit =
    most === Infinity
      ? Infinity
      : most * (cell.scenario.products === undefined ? 1 : factor) * skill.factor * cell.shift.allowance;
  if (unit.minutes !== undefined && unit.minutes > limit) {
    fault(
      cell,
      [...place, 'minutes'],
      `${inMinutes(unit.minutes)} worked already`,
      `at most ${inMinutes(limit)}, the longest "${step.id}" can take`,
      'lower the minutes, or let the unit wait at the next step',
    );
  }
}

const timeHere = (cell: Cell, unit: CarryOver, step: ResolvedStep): ResolvedStep['time'] =>
  (unit.product === undefined ? undefined : cell.scenario.products?.[unit.product]?.times?.[step.id]) ??
  step.time;

/** The place of a unit on its own product's way, and where a blocked one can go. */
function where(cell: Cell, { unit, state, step, place }: Carried): void {
  const skipping = cell.shift.products.filter((product) => product.skips.includes(step.id));
  const product = skipping.find((one) => one.id === unit.product);
  if (product !== undefined) {
    fault(
      cell,
      [...place, 'at'],
      `"${step.id}", a step "${product.id}" skips`,
      'a step of its own way',
      'name another step or product',
    );
  } else if (unit.product === undefined && skipping.length > 0) {
    fault(
      cell,
      [...place, 'product'],
      `nothing, at "${step.id}", which ${listed(
        skipping.map((one) => one.id),
        'and',
      )} skips`,
      'the product of the unit',
      'add "product"',
    );
  }
  if (state !== 'blocked' || unit.to === undefined) return;
  const ways = [...(step.next === null ? [] : [step.next]), ...step.rework.map((back) => back.to)];
  const on = cell.shift.products
    .filter((one) => unit.product === undefined || one.id === unit.product)
    .flatMap((one) => {
      const way = mainWay(cell, one);
      return way[way.indexOf(step) + 1]?.id ?? [];
    });
  if (!ways.includes(unit.to) && !on.includes(unit.to))
    fault(
      cell,
      [...place, 'to'],
      `"${unit.to}"`,
      `a step that follows "${step.id}": ${listed([...new Set([...on, ...ways])])}`,
      'name one of these',
    );
}

type MayHold = (unit: CarryOver, step: ResolvedStep) => Holding[];

/** What a unit may have in hand at a step, by its product. */
function holdable(cell: Cell): MayHold {
  const ways = holdings(cell).map((holding) => ({
    holding,
    steps: new Map(cell.shift.products.map((product) => [product, holdingWay(cell, product, holding).steps])),
  }));
  return (unit, step) =>
    ways
      .filter(({ steps }) => productsOf(cell, unit).some((product) => steps.get(product)!.has(step)))
      .map(({ holding }) => holding);
}

/**
 * A unit that waits for the taking step has not taken yet; one that has ended the freeing step has it no
 * more.
 */
const holdsIn = (state: State, step: ResolvedStep, holding: Holding): boolean =>
  !(holding.by === step && state === 'waiting') && !(holding.until === step && state === 'blocked');

function namedGear(cell: Cell, { unit, state, step, place }: Carried, mayHold: MayHold): void {
  const held = mayHold(unit, step)
    .filter((one) => holdsIn(state, step, one))
    .map((one) => one.gear);
  const left = [...held];
  (unit.gear ?? []).forEach((gear, i) => {
    const at = left.indexOf(gear);
    if (at >= 0) return void left.splice(at, 1);
    fault(
      cell,
      [...place, 'gear', i],
      `"${gear}" with a unit ${state} at "${step.id}"`,
      held.length === 0 ? 'no taken gear there' : `what is held there: ${listed([...new Set(held)])}`,
      'take it away, or correct the step or its state',
    );
  });
}

function twoAtOnce(cell: Cell, all: Carried[]): void {
  const busy = new Map<string, Carried>();
  for (const one of all) {
    if (one.state !== 'in hand' || one.unit.person === undefined) continue;
    const other = busy.get(one.unit.person);
    if (other === undefined) busy.set(one.unit.person, one);
    else
      fault(
        cell,
        [...one.place, 'person'],
        `"${one.unit.person}", who has another unit in hand`,
        'one unit in hand a person',
        'write "put down", or name somebody else',
      );
  }
}

/** The products a unit may be of: its own where it is said. */
const productsOf = (cell: Cell, unit: CarryOver): ResolvedProduct[] =>
  cell.shift.products.filter((product) => unit.product === undefined || product.id === unit.product);

/** Whether a unit at `step` took what `by` takes: a product that skips it, or enters behind it, did not. */
function hasBeenAt(cell: Cell, unit: CarryOver, by: ResolvedStep, step: ResolvedStep): boolean {
  const visits = unit.visits?.[by.id];
  if (by === step) return true;
  if (visits !== undefined) return visits > 0;
  return productsOf(cell, unit).some((product) => mainWay(cell, product).includes(by));
}

/** The taken gear a unit has: what the file says, or what the path says it holds at this step. */
function gearOf(cell: Cell, { unit, state, step }: Carried): string[] {
  if (unit.gear !== undefined) return unit.gear;
  if (step.aside) return [];
  return holdings(cell)
    .filter(
      (one) =>
        !one.by.aside &&
        !one.until.aside &&
        position(cell, one.by) <= position(cell, step) &&
        position(cell, step) <= position(cell, one.until) &&
        holdsIn(state, step, one) &&
        hasBeenAt(cell, unit, one.by, step),
    )
    .map((one) => one.gear);
}

function enoughGear(cell: Cell, all: Carried[]): void {
  for (const gear of cell.shift.gear) {
    const each = (one: Carried): number =>
      gearOf(cell, one).filter((id) => id === gear.id).length ||
      Number(one.state !== 'waiting' && one.step.uses.includes(gear.id));
    const holding = all.filter((one) => each(one) > 0);
    const total = holding.reduce((sum, one) => sum + one.units * each(one), 0);
    if (total <= gear.count) continue;
    const what =
      gear.kind === 'bench' ? `the benches of "${gear.id.replace(/-bench$/, '')}"` : `"${gear.id}"`;
    fault(
      cell,
      holding.at(-1)!.place,
      holding.some((one) => each(one) > 1)
        ? `${total} of ${what} held by what stands in the cell at the start`
        : `${total} units at the start with one of ${what} each`,
      `at most the ${gear.count} there are`,
      'take units out of the carry-over, or raise the count',
    );
  }
}

/**
 * Units that wait in a rack fit into it. At a first step they are held outside; after a wait they stand in no
 * slot.
 */
function enoughPlaces(cell: Cell, all: Carried[]): void {
  for (const step of cell.shift.steps) {
    const first = cell.shift.products.some((product) => product.enters === step.id);
    const afterWait = cell.shift.steps.some((one) => one.kind === 'wait' && one.next === step.id);
    if (step.rack === null || first || afterWait) continue;
    const waiting = all.filter((one) => one.step === step && one.state === 'waiting');
    const total = waiting.reduce((sum, one) => sum + one.units, 0);
    if (total > step.rack)
      fault(
        cell,
        waiting.at(-1)!.place,
        `${total} units waiting before "${step.id}"`,
        `at most the ${step.rack} slots of its rack`,
        'take some out of the carry-over, raise "rack", or write them as blocked at the step before',
      );
  }
}

/** What comes in, and what is held back. */
import { listed, type Place } from '../reading/fault.ts';
import { fault, stepOf, type Cell } from './cell.ts';

export function intake(cell: Cell): void {
  const { carryOver = [], intake: coming } = cell.scenario;
  carryOver.forEach((one, i) => {
    const said = (['due', 'dueIn', 'dueAfter'] as const).filter((key) => one[key] !== undefined);
    if (said.length > 1) dueTwice(cell, ['carryOver', i, said[1]!]);
  });
  (coming?.kind === 'list' ? coming.arrivals : []).forEach((one, i) => {
    if (one.due !== undefined && one.dueAfter !== undefined)
      dueTwice(cell, ['intake', 'arrivals', i, 'dueAfter']);
  });
  outRack(cell);
  const shares = cell.shift.products.reduce((sum, product) => sum + product.share, 0);
  if (shares === 0)
    fault(
      cell,
      ['products'],
      'shares of 0 throughout',
      'at least one share of more than 0',
      'write the mix, for example 70 and 30',
    );
}

/** A part-filled rack is one that is here, and has room. */
function outRack(cell: Cell): void {
  const rack = cell.shift.outRack;
  if (rack === null) return;
  const { size, racks, standing, away } = rack;
  if (away.length > racks)
    fault(
      cell,
      ['outRack', 'away'],
      `${away.length} racks away`,
      `at most the ${racks} there are`,
      'take some out',
    );
  if (standing >= size || (standing > 0 && away.length >= racks))
    fault(
      cell,
      ['outRack', 'standing'],
      `${standing} units on a part-filled rack`,
      standing >= size ? `fewer than the ${size} that fill it` : 'none where all racks are away',
      'write what stands on the rack that is being filled',
    );
}

const dueTwice = (cell: Cell, place: Place): void =>
  fault(cell, place, 'a due time said twice', 'one way of saying when it is due', 'take one of the two away');

/** Units of a shift, carried over ones included: each takes memory as long as the shift runs. */
const MOST_UNITS = 100_000;

export function unitsInAll(cell: Cell): void {
  const carried = (cell.scenario.carryOver ?? []).reduce((sum, unit) => sum + (unit.units ?? 1), 0);
  const total = carried + arriving(cell);
  if (total <= MOST_UNITS) return;
  const where = carried > MOST_UNITS ? 'carryOver' : 'intake';
  fault(
    cell,
    [where],
    `${total.toLocaleString('en-US', { maximumFractionDigits: 0 })} units in one shift`,
    `at most ${MOST_UNITS.toLocaleString('en-US')}`,
    'check the "units" of the entries, or divide the work among several files',
  );
}

/** Units that come within the shift, on average where chance says how many. */
function arriving({ shift: { intake: coming, length }, compiled }: Cell): number {
  switch (coming.kind) {
    case 'at start':
      return coming.units;
    case 'list':
      return coming.arrivals.reduce((sum, entry) => sum + (entry.units ?? 1), 0);
    case 'beat':
      return Math.min(coming.units ?? Infinity, length / coming.every);
    case 'random':
      return Math.min(coming.units ?? Infinity, length / compiled(coming.gap).mean);
    case 'constant':
      return coming.inside;
  }
}

export function holds(cell: Cell): void {
  if (cell.scenario.holds === undefined) return;
  const { carryOver, intake: coming } = cell.scenario;
  const named = new Set(
    [...(carryOver ?? []), ...(coming?.kind === 'list' ? coming.arrivals : [])].flatMap(
      (unit) => unit.name ?? [],
    ),
  );
  cell.scenario.holds.forEach((hold, i) => {
    if (stepOf(cell, hold.before).kind === 'wait') {
      fault(
        cell,
        ['holds', i, 'before'],
        `the wait "${hold.before}"`,
        'a hands step: a wait begins the moment the step before ends',
        'name the hands step after it',
      );
    }
    if (hold.product === undefined && hold.units === undefined) {
      fault(
        cell,
        ['holds', i],
        'neither "product" nor "units"',
        'what is held: a product or named units',
        'add "product" or "units"',
      );
    }
    (hold.units ?? []).forEach((unit, k) => {
      if (named.has(unit)) return;
      fault(
        cell,
        ['holds', i, 'units', k],
        `the unknown unit "${unit}"`,
        `a name given in arrivals or carry-over: ${listed([...named])}`,
        'give the unit this "name" where it arrives, or hold the product',
      );
    });
  });
}

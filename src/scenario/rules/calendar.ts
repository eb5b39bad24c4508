/** The calendar names people, gear and products there are, its days run forward, and its pieces can come. */
import { minutesAfter } from '../clock.ts';
import type { Place } from '../reading/fault.ts';
import { intakeOf } from '../resolve.ts';
import { fault, gearIds, known, personIds, productIds, type Cell } from './cell.ts';

export function calendar(cell: Cell): void {
  const { calendar: given } = cell.scenario;
  if (given === undefined) return;
  const { absences = [], gearAway = [], deliveries = [], orders = [] } = given;
  absences.forEach((one, i) => {
    const at: Place = ['calendar', 'absences', i];
    known(cell, [...at, 'person'], one.person, personIds(cell), 'person');
    forward(cell, at, 'to', one.from, one.to);
  });
  gearAway.forEach((one, i) => {
    const at: Place = ['calendar', 'gearAway', i];
    known(cell, [...at, 'gear'], one.gear, gearIds(cell), 'kind of gear');
    forward(cell, at, 'to', one.from, one.to);
  });
  deliveries.forEach((one, i) => coming(cell, ['calendar', 'deliveries', i], one));
  const names = new Set<string>();
  orders.forEach((order, i) => {
    const at: Place = ['calendar', 'orders', i];
    coming(cell, at, order);
    forward(cell, at, 'due', order.day, order.due);
    if (names.has(order.name))
      fault(
        cell,
        [...at, 'name'],
        `a second order "${order.name}"`,
        'a name of its own for each order',
        'give one of them another name',
      );
    names.add(order.name);
  });
  lists(cell, deliveries, orders);
}

function forward(cell: Cell, at: Place, field: string, from: string, to: string | undefined): void {
  if (to === undefined || to >= from) return;
  fault(
    cell,
    [...at, field],
    `"${to}", before "${from}"`,
    `"${from}" or a later day`,
    'put the two in order',
  );
}

function coming(cell: Cell, at: Place, one: { at?: string | undefined; product?: string | undefined }): void {
  if (one.product !== undefined) known(cell, [...at, 'product'], one.product, productIds(cell), 'product');
  const { start, length } = cell.shift;
  if (one.at === undefined || minutesAfter(start, one.at) < length) return;
  fault(
    cell,
    [...at, 'at'],
    `"${one.at}", outside the shift`,
    `a time within the shift, which starts at ${start} and lasts ${length} minutes`,
    'correct the time, or leave it out: then the pieces are there at the start',
  );
}

/** A list can have pieces added to it for a day; a beat, chance or a constant number cannot. */
function lists(cell: Cell, deliveries: { instead?: boolean | undefined }[], orders: unknown[]): void {
  const { kind } = intakeOf(cell.scenario);
  if (kind === 'list' || kind === 'at start') return;
  const added = orders.length > 0 ? 'orders' : 'deliveries';
  if (orders.length === 0 && deliveries.every((one) => one.instead === true)) return;
  fault(
    cell,
    ['calendar', added],
    `${added} added to pieces that come by "${kind}"`,
    'a cell whose pieces come by a list, or all at the start',
    'write the usual arrivals as a list, or say of a delivery that it comes "instead"',
  );
}

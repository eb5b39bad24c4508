import { clockAfter } from '../../scenario/clock.ts';
import { diffPatch } from '../../scenario/options.ts';
import { intakeOf } from '../../scenario/resolve.ts';
import type { Intake } from '../../scenario/schema.ts';
import { plural } from '../../words/words.ts';
import { clockTyped, parted, plainNumber, shown } from '../figures.ts';
import { productName, productOf } from '../names.ts';
import { NotSo, type Cell, type WhatIf } from '../what-if.ts';

/** Pieces that come in between and go first everywhere. */
export const rush: WhatIf = {
  word: 'rush',
  group: 'parts',
  takes: '[PRODUCT:]UNITS@TIME[=DUE]',
  says: 'a rush order of so many pieces comes in then and goes first everywhere',
  example: 'bent:2@09:00',
  such: (cell) => (listOf(cell) === null ? null : `2@${clockAfter(cell.shift.start, 60)}`),
  read(cell, given) {
    const [order, end] = parted(given, '=');
    const [lot, at] = parted(order ?? end, '@');
    if (lot === null) throw new NotSo(`“${given}” has no time behind @`);
    const [product, units] = parted(lot, ':');
    const meant = product === null ? null : productOf(cell, product);
    const count = plainNumber(units, 1, 100_000, true);
    const [comes, due] = [clockTyped(at), order === null ? null : clockTyped(end)];
    const rushed = {
      at: comes,
      units: count,
      rush: true,
      name: 'rush',
      ...(meant === null ? {} : { product: meant.id }),
      ...(due === null ? {} : { due }),
    };
    const called = meant === null ? '' : productName(cell, meant);
    const name = called === '' ? '' : ` ${count === 1 ? called : plural(called)}`;
    return {
      changes: { intake: withLot(cell, rushed) },
      label: `Rush: ${shown(count)}${name} at ${comes}${due === null ? '' : `, due ${due}`}`,
    };
  },
  offers: (cell) => (listOf(cell) === null ? [] : [`2@${clockAfter(cell.shift.start, 180)}`]),
};

type List = Extract<Intake, { kind: 'list' }>;
type Lot = List['arrivals'][number];

/** What comes, as a list of lots; null where it comes by a beat or at random. */
function listOf({ scenario, shift }: Cell): List | null {
  const intake = intakeOf(scenario);
  if (intake.kind === 'list') return intake;
  if (intake.kind !== 'at start' || intake.units < 1) return null;
  const { kind: _kind, units, ...common } = intake;
  return { ...common, kind: 'list', arrivals: [{ at: shift.start, units }] };
}

/** What makes the intake one with a lot more, behind the others. */
export function withLot(cell: Cell, lot: Lot): unknown {
  const list = listOf(cell);
  if (list === null)
    throw new NotSo('parts come by a beat or at random in this file; a lot more needs a list of deliveries');
  return diffPatch(cell.scenario.intake, { ...list, arrivals: [...list.arrivals, lot] });
}

export const takesLots = (cell: Cell): boolean => listOf(cell) !== null;

/** All figures of a grid, a row a field, so that the grids of a whole plant go into one spreadsheet. */
import type { Table } from '../../charts/index.ts';
import type { GridAnswer } from '../../study/grid.ts';
import type { Axis } from '../../whatif/grid.ts';
import { cell, three, threeHeads } from './figure-cells.ts';

/**
 * The heads are the same for every file, so that tables can be put one under the other.
 * @param of the cell's name, and what was changed in it before.
 */
export function gridTable(
  of: { cell: string; changed: string[] },
  down: Axis,
  across: Axis,
  grid: GridAnswer,
): Table {
  return {
    head: [
      'Cell',
      'Changed',
      'Down',
      'Across',
      ...threeHeads('Good units a shift'),
      '9 in 10 make',
      ...threeHeads('Chance of the target, %'),
      ...threeHeads('Cost a shift'),
      ...threeHeads('Net money a shift'),
      'To buy',
      'Makes the target',
      'Cheapest that makes it',
    ],
    rows: grid.cells.map((one, at) => [
      of.cell,
      of.changed.join('; '),
      down.told[one.row]!,
      across.told[one.column]!,
      ...three(one.good),
      cell(Math.floor(one.nineInTen), 0),
      ...three(one.chance, 100, 0),
      ...three(one.cost),
      ...three(one.net),
      cell(one.price, 2),
      one.makes ?? '',
      grid.cheapest?.at === at ? (grid.cheapest.sure ? 'yes' : 'perhaps') : '',
    ]),
  };
}

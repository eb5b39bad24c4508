/**
 * Gear that is taken is freed again, on every way every product can go; and no step asks for more than there
 * is.
 */
import { fault, type Cell } from './cell.ts';
import { goesBack, holdings, holdingWay, mainWay, position, type Holding } from './ways.ts';

export function heldGear(cell: Cell): void {
  for (const holding of holdings(cell)) {
    if (!freedLater(cell, holding)) continue;
    for (const product of cell.shift.products) {
      const way = mainWay(cell, product);
      if (way.includes(holding.by) && product.skips.includes(holding.until.id)) {
        fault(
          cell,
          ['products', product.id, 'skips'],
          `"${holding.until.id}" skipped`,
          `a way through "${holding.until.id}", which frees the "${holding.gear}" taken at "${holding.by.id}"`,
          `take "${holding.until.id}" out of "skips", or skip "${holding.by.id}" too`,
        );
        continue;
      }
      const { leavesFrom } = holdingWay(cell, product, holding);
      if (leavesFrom === null) continue;
      fault(
        cell,
        ['steps', holding.by.id, 'takes', holding.index, 'until'],
        `"${holding.gear}" never freed where "${product.id}" leaves after "${leavesFrom.id}"`,
        `a way through "${holding.until.id}" from wherever it is held`,
        `let every way from "${holding.by.id}" come to "${holding.until.id}"`,
      );
    }
  }
  enough(cell);
}

/** The freeing step comes after the taking one: on the main path, or on the way on from a step aside. */
function freedLater(cell: Cell, holding: Holding): boolean {
  const { by, until } = holding;
  const later = by.aside ? until !== by : until.aside || position(cell, until) > position(cell, by);
  if (later && !(until !== by && goesBack(cell, holding, until))) return true;
  const after = cell.shift.steps
    .filter((step) => !step.aside && position(cell, step) > position(cell, by))
    .map((step) => step.id);
  fault(
    cell,
    ['steps', by.id, 'takes', holding.index, 'until'],
    `"${until.id}", which does not come after "${by.id}"`,
    `a later step: ${after.join(', ') || 'none is left'}`,
    'name the step at whose end the gear is free again',
  );
  return false;
}

/** A step that uses gear a unit still holds from an earlier step needs two of it at once. */
function enough(cell: Cell): void {
  for (const step of cell.shift.steps) {
    for (const gear of new Set([...step.uses, ...step.takes.map((take) => take.gear)])) {
      const kind = cell.shift.gear.find((one) => one.id === gear);
      if (kind === undefined || kind.count === 0) continue;
      const before = holdings(cell).filter(
        (one) =>
          one.gear === gear &&
          one.by !== step &&
          cell.shift.products.some(
            (product) =>
              mainWay(cell, product).includes(step) && holdingWay(cell, product, one).steps.has(step),
          ),
      );
      if (before.length + 1 <= kind.count) continue;
      fault(
        cell,
        ['gear', gear, 'count'],
        `${kind.count}`,
        `at least ${before.length + 1}: a unit at "${step.id}" still holds one from "${before[0]!.by.id}" and needs another`,
        'raise the count, or give the two steps gear of their own',
      );
    }
  }
}

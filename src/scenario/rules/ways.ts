/** The ways a unit can go through the cell, by product. */
import type { ResolvedProduct, ResolvedStep } from '../resolve.ts';
import { stepOf, type Cell } from './cell.ts';

/** The step that follows `step` for this product, skipped ones left out; null is the out-rack. */
export function onFrom(cell: Cell, product: ResolvedProduct, step: ResolvedStep): ResolvedStep | null {
  let next = step.next;
  while (next !== null && product.skips.includes(next)) next = stepOf(cell, next).next;
  return next === null ? null : stepOf(cell, next);
}

/** The steps of this product without any rework, in order. */
export function mainWay(cell: Cell, product: ResolvedProduct): ResolvedStep[] {
  const way: ResolvedStep[] = [];
  let step: ResolvedStep | null = stepOf(cell, product.enters);
  while (step !== null && !way.includes(step)) {
    way.push(step);
    step = onFrom(cell, product, step);
  }
  return way;
}

/**
 * A way on from a step: forward with what is left of the shares, or back by one of the step's rework entries.
 */
export interface Onward {
  /** Null is the out-rack. */
  to: ResolvedStep | null;
  /** 0 to 1. */
  share: number;
  /** Position in the step's rework, or null for the way forward. */
  rework: number | null;
}

/** Every way on from a step that has a share of more than nothing, rework as `shares` has it. */
export function onwards(
  cell: Cell,
  product: ResolvedProduct,
  step: ResolvedStep,
  share: (to: string, share: number) => number = plain,
): Onward[] {
  const back = step.rework.map((one, rework): Onward => ({
    to: stepOf(cell, one.to),
    share: share(one.to, one.share),
    rework,
  }));
  const left = 1 - step.scrap - back.reduce((sum, one) => sum + one.share, 0);
  // 1e-12: shares of 99.9 + 0.1 % do not add up to one in binary.
  return [{ to: onFrom(cell, product, step), share: left, rework: null }, ...back].filter(
    (one) => one.share > 1e-12,
  );
}

const plain = (_to: string, share: number): number => share;

/** The steps a product can come to at all, rework included. */
export function reached(cell: Cell, product: ResolvedProduct): Set<ResolvedStep> {
  const seen = new Set<ResolvedStep>([stepOf(cell, product.enters)]);
  for (const step of seen) {
    for (const { to } of onwards(cell, product, step)) if (to !== null) seen.add(to);
  }
  return seen;
}

/** The steps any product can come to. */
export function reachedByAny(cell: Cell): Set<ResolvedStep> {
  return new Set(cell.shift.products.flatMap((product) => [...reached(cell, product)]));
}

/** Taken gear: by which step, until which, and where on the way of some product a unit has it. */
export interface Holding {
  gear: string;
  by: ResolvedStep;
  until: ResolvedStep;
  /** Position in the taking step's `takes`. */
  index: number;
}

export function holdings(cell: Cell): Holding[] {
  return cell.shift.steps.flatMap((by) =>
    by.takes.map((take, index): Holding => ({ gear: take.gear, by, until: stepOf(cell, take.until), index })),
  );
}

/** Position on the main path; steps aside are nowhere on it. */
export const position = (cell: Cell, step: ResolvedStep): number =>
  step.aside ? -1 : cell.shift.steps.filter((one) => !one.aside).indexOf(step);

/** Whether going to `to` is going back to or before the step that took the gear: that frees it. */
export const goesBack = (cell: Cell, holding: Holding, to: ResolvedStep): boolean =>
  to === holding.by || (!to.aside && !holding.by.aside && position(cell, to) <= position(cell, holding.by));

/**
 * The steps at whose start a unit of this product may have the gear in hand (the taking step and the freeing
 * one among them), and a step from which it would leave the cell with it, if there is one.
 */
export function holdingWay(
  cell: Cell,
  product: ResolvedProduct,
  holding: Holding,
): { steps: Set<ResolvedStep>; leavesFrom: ResolvedStep | null } {
  const steps = new Set<ResolvedStep>();
  if (!reached(cell, product).has(holding.by)) return { steps, leavesFrom: null };
  steps.add(holding.by);
  let leavesFrom: ResolvedStep | null = null;
  for (const step of steps) {
    if (step === holding.until) continue;
    for (const { to } of onwards(cell, product, step)) {
      if (to === null) leavesFrom ??= step;
      else if (!goesBack(cell, holding, to)) steps.add(to);
    }
  }
  return { steps, leavesFrom };
}

/** Shares that go back: together at most everything, and every loop comes to an end. */
import type { ResolvedProduct, ResolvedStep } from '../resolve.ts';
import { fault, type Cell } from './cell.ts';
import { onwards, reached, type Onward } from './ways.ts';

/** A unit that came to one step so often would hold up a run for ever. */
const MOST_VISITS = 1000;

export function rework(cell: Cell): void {
  const before = cell.faults.length;
  for (const step of cell.shift.steps) shares(cell, step);
  if (cell.faults.length > before) return;
  for (const product of cell.shift.products) if (!endless(cell, product)) often(cell, product);
}

/** The largest rework factor of anybody who can do the step whose work is sent back. */
export function largestRework(cell: Cell, step: string): number {
  const factors = cell.shift.people.flatMap((person) =>
    Object.hasOwn(person.skills, step) ? [person.skills[step]!.rework] : [],
  );
  return factors.length === 0 ? 1 : Math.max(...factors);
}

const percent = (share: number): string => `${Math.round(share * 1e4) / 100} %`;

function shares(cell: Cell, step: ResolvedStep): void {
  const plain = step.rework.reduce((sum, back) => sum + back.share, 0) + step.scrap;
  const worst =
    step.rework.reduce((sum, back) => sum + back.share * largestRework(cell, back.to), 0) + step.scrap;
  if (plain > 1 + 1e-9) {
    fault(
      cell,
      ['steps', step.id, 'rework'],
      `${percent(plain)} sent back or scrapped`,
      'at most 100 % together',
      'lower a "percent" or "scrap"',
    );
  } else if (worst > 1 + 1e-9) {
    fault(
      cell,
      ['steps', step.id, 'rework'],
      `${percent(worst)} sent back or scrapped after the person with the largest rework factor`,
      'at most 100 % together',
      'lower a "percent", "scrap" or that rework factor',
    );
  }
}

type Chain = Map<ResolvedStep, Onward[]>;

/** What becomes of a unit at every step it can come to, its work sent back by the largest rework factors. */
function chainOf(cell: Cell, product: ResolvedProduct): Chain {
  const worst = (to: string, share: number): number => share * largestRework(cell, to);
  const steps = reached(cell, product);
  const chain: Chain = new Map();
  // Where nobody's work is ever sent back, units go on from a step whose shares alone would send them all
  // back.
  for (const step of steps) {
    const ways = onwards(cell, product, step, worst);
    chain.set(step, ways);
    for (const { to } of ways) if (to !== null) steps.add(to);
  }
  return chain;
}

/**
 * Whether there are steps from which no unit ever leaves; told at the largest share that goes round among
 * them.
 */
function endless(cell: Cell, product: ResolvedProduct): boolean {
  const chain = chainOf(cell, product);
  const leaves = new Set(
    [...chain.keys()].filter((step) => step.scrap > 0 || chain.get(step)!.some((one) => one.to === null)),
  );
  for (let grown = -1; grown !== leaves.size;) {
    grown = leaves.size;
    for (const [step, ways] of chain)
      if (ways.some((one) => one.to !== null && leaves.has(one.to))) leaves.add(step);
  }
  const stuck = [...chain.keys()].filter((step) => !leaves.has(step));
  if (stuck.length === 0) return false;
  const loops = stuck.flatMap((step) =>
    chain
      .get(step)!
      .filter((one) => one.rework !== null)
      .map((one) => ({ step, ...one })),
  );
  const worst = loops.reduce((most, one) => (one.share > most.share ? one : most));
  fault(
    cell,
    ['steps', worst.step.id, 'rework', worst.rework!, 'percent'],
    `a loop without end: "${product.id}" would go from "${worst.step.id}" back to "${worst.to!.id}" for ever`,
    'a share under 100 %, so that units leave',
    'lower the share that goes back, or name another step to go back to',
  );
  return true;
}

/** Mean visits to every step: v = entry + v P, solved by elimination (at most thirty steps). */
function often(cell: Cell, product: ResolvedProduct): void {
  const chain = chainOf(cell, product);
  const steps = [...chain.keys()];
  const rows = steps.map((to, i) => [
    ...steps.map(
      (from, j) =>
        (i === j ? 1 : 0) - chain.get(from)!.reduce((sum, one) => sum + (one.to === to ? one.share : 0), 0),
    ),
    i === 0 ? 1 : 0,
  ]);
  const visits = solve(rows);
  const most = visits.reduce((best, value, i) => (value > visits[best]! ? i : best), 0);
  if (visits[most]! <= MOST_VISITS) return;
  const step = steps[most]!;
  fault(
    cell,
    ['steps', step.id],
    `a mean of ${Math.round(visits[most]!).toLocaleString('en-US')} visits of a "${product.id}" to "${step.id}"`,
    `at most ${MOST_VISITS.toLocaleString('en-US')}`,
    'lower the shares that go back',
  );
}

/**
 * Gauss with the largest pivot; the last entry of each row is the right-hand side. A pivot of nothing gives
 * Infinity.
 */
function solve(rows: number[][]): number[] {
  const n = rows.length;
  for (let column = 0; column < n; column++) {
    const pivot = rows
      .slice(column)
      .reduce(
        (best, row, i) => (Math.abs(row[column]!) > Math.abs(rows[best]![column]!) ? column + i : best),
        column,
      );
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const lead = rows[column]![column]!;
    if (Math.abs(lead) < 1e-12) return rows.map(() => Infinity);
    for (let i = 0; i < n; i++) {
      if (i === column) continue;
      const times = rows[i]![column]! / lead;
      if (times !== 0) for (let k = column; k <= n; k++) rows[i]![k]! -= times * rows[column]![k]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

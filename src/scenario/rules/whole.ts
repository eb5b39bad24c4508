/** A whole step, once begun, is finished before any break: somebody must have a stretch it fits into. */
import { inMinutes } from '../reading/fault.ts';
import type { ResolvedPerson, ResolvedShift, ResolvedStep } from '../resolve.ts';
import type { Shut } from '../step-rules.ts';
import { fault, type Cell } from './cell.ts';
import { covers } from './people.ts';
import { reachedByAny } from './ways.ts';

/** A run counts whole milliseconds: what is over by less than half of one still fits. Minutes. */
const HALF_MILLISECOND = 0.5 / 60_000;

export function whole(cell: Cell): void {
  for (const { id, least } of wholeSteps(cell)) {
    const best = nearestMiss(cell.shift, id, least);
    if (best === null) continue;
    const step = cell.shift.steps.find((one) => one.id === id)!;
    fault(
      cell,
      ['steps', step.id, 'time'],
      `at least ${inMinutes(best.needs)} for a whole "${step.id}" (${planned(step)}, its factors in)`,
      `at most ${inMinutes(best.has)}, the longest stretch ${best.person.id} has for it between breaks and the end of the day`,
      'shorten the step, move a break, or let it be put down (take "whole" away)',
    );
  }
}

/** Whole steps on the way of some product, and the least minutes planned for each, people left out. */
export const wholeSteps = (cell: Cell): { id: string; least: number }[] =>
  [...reachedByAny(cell)]
    .filter((step) => step.whole)
    .map((step) => ({ id: step.id, least: leastPlanned(cell, step) }));

/**
 * Of those who cover a whole step the one with the longest stretch for it, where no stretch is long enough;
 * null where one is, or nobody covers it. Minutes.
 */
export function nearestMiss(
  shift: ResolvedShift,
  id: string,
  least: number,
): { person: ResolvedPerson; needs: number; has: number } | null {
  const step = shift.steps.find((one) => one.id === id)!;
  const tries = shift.people
    .filter((person) => covers(person, id))
    .map((person) => ({
      person,
      needs: least * (person.skills[id]?.factor ?? 1) * shift.allowance,
      has: stretch(shift, person, step),
    }));
  if (tries.length === 0 || tries.some((one) => one.needs <= one.has + HALF_MILLISECOND)) return null;
  return tries.reduce((most, one) => (one.has > most.has ? one : most));
}

const planned = (step: ResolvedStep): string =>
  step.plannedAt === 'mean' ? 'its mean' : `its ${step.plannedAt}th percentile`;

/** Planned minutes of the product it takes least for, by the curve the run plans with. */
function leastPlanned(cell: Cell, step: ResolvedStep): number {
  const products = cell.shift.products.filter((product) => !product.skips.includes(step.id));
  const least = products.map(({ tasks }) => {
    const { time: base, factor } = tasks[step.id]!;
    const time = cell.compiled(base);
    return factor * (step.plannedAt === 'mean' ? time.mean : time.percentile(step.plannedAt));
  });
  return Math.min(...least);
}

/** The first time from `time` on at which a step that is not begun in `shut` may be, minutes. */
const opens = (shut: Shut[], time: number): number =>
  shut.reduce((at, { after, until }) => (at > after && at < until ? until : at), time);

/** The longest stretch in which this person could begin the step and finish it, minutes. */
function stretch(shift: ResolvedShift, person: ResolvedPerson, step: ResolvedStep): number {
  const overtime =
    shift.overtime.until !== 'none' && person.overtime && (shift.overtime.who?.includes(person.id) ?? true);
  const end = person.to + (overtime ? shift.overtime.cap : 0);
  const latest = overtime ? Infinity : shift.length - shift.tidyUp;
  const edges = [
    ...person.offs.map((off) => ({ from: off.from, until: off.from + off.minutes })),
    { from: end, until: end },
  ];
  let longest = 0;
  let free = person.from;
  for (const edge of edges) {
    for (const [i, cover] of person.cover.entries()) {
      if (!cover.steps.includes(step.id)) continue;
      const begins = opens(step.shut, Math.max(free, cover.from));
      if (begins < (person.cover[i + 1]?.from ?? Infinity) && begins <= latest)
        longest = Math.max(longest, Math.min(edge.from, end) - begins);
    }
    free = Math.max(free, edge.until);
  }
  return longest;
}

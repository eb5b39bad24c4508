/**
 * Inputs of a shift set to a multiple of what the file has, in place: studies of what is not known of them
 * run every replication with other ones, and building the day for each would cost more than running it.
 */
import type { InputPlace } from '../scenario/inputs.ts';
import type { Exports } from './core.ts';
import type { CompiledCell } from './tables.ts';

/** Sets an input of a day to so many times its own value; 1 sets it back to the same bits. */
export type Setter = (core: Exports, day: unknown, factor: number) => void;

/** None where the shift has no such input. */
export function settersOf(cell: CompiledCell, shift: number, place: InputPlace): Setter[] {
  if (place.kind === 'attendance') {
    const person = cell.personIds.indexOf(place.person);
    const own = cell.people.chance[person];
    if (own === undefined) return [];
    return [(core, day, factor) => core.setChance(day, shift, person, timesOdds(own, factor))];
  }
  const step = cell.stepIds.indexOf(place.step);
  if (step < 0) return [];
  switch (place.kind) {
    case 'scrap': {
      const own = cell.steps.scrap[step]!;
      return [(core, day, factor) => core.setScrap(day, shift, step, timesOdds(own, factor))];
    }
    case 'rework': {
      const { branch } = place;
      const at = cell.steps.branchFrom[step]! + branch;
      if (at >= cell.steps.branchFrom[step + 1]!) return [];
      const own = cell.steps.branchShare[at]!;
      return [(core, day, factor) => core.setShare(day, shift, step, branch, timesOdds(own, factor))];
    }
    case 'time':
      return timeSetters(cell, shift, step, place);
  }
}

function timeSetters(
  { shift: file, steps, products }: CompiledCell,
  shift: number,
  index: number,
  { step, product, repeat }: { step: string; product: string | null; repeat: boolean },
): Setter[] {
  const ownRepeat = file.steps[index]!.repeatTime !== null;
  return file.products.flatMap((one, at): Setter[] => {
    const own = one.tasks[step]!.own ? one.id : null;
    if (!repeat && own !== product) return [];
    const scale = products.scale[at * steps.count + index]!;
    const set =
      (again: boolean): Setter =>
      (core, day, factor) =>
        core.setScale(day, shift, index, at, again, scale * factor);
    if (repeat) return ownRepeat ? [set(true)] : [];
    // Without a time of its own a repeat visit takes what a first one does.
    return ownRepeat ? [set(false)] : [set(false), set(true)];
  });
}

/** A share whose odds are so many times those of `share`. */
const timesOdds = (share: number, factor: number): number =>
  factor === 1 ? share : (share * factor) / (1 - share + share * factor);

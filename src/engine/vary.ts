/**
 * Inputs of a shift set to a multiple of what the file has, in place: studies of what is not known of them
 * run every replication with other ones, and compiling the shift for each would cost more than running it.
 */
import type { InputPlace } from '../scenario/inputs.ts';
import type { ShiftThings, Task } from './state.ts';

/** Sets an input to so many times its own value; 1 sets it back to the same bits. */
export type Setter = (factor: number) => void;

/** None where the shift has no such input. */
export function settersOf(shift: ShiftThings, place: InputPlace): Setter[] {
  const { cell, rules } = shift;
  if (place.kind === 'attendance') {
    const person = cell.personIds.indexOf(place.person);
    const { chance } = cell.people;
    const own = chance[person];
    return own === undefined ? [] : [(factor) => (chance[person] = timesOdds(own, factor))];
  }
  const index = cell.stepIds.indexOf(place.step);
  const step = rules[index];
  if (step === undefined) return [];
  switch (place.kind) {
    case 'scrap': {
      const own = step.scrap;
      return [(factor) => (step.scrap = timesOdds(own, factor))];
    }
    case 'rework': {
      const branch = step.branches[place.branch];
      if (branch === undefined) return [];
      const own = branch.share;
      return [(factor) => (branch.share = timesOdds(own, factor))];
    }
    case 'time':
      return timeSetters(shift, index, place);
  }
}

function timeSetters(
  { cell, rules }: ShiftThings,
  index: number,
  { step, product, repeat }: { step: string; product: string | null; repeat: boolean },
): Setter[] {
  const ownRepeat = cell.shift.steps[index]!.repeatTime !== null;
  return cell.shift.products.flatMap((one, at): Setter[] => {
    const own = one.tasks[step]!.own ? one.id : null;
    if (!repeat && own !== product) return [];
    const task: Task = rules[index]!.tasks[at]!;
    const { scale, repeatScale } = task;
    if (repeat) return ownRepeat ? [(factor) => (task.repeatScale = repeatScale * factor)] : [];
    return [
      (factor) => {
        task.scale = scale * factor;
        // Without a time of its own a repeat visit takes what a first one does.
        if (!ownRepeat) task.repeatScale = repeatScale * factor;
      },
    ];
  });
}

/** A share whose odds are so many times those of `share`. */
const timesOdds = (share: number, factor: number): number =>
  factor === 1 ? share : (share * factor) / (1 - share + share * factor);

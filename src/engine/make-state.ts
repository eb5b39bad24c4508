/** The memory of a run, made once for a day's shifts: its things, and what each shift says of them. */
import { circlesArePossible } from './circles.ts';
import { listArrivals } from './intake.ts';
import {
  CellState,
  GearKind,
  Person,
  Step,
  type Cover,
  type ShiftThings,
  type StepRules,
  type Taking,
  type Task,
} from './state.ts';
import type { CompiledCell } from './tables.ts';

/**
 * Throws RangeError where the shifts do not share their steps: units could not be carried from one to the
 * next.
 */
export function makeState(cells: CompiledCell[]): CellState {
  const [first] = cells;
  if (first === undefined) throw new RangeError('a day needs at least one shift');
  for (const cell of cells) {
    if (cell.stepIds.join() !== first.stepIds.join())
      throw new RangeError('all shifts of a day need the same steps in the same order');
    if (cell.takes.count !== first.takes.count)
      throw new RangeError('all shifts of a day need the same takings of gear');
  }
  const steps = first.stepIds.map((_, step) => new Step(step));
  const items = makeKinds(cells).flatMap((kind) => kind.items);
  const usesOf = (cell: CompiledCell): number[] =>
    cell.stepIds.map((_, step) => cell.steps.usesFrom[step + 1]! - cell.steps.usesFrom[step]!);
  return new CellState(first, steps, new Step(steps.length), items, Math.max(0, ...cells.flatMap(usesOf)));
}

/** Every kind of gear of the day once, with as many pieces as the shift with the most of them has. */
function makeKinds(cells: CompiledCell[]): GearKind[] {
  const most = new Map<string, number>();
  for (const cell of cells) {
    cell.gearIds.forEach((id, kind) => most.set(id, Math.max(most.get(id) ?? 0, cell.gear.items[kind]!)));
  }
  let firstItem = 0;
  return [...most].map(([id, count]) => {
    const kind = new GearKind(id, count, firstItem);
    firstItem += count;
    return kind;
  });
}

/** One shift of the day on the things of `state`. */
export function makeShift(state: CellState, cell: CompiledCell): ShiftThings {
  const byId = new Map(state.items.map((item) => [item.kind.id, item.kind]));
  // A kind of which there never is a piece has no items to find it by.
  const kinds = cell.gearIds.map((id) => byId.get(id) ?? new GearKind(id, 0, 0));
  const rules = state.steps.map((step) => rulesOf(state, cell, kinds, step.index));
  const people = cell.personIds.map((_, person) => makePerson(state, cell, person));
  const needing = kinds.map((_, kind) =>
    state.steps.filter((step) => (cell.gear.neededBy[kind]! & step.bit) !== 0),
  );
  return {
    cell,
    rules,
    kinds,
    people,
    listed: listArrivals(cell),
    circlesPossible: circlesArePossible(cell),
    enter: (): void => {
      state.steps.forEach((step, i) => step.follow(rules[i]!));
      kinds.forEach((kind, i) => {
        kind.index = i;
        kind.count = cell.gear.items[i]!;
        kind.needing = needing[i]!;
        kind.holdsWaits = state.steps.some((step) => !step.hands && step.uses.includes(kind));
        kind.fails = cell.gear.fails[i]!;
        kind.repair = cell.gear.repair[i]!;
      });
    },
  };
}

function rulesOf(state: CellState, cell: CompiledCell, kinds: GearKind[], step: number): StepRules {
  const { steps, takes } = cell;
  const between = (from: Int32Array, list: Int32Array): number[] => [
    ...list.subarray(from[step]!, from[step + 1]!),
  ];
  const taking = (rule: number): Taking => ({
    index: rule,
    kind: kinds[takes.gear[rule]!]!,
    step: state.steps[takes.step[rule]!]!,
  });
  const branches = between(steps.branchFrom, steps.branchTo).map((to, i) => ({
    to: state.steps[to]!,
    share: steps.branchShare[steps.branchFrom[step]! + i]!,
    byPerson: cell.personIds.some((_, person) => cell.people.reworkFactor[person * steps.count + to] !== 1),
  }));
  return {
    hands: steps.hands[step] !== 0,
    pair: steps.people[step] === 2,
    rack: steps.rack[step]!,
    byDue: steps.byDue[step] !== 0,
    whole: steps.whole[step] !== 0,
    lastStart: steps.lastStart[step]!,
    position: steps.position[step]!,
    scrap: steps.scrap[step]!,
    alwaysOn: branches.length === 0 && steps.scrap[step] === 0,
    ownPlace: steps.ownPlace[step] !== 0,
    free: steps.people[step] !== 2 && steps.whole[step] === 0 && steps.lastStart[step] === Infinity,
    tasks: cell.shift.products.map((_, product) => taskOf(state, cell, product, step)),
    uses: between(steps.usesFrom, steps.uses).map((kind) => kinds[kind]!),
    takes: between(steps.takesFrom, steps.takes).map(taking),
    frees: between(steps.freesFrom, steps.frees).map(taking),
    branches,
  };
}

function taskOf(state: CellState, cell: CompiledCell, product: number, step: number): Task {
  const { products } = cell;
  const at = product * state.steps.length + step;
  return {
    time: products.time[at]!,
    repeat: products.repeat[at]!,
    scale: products.scale[at]!,
    repeatScale: products.scale[at]!,
    plannedScale: products.scale[at]!,
    planned: products.planned[at]!,
    plannedRepeat: products.plannedRepeat[at]!,
    next: state.steps[products.next[at]!] ?? state.out,
  };
}

function makePerson(state: CellState, cell: CompiledCell, person: number): Person {
  const { people } = cell;
  const covers: Cover[] = [];
  for (let cover = people.firstCover[person]!; cover < people.firstCover[person + 1]!; cover++) {
    const steps = [...people.coverSteps.subarray(people.coverFrom[cover]!, people.coverFrom[cover + 1]!)].map(
      (step) => state.steps[step]!,
    );
    covers.push({ steps, mask: people.coverMask[cover]! });
  }
  const count = state.steps.length;
  const to = people.to[person]!;
  return new Person(
    person,
    covers,
    people.byAge[person] !== 0,
    people.mayOvertime[person] !== 0,
    to,
    to - Math.max(0, cell.tidyUp),
    people.factor.slice(person * count, (person + 1) * count),
  );
}

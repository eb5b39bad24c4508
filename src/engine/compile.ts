/** From a resolved shift to the tables a run reads. */
import type { ResolvedPerson, ResolvedShift, ResolvedStep } from '../scenario/resolve.ts';
import { compileTime } from '../duration/compile.ts';
import { COME, COVER, GO, NOTHING, OFF_START, personOrder } from '../core/ranks.ts';
import {
  OVERTIME_EMPTY,
  OVERTIME_NONE,
  OVERTIME_TARGET,
  type Calendar,
  type CompiledCell,
  type GearTables,
  type HoldTables,
  type PeopleTables,
  type ProductTables,
  type StepTables,
  type TakeTables,
} from './tables.ts';

export const MILLISECONDS = 60_000;
/** Whole milliseconds of so many minutes, half up. */
export const toMilliseconds = (minutes: number): number => Math.floor(minutes * MILLISECONDS + 0.5);

type Index = Map<string, number>;
const indexOf = (list: { id: string }[]): Index => new Map(list.map((one, i) => [one.id, i]));
const at = (index: Index, id: string): number => {
  const found = index.get(id);
  if (found === undefined) throw new RangeError(`unknown name "${id}" in a scenario that was not checked`);
  return found;
};

/** Compiles one shift of a checked scenario. */
export function compile(shift: ResolvedShift): CompiledCell {
  const stepIndex = indexOf(shift.steps);
  const gearIndex = indexOf(shift.gear);
  const takes = compileTakes(shift, stepIndex, gearIndex);
  const steps = compileSteps(shift, stepIndex, gearIndex, takes);
  const people = compilePeople(shift, stepIndex);
  return {
    shift,
    length: toMilliseconds(shift.length),
    tidyUp: toMilliseconds(shift.tidyUp),
    putDownAtEnd: shift.atEnd === 'put down',
    target: shift.target ?? -1,
    overtime: { none: OVERTIME_NONE, empty: OVERTIME_EMPTY, target: OVERTIME_TARGET }[shift.overtime.until],
    overtimeCap: toMilliseconds(shift.overtime.cap),
    steps,
    takes,
    gear: compileGear(shift, stepIndex),
    people,
    calendar: compileCalendar(shift, people),
    products: compileProducts(shift, stepIndex),
    holds: compileHolds(shift, stepIndex),
    divert: shift.intake.whenFull === 'divert',
    gap: shift.intake.kind === 'random' ? compileTime(shift.intake.gap) : null,
    stepIds: shift.steps.map((step) => step.id),
    gearIds: shift.gear.map((gear) => gear.id),
    personIds: shift.people.map((person) => person.id),
  };
}

/** Lists of lists as one array and where each begins. */
function flatten(lists: number[][]): [from: Int32Array, all: Int32Array] {
  const from = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => (from[i + 1] = from[i]! + list.length));
  return [from, Int32Array.from(lists.flat())];
}

function compileTakes(shift: ResolvedShift, stepIndex: Index, gearIndex: Index): TakeTables {
  const rules = shift.steps.flatMap((step) => step.takes.map((take) => ({ ...take, step: step.id })));
  return {
    count: rules.length,
    gear: Int32Array.from(rules, (rule) => at(gearIndex, rule.gear)),
    step: Int32Array.from(rules, (rule) => at(stepIndex, rule.step)),
    until: Int32Array.from(rules, (rule) => at(stepIndex, rule.until)),
  };
}

function compileSteps(
  shift: ResolvedShift,
  stepIndex: Index,
  gearIndex: Index,
  takes: TakeTables,
): StepTables {
  const { steps } = shift;
  const rules = [...takes.step.keys()];
  const [usesFrom, uses] = flatten(steps.map((step) => step.uses.map((gear) => at(gearIndex, gear))));
  const [takesFrom, takeIds] = flatten(steps.map((_, s) => rules.filter((rule) => takes.step[rule] === s)));
  const [freesFrom, frees] = flatten(steps.map((_, s) => rules.filter((rule) => takes.until[rule] === s)));
  const [branchFrom, branchTo] = flatten(
    steps.map((step) => step.rework.map((branch) => at(stepIndex, branch.to))),
  );
  return {
    count: steps.length,
    hands: Uint8Array.from(steps, (step) => Number(step.kind === 'hands')),
    people: Uint8Array.from(steps, (step) => step.people),
    rack: Int32Array.from(steps, (step) => step.rack ?? -1),
    byDue: Uint8Array.from(steps, (step) => Number(step.order === 'earliest due')),
    whole: Uint8Array.from(steps, (step) => Number(step.whole)),
    shut: steps.map((step) =>
      step.shut.flatMap(({ after, until }) => [toMilliseconds(after), toMilliseconds(until)]),
    ),
    position: positions(steps),
    usesFrom,
    uses,
    takesFrom,
    takes: takeIds,
    freesFrom,
    frees,
    branchFrom,
    branchTo,
    branchShare: Float64Array.from(steps.flatMap((step) => step.rework.map((branch) => branch.share))),
    scrap: Float64Array.from(steps, (step) => step.scrap),
    ownPlace: Uint8Array.from(steps, (step) => Number(mayKeepPlace(step, steps))),
  };
}

/**
 * Can a unit come to this step from where it holds gear of it: from a step that uses it too, or sent back
 * from this one or from a wait on its bench?
 */
const mayKeepPlace = (step: ResolvedStep, steps: ResolvedStep[]): boolean =>
  step.uses.some((gear) => steps.some((other) => other !== step && other.uses.includes(gear))) ||
  steps.some(
    (other) => (other === step || other.kind === 'wait') && other.rework.some((back) => back.to === step.id),
  );

/** Main steps at whole numbers; a step aside half way towards the one before the step that follows it. */
function positions(steps: ResolvedStep[]): Float64Array {
  const main = steps.filter((step) => !step.aside);
  const position = (step: ResolvedStep): number => {
    if (!step.aside) return main.indexOf(step);
    const then = steps.find((other) => other.id === step.next);
    return then === undefined ? main.length - 0.5 : position(then) - 0.5 / steps.length;
  };
  return Float64Array.from(steps, position);
}

function compileGear(shift: ResolvedShift, stepIndex: Index): GearTables {
  const { gear } = shift;
  const firstItem = new Int32Array(gear.length + 1);
  gear.forEach((kind, g) => (firstItem[g + 1] = firstItem[g]! + kind.count));
  const neededBy = gear.map((kind) => {
    const needing = shift.steps.filter(
      (step) => step.uses.includes(kind.id) || step.takes.some((take) => take.gear === kind.id),
    );
    return needing.reduce((mask, step) => mask | (1 << at(stepIndex, step.id)), 0);
  });
  return {
    count: gear.length,
    items: Int32Array.from(gear, (kind) => kind.count),
    firstItem,
    itemCount: firstItem[gear.length]!,
    isBench: Uint8Array.from(gear, (kind) => Number(kind.kind === 'bench')),
    neededBy: Int32Array.from(neededBy),
    fails: gear.map((kind) => (kind.fails ? compileTime(kind.fails.every) : null)),
    repair: gear.map((kind) => (kind.fails ? compileTime(kind.fails.repair) : null)),
  };
}

function compilePeople(shift: ResolvedShift, stepIndex: Index): PeopleTables {
  const { people, steps } = shift;
  const covers = people.flatMap((person) =>
    person.cover.map((cover) => cover.steps.map((step) => at(stepIndex, step))),
  );
  const [coverFrom, coverSteps] = flatten(covers);
  const firstCover = new Int32Array(people.length + 1);
  people.forEach((person, p) => (firstCover[p + 1] = firstCover[p]! + person.cover.length));
  const offs = people.map((person) => person.offs);
  const offFrom = new Int32Array(people.length + 1);
  offs.forEach((list, p) => (offFrom[p + 1] = offFrom[p]! + list.length));
  const matrix = (of: (person: ResolvedPerson, step: string) => number): Float64Array =>
    Float64Array.from(people.flatMap((person) => steps.map((step) => of(person, step.id))));
  const { who, until, cap } = shift.overtime;
  return {
    count: people.length,
    byAge: Uint8Array.from(people, (person) => Number(person.rule === 'oldest')),
    from: Float64Array.from(people, (person) => toMilliseconds(person.from)),
    to: Float64Array.from(people, (person) => toMilliseconds(person.to)),
    chance: Float64Array.from(people, (person) => person.chance),
    lateChance: Float64Array.from(people, (person) => person.lateChance),
    late: people.map((person) => (person.late === null ? null : compileTime(person.late))),
    mayOvertime: Uint8Array.from(people, (person) =>
      Number(until !== 'none' && cap > 0 && person.overtime && (who === null || who.includes(person.id))),
    ),
    factor: matrix((person, step) => person.skills[step]?.factor ?? 1),
    reworkFactor: matrix((person, step) => person.skills[step]?.rework ?? 1),
    coverFrom,
    coverSteps,
    coverMask: Int32Array.from(covers, (list) => list.reduce((mask, step) => mask | (1 << step), 0)),
    firstCover,
    offFrom,
    offStart: Float64Array.from(offs.flat(), (off) => toMilliseconds(off.from)),
    offLength: Float64Array.from(
      offs.flat(),
      (off) => toMilliseconds(off.from + off.minutes) - toMilliseconds(off.from),
    ),
    offIsBreak: Uint8Array.from(offs.flat(), (off) => Number(off.kind === 'break')),
  };
}

function compileCalendar(shift: ResolvedShift, people: PeopleTables): Calendar {
  const entries: { time: number; order: number; kind: number; person: number; detail: number }[] = [];
  const add = (time: number, kind: number, person: number, detail: number): void => {
    entries.push({ time, order: personOrder(person, kind), kind, person, detail });
  };
  shift.people.forEach((person, p) => {
    add(people.from[p]!, COME, p, 0);
    add(people.to[p]!, GO, p, 0);
    // Looked at when tidying up begins, so that its minutes are counted as such.
    if (shift.tidyUp > 0) add(Math.max(0, people.to[p]! - toMilliseconds(shift.tidyUp)), NOTHING, p, 0);
    person.cover
      .slice(1)
      .forEach((cover, i) => add(toMilliseconds(cover.from), COVER, p, people.firstCover[p]! + i + 1));
    for (let off = people.offFrom[p]!; off < people.offFrom[p + 1]!; off++)
      add(people.offStart[off]!, OFF_START, p, off);
  });
  // Looked at: the first instant, in which what is carried over moves, and the scheduled end.
  add(0, NOTHING, 0, 0);
  add(toMilliseconds(shift.length), NOTHING, 0, 0);
  // And when a step is no longer begun (who stayed for that step alone may go) or is begun again.
  for (const { after, until } of shift.steps.flatMap((step) => step.shut)) {
    add(toMilliseconds(after) + 1, NOTHING, 0, 0);
    if (until < Infinity) add(toMilliseconds(until), NOTHING, 0, 0);
  }
  entries.sort((a, b) => a.time - b.time || a.order - b.order);
  return {
    count: entries.length,
    time: Float64Array.from(entries, (entry) => entry.time),
    order: Float64Array.from(entries, (entry) => entry.order),
    kind: Int32Array.from(entries, (entry) => entry.kind),
    person: Int32Array.from(entries, (entry) => entry.person),
    detail: Int32Array.from(entries, (entry) => entry.detail),
  };
}

function compileProducts(shift: ResolvedShift, stepIndex: Index): ProductTables {
  const { products, steps, allowance } = shift;
  const total = products.reduce((sum, product) => sum + product.share, 0) || 1;
  let reached = 0;
  const cumulative = Float64Array.from(products, (product) => (reached += product.share / total));
  cumulative[products.length - 1] = 1;
  const cells = products.flatMap((product) => steps.map((step) => ({ product, step })));
  const tasks = cells.map(({ product, step }) => product.tasks[step.id]!);
  const time = tasks.map((task) => compileTime(task.time));
  const repeat = tasks.map((task) => compileTime(task.repeat));
  const reckoned = (curve: ReturnType<typeof compileTime>, step: ResolvedStep): number =>
    step.plannedAt === 'mean' ? curve.mean : curve.quantile(step.plannedAt / 100);
  return {
    count: products.length,
    cumulative,
    enters: Int32Array.from(products, (product) => at(stepIndex, product.enters)),
    returned: Uint8Array.from(products, (product) => Number(product.returned)),
    next: Int32Array.from(tasks, ({ next }) => (next === null ? steps.length : at(stepIndex, next))),
    time,
    repeat,
    scale: Float64Array.from(
      cells,
      ({ step }, i) => MILLISECONDS * tasks[i]!.factor * (step.kind === 'hands' ? allowance : 1),
    ),
    planned: Float64Array.from(cells, ({ step }, i) => reckoned(time[i]!, step)),
    plannedRepeat: Float64Array.from(cells, ({ step }, i) => reckoned(repeat[i]!, step)),
    mean: Float64Array.from(time, (curve) => curve.mean),
  };
}

function compileHolds(shift: ResolvedShift, stepIndex: Index): HoldTables {
  const { holds } = shift;
  return {
    count: holds.length,
    before: Int32Array.from(holds, (hold) => at(stepIndex, hold.before)),
    until: Float64Array.from(holds, (hold) => toMilliseconds(hold.until)),
    product: Int32Array.from(holds, (hold) =>
      hold.product === null ? -1 : shift.products.findIndex((product) => product.id === hold.product),
    ),
    names: holds.map((hold) => (hold.units === null ? null : new Set(hold.units))),
  };
}

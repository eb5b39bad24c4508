/** Arrivals: how units come in, one after another, each with its product. */
import { sample } from '../duration/compile.ts';
import { draw } from './draws.ts';
import { standsAside, startWait } from './flow.ts';
import { firstOutside, hasSlot, joinLine, keepOutside, leaveOutside } from './lines.ts';
import { uniform } from '../random/threefry.ts';
import { PURPOSE } from '../random/keys.ts';
import { ARRIVAL, RANK_ARRIVALS } from './ranks.ts';
import { dropUnit, newUnit, NONE, type CellState, type Step, type Unit } from './state.ts';
import { toMilliseconds } from './compile.ts';
import type { CompiledCell } from './tables.ts';

/** One arrival of a list, flat: `time` ms, `product` -1 where it is drawn. */
export interface ListedArrival {
  time: number;
  product: number;
  due: number;
  rush: number;
  name: string | null;
}

/** The arrivals of a list in order of time, one entry a unit. */
export const listArrivals = (cell: CompiledCell): ListedArrival[] => {
  const { intake } = cell.shift;
  if (intake.kind !== 'list') return [];
  const entries = intake.arrivals.flatMap((entry): ListedArrival[] => {
    const one: ListedArrival = {
      time: toMilliseconds(entry.at) + toMilliseconds(intake.late),
      product:
        entry.product === null
          ? NONE
          : cell.shift.products.findIndex((product) => product.id === entry.product),
      due: entry.due === null ? Infinity : toMilliseconds(entry.due),
      rush: entry.rush ? 1 : 0,
      name: entry.name,
    };
    return Array.from({ length: entry.units }, () => one);
  });
  return entries
    .map((entry, i) => ({ entry, i }))
    .sort((a, b) => a.entry.time - b.entry.time || a.i - b.i)
    .map(({ entry }) => entry);
};

/** Plans the first arrival of a shift. */
export const openIntake = (state: CellState): void => {
  const { intake } = state.cell.shift;
  const late = toMilliseconds(intake.late);
  state.arrivalCount = 0;
  state.nextArrival = Infinity;
  if (intake.kind === 'list') {
    if (state.listed.length > 0) planArrival(state, state.listed[0]!.time);
  } else if (intake.kind === 'random') {
    if (intake.units !== 0) planArrival(state, late + gapOf(state));
  } else if (intake.kind === 'constant') {
    // What is carried over is inside already.
    const missing = Math.max(0, intake.inside - state.inside - state.outside.length);
    for (let i = 0; i < missing; i++) state.plan(late, RANK_ARRIVALS, ARRIVAL, 0, 0);
  } else if (intake.kind === 'at start' ? intake.units > 0 : intake.units !== 0) {
    planArrival(state, late);
  }
};

const gapOf = (state: CellState): number => {
  return toMilliseconds(sample(state.cell.gap!, draw(state, PURPOSE.GAP, state.nextNumber, 0, 0)));
};

const planArrival = (state: CellState, time: number): void => {
  state.nextArrival = time;
  state.plan(time, RANK_ARRIVALS, ARRIVAL, 0, 0);
};

/** One arrival (at the start: all of them), and the next one planned. */
export const arrival = (state: CellState): void => {
  const { intake } = state.cell.shift;
  const count = state.arrivalCount++;
  state.nextArrival = Infinity;
  if (intake.kind === 'list') {
    const { listed } = state;
    enter(state, listed[count]!);
    if (count + 1 < listed.length) planArrival(state, listed[count + 1]!.time);
    return;
  }
  if (intake.kind === 'at start') {
    // All at once: nothing of a lower rank can come between them.
    for (let i = 0; i < intake.units; i++) enter(state, null);
    return;
  }
  enter(state, null);
  if (intake.kind === 'beat') {
    if (intake.units === null || count + 1 < intake.units)
      planArrival(state, toMilliseconds(intake.late + (count + 1) * intake.every));
  } else if (intake.kind === 'random') {
    if (intake.units === null || count + 1 < intake.units) planArrival(state, state.now + gapOf(state));
  }
};

const drawProduct = (state: CellState): number => {
  const { products } = state.cell;
  if (products.count === 1) return 0;
  const luck = uniform(draw(state, PURPOSE.PRODUCT, state.nextNumber, 0, 0));
  let product = 0;
  while (luck >= products.cumulative[product]!) product++;
  return product;
};

const enter = (state: CellState, listed: ListedArrival | null): void => {
  const { recorder, cell, now } = state;
  const product = listed === null || listed.product === NONE ? drawProduct(state) : listed.product;
  const unit = newUnit(state, product, now);
  if (listed !== null) {
    unit.due = listed.due;
    unit.rush = listed.rush;
    unit.name = listed.name;
  }
  recorder.arrive(now, unit.number, product);
  placeArrival(state, unit, state.steps[cell.products.enters[product]!]!);
};

/** Into the first line; or aside, outside, or elsewhere. */
export const placeArrival = (state: CellState, unit: Unit, step: Step): void => {
  const { cell, recorder } = state;
  if (cell.holds.count > 0 && standsAside(state, unit, step)) {
    state.inside++;
  } else if (!step.hands) {
    state.inside++;
    startWait(state, unit, step);
  } else if (step.rack !== 0 && hasSlot(step) && firstOutside(state, step) === null) {
    state.inside++;
    joinLine(state, unit, step, true);
  } else if (cell.divert && step.rack !== 0) {
    recorder.divert(state.now, unit.number);
    dropUnit(state, unit);
  } else {
    keepOutside(state, unit, step);
  }
};

/**
 * Before a rack of 0 an arrival that could not start at this instant goes elsewhere, where the intake says
 * so.
 */
export const divertLeft = (state: CellState): void => {
  const { recorder } = state;
  for (let unit = state.outside.first; unit !== null; unit = state.outside.first) {
    leaveOutside(state, unit);
    recorder.divert(state.now, unit.number);
    dropUnit(state, unit);
  }
};

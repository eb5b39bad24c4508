/** The memory of a run, made once for a day's shifts. */
import { CellState, UnitList, type Unit } from './state.ts';
import type { CompiledCell } from './tables.ts';

/** Throws RangeError where the shifts do not share their steps: units could not be carried from one to the next. */
export function makeState(cells: CompiledCell[]): CellState {
  const [first] = cells;
  if (first === undefined) throw new RangeError('a day needs at least one shift');
  for (const cell of cells) {
    if (cell.stepIds.join() !== first.stepIds.join()) throw new RangeError('all shifts of a day need the same steps in the same order');
    if (cell.takes.count !== first.takes.count) throw new RangeError('all shifts of a day need the same takings of gear');
  }
  const most = (of: (cell: CompiledCell) => number): number => Math.max(...cells.map(of));
  const people = most((cell) => cell.people.count);
  const gear = most((cell) => cell.gear.count);
  const items = most((cell) => cell.gear.itemCount);
  const steps = first.steps.count;
  const state = new CellState();
  state.cell = first;
  state.places = most((cell) => Math.max(0, ...cell.stepIds.map((_, step) => cell.steps.usesFrom[step + 1]! - cell.steps.usesFrom[step]!)));
  state.lines = Array.from({ length: steps }, () => new UnitList());
  state.leftDown = Array.from({ length: steps }, () => new UnitList());
  state.inSlots = new Int32Array(steps);
  state.gearShort = new Int32Array(steps);
  state.freeGear = new Int32Array(gear);
  state.itemKind = new Int32Array(items);
  state.itemUnit = new Array<Unit | null>(items).fill(null);
  state.itemOut = new Uint8Array(items);
  state.itemRepair = new Float64Array(items);
  state.itemFailures = new Int32Array(items);
  state.itemFailed = new Uint8Array(items);
  state.kept = new Int32Array(state.places);
  for (const name of ['at', 'ended', 'comes', 'offKind'] as const) state[name] = new Uint8Array(people);
  for (const name of ['told', 'cover', 'offToken', 'nextOff', 'owedFrom', 'owedTo'] as const) state[name] = new Int32Array(people);
  state.piece = new Array<Unit | null>(people).fill(null);
  for (const name of ['offUntil', 'lastPiece'] as const) state[name] = new Float64Array(people);
  return state;
}

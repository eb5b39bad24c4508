/** What stands in the cell at the end, as the opening stock of the shift that comes next. */
import { minutesAfter } from '../scenario/clock.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';
import { meanLeft, meanMinutes } from './mean-minutes.ts';
import type { NowState } from './state.ts';

/**
 * The scenario with tomorrow's opening stock: `between` minutes pass from the count to its start. Cures run
 * on by the clock on the wall: what has had its time waits in its clamps for the next step; everything else
 * stands where it stood. A piece in hand was finished or put down; what the count still calls in hand is put
 * down with the time it has left.
 */
export function tomorrow(scenario: Scenario, now: NowState, between: number): Scenario {
  const start = scenario.shift?.start ?? '06:00';
  // Whatever was due today is due as soon as tomorrow begins.
  const overdue = (piece: CarryOver): CarryOver =>
    piece.due === undefined ? piece : { ...piece, due: start };
  return {
    ...scenario,
    carryOver: now.inside.map((piece) => overdue(overnight(scenario, piece, between))),
    holds: holdsTomorrow(scenario, now, between),
  };
}

/** Minutes from the count to the same shift's start on the next day. */
export function minutesToNextStart(scenario: Scenario, now: NowState): number {
  const start = scenario.shift?.start ?? '06:00';
  return minutesAfter(now.at, start) || 1440;
}

function overnight(scenario: Scenario, piece: CarryOver, between: number): CarryOver {
  const arrived = piece.arrived ?? 0;
  if (piece.state === 'curing') {
    const left = piece.minutes ?? meanMinutes(scenario, piece);
    if (left > between) return { ...piece, minutes: left - between, arrived };
    return cured(scenario, piece, arrived, between - left);
  }
  if (piece.state === 'in hand') {
    const { person, ...rest } = piece;
    return {
      ...rest,
      state: 'put down',
      minutes: meanLeft(scenario, piece, piece.minutes ?? 0, person === undefined ? [] : [person]),
      arrived,
    };
  }
  return { ...piece, arrived };
}

/** After its wait: the next step of its path, through further waits as long as the night lasts. */
function cured(scenario: Scenario, piece: CarryOver, arrived: number, left: number): CarryOver {
  const visits = { ...piece.visits, [piece.at]: (piece.visits?.[piece.at] ?? 0) + 1 };
  const next = nextStep(scenario, piece);
  const { state: _state, minutes: _minutes, ...rest } = piece;
  const made: CarryOver = { ...rest, at: next, arrived };
  if (piece.visits !== undefined) made.visits = visits;
  if (scenario.steps[next]?.kind !== 'wait') return made;
  const time = meanMinutes(scenario, made);
  return time > left
    ? { ...made, state: 'curing', minutes: time - left }
    : cured(scenario, { ...made, state: 'curing' }, arrived, left - time);
}

function nextStep(scenario: Scenario, piece: CarryOver): string {
  const then = scenario.steps[piece.at]?.then;
  if (then !== undefined) return then;
  const skips = piece.product === undefined ? [] : (scenario.products?.[piece.product]?.skips ?? []);
  const path = Object.keys(scenario.steps).filter(
    (id) => scenario.steps[id]!.aside !== true && !skips.includes(id),
  );
  return path[path.indexOf(piece.at) + 1] ?? piece.at;
}

function holdsTomorrow(scenario: Scenario, now: NowState, between: number): NonNullable<Scenario['holds']> {
  // A hold is until a clock time of its day: one that ends before tomorrow's start is over.
  return now.holds.filter((hold) => minutesAfter(now.at, hold.until) > between);
}

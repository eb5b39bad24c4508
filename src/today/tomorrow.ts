/** What stands in the cell at the end, as the opening stock of the shift that comes next. */
import { minutesAfter } from '../scenario/clock.ts';
import { carriedOf, intakeOf, resolve, taskOf, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';
import { outRackFrom } from './out-racks.ts';
import { dueApart } from './piece-due.ts';
import { holdsOnKnown } from './holds-on-known.ts';
import { meanLeft, meanMinutes } from './mean-minutes.ts';
import type { NowState } from './state.ts';

/**
 * The scenario with tomorrow's opening stock: `between` minutes pass from the count to its start. Cures run
 * on by the clock on the wall: what has had its time waits in its clamps for the next step; everything else
 * stands where it stood. A piece in hand was finished or put down; what the count still calls in hand is put
 * down with the time it has left.
 */
export function tomorrow(scenario: Scenario, now: NowState, between: number): Scenario {
  const shift = resolve(scenario);
  const elapsed = minutesAfter(shift.start, now.at);
  // Minutes from the next start: what was due today is overdue by then, and by how much counts.
  const dueThen = (counted: CarryOver): CarryOver => {
    const { piece, due } = dueApart(counted, shift, elapsed);
    return due === null ? piece : { ...piece, dueIn: due - elapsed - between };
  };
  return {
    ...scenario,
    carryOver: now.inside.map((piece) => dueThen(overnight(shift, piece, between))),
    holds: holdsTomorrow(scenario, now, between),
    ...outRackFrom(scenario, now.outRack),
  };
}

/** Minutes from the count to the same shift's start on the next day. */
export function minutesToNextStart(scenario: Scenario, now: NowState): number {
  return minutesAfter(now.at, resolve(scenario).start) || 1440;
}

function overnight(shift: ResolvedShift, piece: CarryOver, between: number): CarryOver {
  const { state, minutes, arrived } = carriedOf(shift, piece);
  if (state === 'curing') {
    const left = minutes ?? meanMinutes(shift, piece);
    if (left > between) return { ...piece, minutes: left - between, arrived };
    return cured(shift, piece, arrived, between - left);
  }
  if (state === 'in hand') {
    const { person, ...rest } = piece;
    return {
      ...rest,
      state: 'put down',
      minutes: meanLeft(shift, piece, minutes ?? 0, person === undefined ? [] : [person]),
      arrived,
    };
  }
  return { ...piece, arrived };
}

/** After its wait: the next step of its path, through further waits as long as the night lasts. */
function cured(shift: ResolvedShift, piece: CarryOver, arrived: number, left: number): CarryOver {
  const { visits, product } = carriedOf(shift, piece);
  const next = taskOf(shift, product, piece.at).next ?? piece.at;
  const { state: _state, minutes: _minutes, ...rest } = piece;
  const made: CarryOver = { ...rest, at: next, arrived };
  if (visits !== null) made.visits = { ...visits, [piece.at]: (visits[piece.at] ?? 0) + 1 };
  if (shift.steps.find((step) => step.id === next)?.kind !== 'wait') return made;
  const time = meanMinutes(shift, made);
  return time > left
    ? { ...made, state: 'curing', minutes: time - left }
    : cured(shift, { ...made, state: 'curing' }, arrived, left - time);
}

function holdsTomorrow(scenario: Scenario, now: NowState, between: number): NonNullable<Scenario['holds']> {
  // A hold is until a clock time of its day: one that ends before tomorrow's start is over.
  const holds = now.holds.filter((hold) => minutesAfter(now.at, hold.until) > between);
  return holdsOnKnown(holds, now.inside, intakeOf(scenario));
}

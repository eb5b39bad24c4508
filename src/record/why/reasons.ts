/** A shift with its reasons: every stretch in which gear or a person stood, and why. */
import { compile } from '../../engine/compile.ts';
import { CellRun } from '../../engine/run.ts';
import { isCommonState, NO_GEAR, PERSON_STATES } from '../../engine/states.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { type Cause, isSameReason } from './causes.ts';
import { type Explained, whyIdle, whyStands } from './explain.ts';
import { Moment } from './moment.ts';
import type { Stretch } from '../stretch.ts';
import { Timeline } from './timeline.ts';

/** Minutes from the start of the shift. Causes as they were at its beginning. */
export interface Stood extends Explained {
  from: number;
  to: number;
  /** What they were told to be doing, as engine/states.ts numbers it. */
  state: number;
}

export interface ShiftReasons {
  /** When its report closes. */
  ends: number;
  good: number;
  /** When pieces came after the opening, ascending. */
  arrivals: number[];
  /** What each did, without a gap; [person] and [gear][item]. */
  people: Stretch[][];
  items: Stretch[][][];
  /** The stretches of it that have reasons. */
  idle: Stood[][];
  stood: Stood[][][];
}

/** Runs replications of a day and gives reasons; its memory is used again. */
export class ReasonsRun {
  private readonly run: CellRun;
  private readonly timelines: Timeline[];

  constructor(shifts: ResolvedShift[]) {
    const cells = shifts.map(compile);
    this.run = new CellRun(cells);
    this.timelines = cells.map((cell) => new Timeline(cell));
  }

  /** One replication (0 to 2^32 - 1), shift by shift. Throws RunawayError. */
  reasons(replication: number): ShiftReasons[] {
    this.run.run(replication, this.timelines, true);
    return this.timelines.map(reasonsOf);
  }
}

/** What happened in one replication, with reasons. Throws RunawayError. */
export const recordReasons = (shifts: ResolvedShift[], replication: number): ShiftReasons[] =>
  new ReasonsRun(shifts).reasons(replication);

/** Is somebody in this state at hand without work? */
export const isIdle = (state: number, gears: number): boolean =>
  isCommonState(state) ? PERSON_STATES[state].kind === 'idle' : state < NO_GEAR + gears;

function reasonsOf(timeline: Timeline): ShiftReasons {
  const { people, items, ends, cell } = timeline;
  const idle: Stood[][] = people.map(() => []);
  const stood: Stood[][][] = items.map((kind) => kind.map(() => []));
  const moment = new Moment(timeline);
  const times = instants(timeline);
  times.forEach((from, i) => {
    const to = times[i + 1] ?? ends;
    if (to <= from) return;
    moment.to(from);
    people.forEach((_, person) => {
      const doing = moment.person(person);
      if (doing !== null && isIdle(doing.state, cell.gear.count))
        add(idle[person]!, { from, to, state: doing.state, ...whyIdle(moment, person) });
    });
    items.forEach((kind, gear) =>
      kind.forEach((_, item) => {
        const why = whyStands(moment, gear, item);
        const state = moment.item(gear, item)?.state;
        if (why !== null && state !== undefined) add(stood[gear]![item]!, { from, to, state, ...why });
      }),
    );
  });
  return { ends, good: timeline.goods, arrivals: timeline.arrivals, people, items, idle, stood };
}

/** Every minute at which something changes, ascending. */
function instants({ people, items, units, heads, arrivals, ends }: Timeline): number[] {
  const lines: { from: number }[][] = [
    ...people,
    ...items.flat(),
    ...units.map(({ places }) => places),
    ...heads,
  ];
  const times = new Set([0, ...arrivals, ...lines.flatMap((line) => line.map(({ from }) => from))]);
  return [...times].filter((at) => at < ends).sort((a, b) => a - b);
}

/** Goes on while the same is missing for the same reason, whichever piece it is. */
function add(line: Stood[], why: Stood): void {
  const open = line.at(-1);
  const goesOn =
    open !== undefined &&
    open.to === why.from &&
    open.state === why.state &&
    sameReason(open.chain, why.chain);
  if (goesOn) open.to = why.to;
  else line.push(why);
}

function sameReason(a: readonly Cause[], b: readonly Cause[]): boolean {
  return a.length === b.length && (a === b || a.every((cause, i) => isSameReason(cause, b[i]!)));
}

/**
 * A recorder that keeps one replication as stretches of time: what each person and each piece of gear did,
 * and how long each line was.
 */
import { compile } from '../engine/compile.ts';
import { FREE, NOT_IN, workingAt } from '../engine/recorder.ts';
import { CellRun } from '../engine/run.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { recordEvents } from './event-record.ts';
import type { EventRow } from './event-row.ts';
import { turn, type Stretch } from './stretch.ts';
import { recordReasons, type ShiftReasons } from './why/reasons.ts';

export interface ReplayShift {
  /** Minutes until the shift's report closes, overtime included. */
  ends: number;
  /** In the order of the resolved shift. */
  people: Stretch[][];
  /** [gear][item] */
  gear: Stretch[][][];
  /** [step] length of its line from `at` on, minutes; one entry a change, none for waits. */
  lines: { at: number; length: number }[][];
  /** Minutes at which a good unit was done. */
  goods: number[];
  scrapped: number;
  /** Times count from the start of this shift, in milliseconds. */
  events: EventRow[];
  /** Why gear and people stood. */
  why: ShiftReasons;
}

const MINUTE = 60_000;

/** What happened in one replication (0 to 2^32 - 1), shift by shift. Throws RunawayError. */
export function recordReplay(shifts: ResolvedShift[], replication: number): ReplayShift[] {
  const cells = shifts.map(compile);
  const records = cells.map((cell) => new ReplayRecord(cell));
  new CellRun(cells).run(replication, records);
  const events = recordEvents(shifts, replication);
  const why = recordReasons(shifts, replication);
  return records.map((record, i) => {
    const offset = (shifts[i]!.startsAfter - shifts[0]!.startsAfter) * MINUTE;
    return {
      ...record.told(),
      why: why[i]!,
      events: events[i]!.map((row) => ({ ...row, time: row.time - offset })),
    };
  });
}

class ReplayRecord extends SilentRecorder {
  private readonly cell: CompiledCell;
  private people: Stretch[][] = [];
  private items: Stretch[][][] = [];
  private lines: { at: number; length: number }[][] = [];
  private goods: number[] = [];
  private scrapped = 0;
  private ends = 0;

  constructor(cell: CompiledCell) {
    super();
    this.cell = cell;
  }

  override begin(): void {
    const open = (state: number): Stretch[] => [{ from: 0, to: 0, state, unit: -1 }];
    this.people = Array.from({ length: this.cell.people.count }, () => open(NOT_IN));
    this.items = this.cell.shift.gear.map(({ count }) => Array.from({ length: count }, () => open(FREE)));
    this.lines = this.cell.shift.steps.map(() => [{ at: 0, length: 0 }]);
    this.goods = [];
    this.scrapped = 0;
  }

  override person(time: number, person: number, state: number): void {
    turn(this.people[person]!, time / MINUTE, state, -1);
  }

  override gear(time: number, gear: number, item: number, state: number, unit: number): void {
    turn(this.items[gear]![item]!, time / MINUTE, state, unit);
  }

  override start(
    time: number,
    unit: number,
    step: number,
    _visit: number,
    person: number,
    second: number,
    _duration: number,
    _waited: number,
    length: number,
  ): void {
    this.line(time, step, length);
    this.takesUp(time, unit, step, person, second);
  }

  override resume(time: number, unit: number, step: number, person: number): void {
    this.takesUp(time, unit, step, person, -1);
  }

  override join(time: number, _unit: number, step: number, length: number): void {
    this.line(time, step, length);
  }

  override good(time: number): void {
    this.goods.push(time / MINUTE);
  }

  override scrap(): void {
    this.scrapped += 1;
  }

  override end(time: number): void {
    this.ends = Math.max(this.ends, time / MINUTE);
  }

  told(): Omit<ReplayShift, 'events' | 'why'> {
    const closed = (stretches: Stretch[]): Stretch[] => {
      const last = stretches.at(-1)!;
      last.to = Math.max(last.to, this.ends);
      return stretches.filter((one) => one.to > one.from);
    };
    return {
      ends: this.ends,
      people: this.people.map(closed),
      gear: this.items.map((items) => items.map(closed)),
      lines: this.lines,
      goods: this.goods,
      scrapped: this.scrapped,
    };
  }

  /** Whose hands the piece is in: told before or after the person's state, which has no piece of its own. */
  private takesUp(time: number, unit: number, step: number, ...people: number[]): void {
    const working = workingAt(this.cell.gear.count, step);
    for (const person of people) {
      if (person < 0) continue;
      turn(this.people[person]!, time / MINUTE, working, unit);
    }
  }

  private line(time: number, step: number, length: number): void {
    this.lines[step]!.push({ at: time / MINUTE, length });
  }
}

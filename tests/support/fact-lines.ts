/** What the engine tells, as the lines of the reference run: "time what who …". */
import { compile } from '../../src/engine/compile.ts';
import {
  AWAY,
  FREE,
  gearAt,
  GONE,
  NO_COVER,
  NO_FIT,
  NO_GEAR,
  NO_HELP,
  NO_UNIT,
  NOT_IN,
  NOWHERE,
  ON_BREAK,
  OUT_OF_ORDER,
  REWORK,
  SCRAP,
  TIDYING,
  WAITING_PARTNER,
  workingAt,
} from '../../src/engine/recorder.ts';
import { CellRun } from '../../src/engine/run.ts';
import { SilentRecorder } from '../../src/engine/silent.ts';
import type { CompiledCell } from '../../src/engine/tables.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';

const WORDS = new Map([
  [NOT_IN, 'not in'],
  [GONE, 'gone'],
  [ON_BREAK, 'break'],
  [AWAY, 'away'],
  [TIDYING, 'tidies'],
  [NO_UNIT, 'no unit'],
  [NOWHERE, 'nowhere'],
  [NO_FIT, 'no fit'],
  [NO_HELP, 'no help'],
  [WAITING_PARTNER, 'waits for partner'],
  [NO_COVER, 'covers nothing'],
]);

export class FactLines extends SilentRecorder {
  readonly cell: CompiledCell;
  lines: string[] = [];
  private readonly states: States;

  constructor(cell: CompiledCell) {
    super();
    this.cell = cell;
    const items = cell.gearIds.flatMap((gear, g) =>
      Array.from({ length: cell.gear.items[g]! }, (_, item): [string, string] => [
        `gear ${gear} ${item}`,
        'free',
      ]),
    );
    const people = cell.personIds.map((person): [string, string] => [person, 'not in']);
    this.states = new States([...people, ...items], (time, text) => this.tell(time, text));
  }

  private tell(time: number, text: string): void {
    this.lines.push(`${time} ${text}`);
  }

  private step(step: number): string {
    return this.cell.stepIds[step]!;
  }

  private outcome(step: number, outcome: number, branch: number): string {
    if (outcome === REWORK) return `rework ${this.cell.shift.steps[step]!.rework[branch]!.to}`;
    return outcome === SCRAP ? 'scrap' : 'on';
  }

  override arrive(time: number, unit: number, product: number): void {
    this.tell(time, `arrive ${unit} ${this.cell.shift.products[product]!.id}`);
  }

  override join(time: number, unit: number, step: number): void {
    this.tell(time, `join ${unit} ${this.step(step)}`);
  }

  override divert(time: number, unit: number): void {
    this.tell(time, `divert ${unit}`);
  }

  override start(
    time: number,
    unit: number,
    step: number,
    _visit: number,
    person: number,
    second: number,
    duration: number,
  ): void {
    const people = this.cell.personIds;
    this.tell(
      time,
      `start ${unit} ${this.step(step)} ${people[person]!}${second >= 0 ? `+${people[second]!}` : ''} ${duration}`,
    );
  }

  override putDown(time: number, unit: number, step: number): void {
    this.tell(time, `put down ${unit} ${this.step(step)}`);
  }

  override resume(time: number, unit: number, step: number, person: number): void {
    this.tell(time, `resume ${unit} ${this.step(step)} ${this.cell.personIds[person]!}`);
  }

  override finish(
    time: number,
    unit: number,
    step: number,
    _person: number,
    outcome: number,
    branch: number,
  ): void {
    this.tell(time, `finish ${unit} ${this.step(step)} ${this.outcome(step, outcome, branch)}`);
  }

  override waitStart(time: number, unit: number, step: number, duration: number): void {
    this.tell(time, `wait ${unit} ${this.step(step)} ${duration}`);
  }

  override waitEnd(time: number, unit: number, step: number, outcome: number, branch: number): void {
    this.tell(time, `cured ${unit} ${this.step(step)} ${this.outcome(step, outcome, branch)}`);
  }

  override standAside(time: number, unit: number, step: number): void {
    this.tell(time, `aside ${unit} ${this.step(step)}`);
  }

  override release(time: number, unit: number, step: number): void {
    this.tell(time, `release ${unit} ${this.step(step)}`);
  }

  override again(time: number, unit: number): void {
    this.tell(time, `out again ${unit}`);
  }

  override good(time: number, unit: number): void {
    this.tell(time, `good ${unit}`);
  }

  override scrap(time: number, unit: number): void {
    this.tell(time, `scrap ${unit}`);
  }

  override rackSent(time: number): void {
    this.tell(time, 'rack sent');
  }

  override changePlaces(time: number, units: number): void {
    this.tell(time, `change places ${units}`);
  }

  override targetMet(time: number): void {
    this.tell(time, 'target met');
  }

  override breakLapsed(time: number, person: number, milliseconds: number): void {
    this.tell(time, `lapsed ${this.cell.personIds[person]!} ${milliseconds}`);
  }

  /** States that come and go within one instant are not told. */
  override person(time: number, person: number, state: number): void {
    this.states.set(time, this.cell.personIds[person]!, this.word(state));
  }

  override gear(time: number, gear: number, item: number, state: number): void {
    this.states.set(time, `gear ${this.cell.gearIds[gear]!} ${item}`, this.gearWord(state));
  }

  private word(state: number): string {
    const gears = this.cell.gear.count;
    if (state >= workingAt(gears, 0)) return `at ${this.step(state - workingAt(gears, 0))}`;
    return state >= NO_GEAR ? `no ${this.cell.gearIds[state - NO_GEAR]!}` : WORDS.get(state)!;
  }

  private gearWord(state: number): string {
    if (state === FREE) return 'free';
    if (state === OUT_OF_ORDER) return 'out of order';
    const step = Math.floor((state - gearAt(0)) / 3);
    const what = ['at', 'before', 'put down'][(state - gearAt(0)) % 3]!;
    return `${what} ${step === this.cell.stepIds.length ? 'out' : this.step(step)}`;
  }

  override end(time: number): void {
    this.states.tell();
    this.tell(time, 'end');
  }
}

/** Who is in which state at the end of each instant. */
class States {
  private time = 0;
  private readonly now = new Map<string, string>();
  private readonly told: Map<string, string>;
  private readonly each: (time: number, text: string) => void;

  constructor(opening: [who: string, state: string][], each: (time: number, text: string) => void) {
    this.told = new Map(opening);
    this.each = each;
  }

  set(time: number, who: string, state: string): void {
    if (time !== this.time) this.tell();
    this.time = time;
    this.now.set(who, state);
  }

  tell(): void {
    for (const [who, state] of [...this.now].sort(([a], [b]) => (a < b ? -1 : 1))) {
      if (state !== this.told.get(who)) this.each(this.time, `${who} ${state}`);
      this.told.set(who, state);
    }
    this.now.clear();
  }
}

/** The facts of one shift by the engine. */
export function engineLines(shift: ResolvedShift, replication: number): string[] {
  const cell = compile(shift);
  const lines = new FactLines(cell);
  new CellRun([cell]).run(replication, [lines]);
  return lines.lines;
}

/** By time, then by the alphabet: what came about in one instant, whatever it was told in. */
export function sortLines(lines: string[]): string[] {
  const timeOf = (line: string): number => Number(line.slice(0, line.indexOf(' ')));
  return [...lines].sort((a, b) => timeOf(a) - timeOf(b) || (a < b ? -1 : a > b ? 1 : 0));
}

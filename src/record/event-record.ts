/** The recorder that writes everything down: one replication as a list of events in the words of the shop. */
import { compile } from '../engine/compile.ts';
import {
  AWAY,
  FREE,
  GONE,
  isCommonState,
  NO_COVER,
  NO_FIT,
  NO_GEAR,
  NO_HELP,
  NO_UNIT,
  NOT_IN,
  NOWHERE,
  ON_BREAK,
  OUT_OF_ORDER,
  PERSON_STATES,
  personPresence,
  TIDYING,
  WAITING_PARTNER,
  type PersonState,
} from '../engine/states.ts';
import { listArrivals } from '../engine/arrivals.ts';
import { CellRun } from '../engine/run.ts';
import { REWORK } from '../engine/recorder.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { ResolvedCarried, ResolvedShift } from '../scenario/resolve.ts';
import { bareEvent, type EventName, type EventRow } from './event-row.ts';

/**
 * Everything that happens in one replication (0 to 2^32 - 1), one list a shift, in the order in which the run
 * carried it out; times count from the start of the first shift. Pieces are called by their names in the
 * file, otherwise by their number from 1, in order of arrival. Throws RunawayError.
 */
export function recordEvents(shifts: ResolvedShift[], replication: number): EventRow[][] {
  const cells = shifts.map(compile);
  const day: Day = { names: new Map(), taken: new Set(), gear: new Map() };
  const records = cells.map(
    (cell, shift) =>
      new EventRecord(cell, day, (shifts[shift]!.startsAfter - shifts[0]!.startsAfter) * MINUTE),
  );
  new CellRun(cells).run(replication, records);
  return records.map((record) => record.rows);
}

const MINUTE = 60_000;

/** What lasts from shift to shift. */
interface Day {
  /** Of the pieces, by their number in the run. */
  names: Map<number, string>;
  taken: Set<string>;
  /** State code of each piece of gear, by `gear item`. */
  gear: Map<string, number>;
}

class EventRecord extends SilentRecorder {
  readonly rows: EventRow[] = [];
  private readonly cell: CompiledCell;
  private readonly day: Day;
  private readonly offset: number;
  private people: number[] = [];
  /** Names of the pieces to come, in order of arrival: carried over (in the first shift), then listed. */
  private readonly toCome: (string | null)[];
  private come = 0;
  private shift = 0;
  /** A later shift opens by telling again what stands in the cell; that is no news. */
  private standing = false;

  constructor(cell: CompiledCell, day: Day, offset: number) {
    super();
    this.cell = cell;
    this.day = day;
    this.offset = offset;
    this.toCome = [...(offset === 0 ? cell.shift.carryOver.flatMap(numbered) : []), ...listedNames(cell)];
  }

  override begin(_replication: number, shift: number): void {
    this.people = Array<number>(this.cell.people.count).fill(NOT_IN);
    this.shift = shift;
    this.tell(0, 'shift begins');
    this.standing = shift > 0;
  }

  override arrive(time: number, unit: number, product: number): void {
    if (this.day.names.has(unit)) return;
    this.standing = false;
    this.day.names.set(unit, this.freeName(this.toCome[this.come++] ?? String(unit + 1)));
    this.tell(time, 'arrives', unit, { product: this.cell.shift.products[product]!.id });
  }

  override keepOutside(time: number, unit: number): void {
    if (!this.standing) this.tell(time, 'waits outside', unit);
  }

  override enter(time: number, unit: number): void {
    this.news(time, 'comes in', unit);
  }

  override divert(time: number, unit: number): void {
    this.news(time, 'sent elsewhere', unit);
  }

  override join(time: number, unit: number, step: number): void {
    if (!this.standing) this.tell(time, 'joins line', unit, { step: this.step(step) });
  }

  override start(
    time: number,
    unit: number,
    step: number,
    _visit: number,
    person: number,
    second: number,
  ): void {
    this.news(time, 'begins', unit, {
      step: this.step(step),
      person: this.who(person),
      second: this.who(second),
    });
  }

  override putDown(time: number, unit: number, step: number, person: number): void {
    if (!this.standing)
      this.tell(time, 'put down', unit, { step: this.step(step), person: this.who(person) });
  }

  override resume(time: number, unit: number, step: number, person: number): void {
    this.news(time, 'resumed', unit, { step: this.step(step), person: this.who(person) });
  }

  override finish(
    time: number,
    unit: number,
    step: number,
    person: number,
    outcome: number,
    branch: number,
  ): void {
    this.news(time, 'ends', unit, { step: this.step(step), person: this.who(person) });
    this.sentBack(time, unit, step, outcome, branch);
  }

  override waitStart(time: number, unit: number, step: number): void {
    if (!this.standing) this.tell(time, 'cure begins', unit, { step: this.step(step) });
  }

  override waitEnd(time: number, unit: number, step: number, outcome: number, branch: number): void {
    this.news(time, 'cure ends', unit, { step: this.step(step) });
    this.sentBack(time, unit, step, outcome, branch);
  }

  override block(time: number, unit: number, step: number): void {
    if (!this.standing) this.tell(time, 'blocked', unit, { step: this.step(step) });
  }

  override unblock(time: number, unit: number, step: number): void {
    this.news(time, 'moves on', unit, { step: this.step(step) });
  }

  override standAside(time: number, unit: number, step: number): void {
    if (!this.standing) this.tell(time, 'stands aside', unit, { step: this.step(step) });
  }

  override release(time: number, unit: number, step: number): void {
    this.news(time, 'released', unit, { step: this.step(step) });
  }

  override good(time: number, unit: number): void {
    this.news(time, 'good', unit);
  }

  override again(time: number, unit: number): void {
    this.news(time, 'out again', unit);
  }

  override scrap(time: number, unit: number): void {
    this.news(time, 'scrap', unit);
  }

  override rackSent(time: number): void {
    this.news(time, 'rack sent');
  }

  override changePlaces(time: number, units: number): void {
    this.news(time, 'places changed', -1, { detail: String(units) });
  }

  override person(time: number, person: number, state: number): void {
    this.standing = false;
    const before = this.people[person]!;
    this.people[person] = state;
    if (state === before) return;
    const about = { person: this.who(person) };
    const there = personPresence(state) !== 'gone';
    const came = personPresence(before) === 'gone';
    if (came && there) this.tell(time, 'comes', -1, about);
    if (personPresence(before) === 'off' && there) this.tell(time, 'back', -1, about);
    const event = isCommonState(state) ? PERSON_EVENTS[state] : null;
    if (event !== null && !(came && !there)) this.tell(time, event, -1, about);
    const why = this.whyIdle(state);
    if (why !== null) this.tell(time, 'idle', -1, { ...about, detail: why });
  }

  override gear(time: number, gear: number, item: number, state: number, unit: number): void {
    const key = `${this.cell.gearIds[gear]!} ${item}`;
    const before = this.day.gear.get(key) ?? FREE;
    this.day.gear.set(key, state);
    const what = { gear: this.cell.gearIds[gear]!, item: item + 1 };
    if (before === OUT_OF_ORDER && state !== OUT_OF_ORDER) this.tell(time, 'gear mended', -1, what);
    if (state === OUT_OF_ORDER && before !== OUT_OF_ORDER) this.tell(time, 'gear out', -1, what);
    const held = before !== FREE && before !== OUT_OF_ORDER;
    const holds = state !== FREE && state !== OUT_OF_ORDER;
    if (!held && holds) this.tell(time, 'gear taken', unit, what);
    if (held && state === FREE) this.tell(time, 'gear free', -1, what);
  }

  override targetMet(time: number): void {
    this.news(time, 'target met');
  }

  override breakLapsed(time: number, person: number, milliseconds: number): void {
    this.news(time, 'break lost', -1, {
      person: this.who(person),
      detail: String(Math.round(milliseconds / 600) / 100),
    });
  }

  override end(time: number, inside: number): void {
    this.news(time, 'shift ends', -1, { detail: String(inside) });
  }

  /** Something that only happens once the shift goes on. */
  private news(time: number, event: EventName, unit = -1, rest: Partial<EventRow> = {}): void {
    this.standing = false;
    this.tell(time, event, unit, rest);
  }

  private tell(time: number, event: EventName, unit = -1, rest: Partial<EventRow> = {}): void {
    const name = unit < 0 ? '' : (this.day.names.get(unit) ?? String(unit + 1));
    this.rows.push({ ...bareEvent(time + this.offset, event), unit: name, ...rest });
  }

  /** The list of a later shift may name its pieces as the first one did. */
  private freeName(name: string): string {
    const { taken } = this.day;
    const free = taken.has(name) ? `${name}, shift ${this.shift + 1}` : name;
    taken.add(free);
    return free;
  }

  private sentBack(time: number, unit: number, step: number, outcome: number, branch: number): void {
    if (outcome !== REWORK) return;
    const back = this.cell.shift.steps[step]!.rework[branch];
    this.tell(time, 'rework', unit, {
      step: this.step(step),
      detail: back === undefined ? '' : `${back.to}: ${back.cause}`,
    });
  }

  private whyIdle(state: number): string | null {
    if (isCommonState(state)) {
      const { kind, words } = PERSON_STATES[state];
      return kind === 'idle' ? words : null;
    }
    const missing = this.cell.shift.gear[state - NO_GEAR];
    return missing === undefined ? null : `no ${missing.name} free`;
  }

  private step(step: number): string {
    return this.cell.stepIds[step] ?? '';
  }

  private who(person: number): string {
    return this.cell.personIds[person] ?? '';
  }
}

/** What coming into a state is called; null where it is no event of its own. */
const PERSON_EVENTS: Readonly<Record<PersonState, EventName | null>> = {
  [NOT_IN]: null,
  [GONE]: 'goes',
  [ON_BREAK]: 'break',
  [AWAY]: 'away',
  [TIDYING]: 'tidies up',
  [NO_UNIT]: null,
  [NOWHERE]: null,
  [NO_FIT]: null,
  [NO_HELP]: null,
  [WAITING_PARTNER]: null,
  [NO_COVER]: null,
};

/** Names of listed arrivals in order; of several alike, each gets a number. */
export function listedNames(cell: CompiledCell): (string | null)[] {
  const names = listArrivals(cell).map((one) => one.name);
  const alike = new Map<string, number>();
  for (const name of names) if (name !== null) alike.set(name, (alike.get(name) ?? 0) + 1);
  const seen = new Map<string, number>();
  return names.map((name) => {
    if (name === null || alike.get(name) === 1) return name;
    seen.set(name, (seen.get(name) ?? 0) + 1);
    return `${name} ${seen.get(name)!}`;
  });
}

/** A name a piece: of several alike, each gets a number. */
export function numbered({ name, units }: ResolvedCarried): (string | null)[] {
  return Array.from({ length: units }, (_, i) =>
    name === null ? null : units === 1 ? name : `${name} ${i + 1}`,
  );
}

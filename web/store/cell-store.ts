/** The cell at hand: its draft, what was typed and cannot be read, what the check says, and the way back. */
import {
  checkingScenario,
  checkScenario,
  type CheckMemory,
  type Fault,
  type Reading,
  type Remark,
} from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { changeOf, nameIn, placeKey, valueAt, type Change, type Json, type Place } from './draft.ts';
import { EMPTY, played, recorded, redone, undoing, undone, type Entry, type History } from './history.ts';
import { inTurns } from '../work/turn.ts';
import { Entries } from './entries.ts';
import { MemoryShelf } from './shelf.ts';
import { Value } from './value.ts';

/** What is kept of a cell. */
export interface CellState {
  draft: Json;
  /** By place: text that could not be read, handed back to its field as `typed`. */
  typed: Record<string, string>;
  history: History;
}

/** What the check says of a draft, and what it remembers of it. */
interface Checked {
  reading: Reading;
  memory: CheckMemory;
}

function checkedNow(draft: Json): Checked {
  const memory: CheckMemory = new WeakMap();
  return { reading: checkScenario(draft, memory), memory };
}

let made = 0;
const newId = (): string =>
  `${Date.now().toString(36)}-${(made += 1).toString(36)}-${Math.random().toString(36).slice(2, 8)}`;

export class CellStore {
  readonly id: string;
  readonly draft: Value<Json>;
  readonly typed: Value<Record<string, string>>;
  readonly history: Value<History>;
  /** What the check says of the draft now. */
  readonly reading: Value<Reading>;
  /** The last draft that was fine: what the answers on the page stand on. Null before there was one. */
  readonly scenario: Value<Scenario | null>;
  /** Called with every change of the draft, those by undo and redo too: for keeping. */
  onEntry: (entry: Entry) => void = () => {};
  /** The entries of its days, as this browser keeps them. */
  entries: Entries;

  /**
   * A draft's parts are never changed in place, so options found fine stay so while they and the cell are the
   * same.
   */
  private readonly memory: CheckMemory;

  /** @param checked what the check says of the draft, where that was asked already. */
  constructor(id: string, state: CellState, { reading, memory }: Checked = checkedNow(state.draft)) {
    this.id = id;
    this.memory = memory;
    this.draft = new Value(state.draft);
    this.typed = new Value(state.typed);
    this.history = new Value(state.history);
    this.reading = new Value(reading);
    this.scenario = new Value(reading.kind === 'fine' ? reading.scenario : null);
    this.entries = new Entries({ cell: id, shelf: new MemoryShelf() });
  }

  /** The same, the draft checked a few milliseconds at a time. */
  static async inTurns(id: string, state: CellState): Promise<CellStore> {
    const memory: CheckMemory = new WeakMap();
    return new CellStore(id, state, {
      reading: await inTurns(checkingScenario(state.draft, memory)),
      memory,
    });
  }

  static of(id: string, draft: Json): CellStore {
    return new CellStore(id, { draft, typed: {}, history: EMPTY });
  }

  get state(): CellState {
    return { draft: this.draft.get(), typed: this.typed.get(), history: this.history.get() };
  }

  get name(): string {
    return nameIn(this.draft.get());
  }

  get faults(): Fault[] {
    const reading = this.reading.get();
    return reading.kind === 'wrong' ? reading.faults : [];
  }

  get remarks(): Remark[] {
    const reading = this.reading.get();
    return reading.kind === 'fine' ? reading.remarks : [];
  }

  at(place: Place): Json | undefined {
    return valueAt(this.draft.get(), place);
  }

  /** Puts a value at a place (undefined takes it out). `say` names it for undo: "cure 45 min". */
  change(say: string, place: Place, value: Json | undefined): void {
    this.changeMany(say, [[place, value]]);
  }

  /** Several as one step back. */
  changeMany(say: string, wanted: [Place, Json | undefined][]): void {
    let draft = this.draft.get();
    const changes: Change[] = [];
    for (const [place, value] of wanted) {
      this.setTyped(place, null);
      const change = changeOf(draft, place, value);
      if (change === null) continue;
      changes.push(change);
      draft = played(draft, [change]).draft;
    }
    if (changes.length === 0) return;
    const entry: Entry = { id: newId(), say, changes, at: Date.now() };
    this.settle(draft, recorded(this.history.get(), entry), entry);
  }

  /**
   * The draft another would be with this value at this place, checked: for showing an effect before it is
   * kept.
   */
  tried(place: Place, value: Json | undefined): Reading {
    const change = changeOf(this.draft.get(), place, value);
    return change === null
      ? this.reading.get()
      : checkScenario(played(this.draft.get(), [change]).draft, this.memory);
  }

  /** Keeps text that cannot be read (null: no longer). */
  setTyped(place: Place, text: string | null): void {
    const key = placeKey(place);
    const now = this.typed.get();
    if (text === null ? !Object.hasOwn(now, key) : now[key] === text) return;
    this.typed.set(
      Object.fromEntries([
        ...Object.entries(now).filter(([other]) => other !== key),
        ...(text === null ? [] : [[key, text]]),
      ]),
    );
  }

  typedAt(place: Place): string | null {
    const key = placeKey(place);
    return Object.hasOwn(this.typed.get(), key) ? this.typed.get()[key]! : null;
  }

  /** What is wrong at a place or anywhere in it, as one text for a field; empty where nothing is. */
  wrongAt(place: Place): string {
    const inside = this.faults.filter((fault) => place.every((key, i) => fault.place[i] === key));
    return inside.map((fault) => fault.text).join(' ');
  }

  get canUndo(): boolean {
    return this.history.get().past.length > 0;
  }

  get canRedo(): boolean {
    return this.history.get().future.length > 0;
  }

  /** Takes the last change back and returns what it was, null where there is none. */
  undo(): string | null {
    const back = undone(this.history.get());
    if (back === null) return null;
    this.turn(undoing(back.entry), back);
    return back.entry.say;
  }

  redo(): string | null {
    const again = redone(this.history.get());
    if (again === null) return null;
    this.turn(again.entry.changes, again);
    return again.entry.say;
  }

  private turn(changes: Change[], { entry, history }: { entry: Entry; history: History }): void {
    this.settle(played(this.draft.get(), changes).draft, history, {
      id: newId(),
      say: entry.say,
      changes,
      at: Date.now(),
    });
  }

  private settle(draft: Json, history: History, entry: Entry): void {
    this.show(draft);
    this.history.set(history);
    this.onEntry(entry);
  }

  /** Takes over a state from elsewhere: another tab, or what had not been kept when the page went. */
  adopt(state: CellState): void {
    this.typed.set(state.typed);
    this.show(state.draft);
    this.history.set(state.history);
  }

  private show(draft: Json): void {
    const reading = checkScenario(draft, this.memory);
    this.draft.set(draft);
    this.reading.set(reading);
    if (reading.kind === 'fine') this.scenario.set(reading.scenario);
  }
}

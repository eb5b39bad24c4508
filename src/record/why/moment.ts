/** A timeline as it stands at one minute after another. */
import { FREE } from '../../engine/states.ts';
import type { Cause } from './causes.ts';
import type { Stretch } from '../stretch.ts';
import type { Head, Place, Refusal, Timeline, UnitLine } from './timeline.ts';

export interface Standing {
  unit: UnitLine;
  place: Place;
}

/** Where in a line of entries the minute is that it was last asked for; it goes forward only. */
class Cursor<One extends { from: number }> {
  private readonly line: readonly One[];
  private at = -1;

  constructor(line: readonly One[]) {
    this.line = line;
  }

  now(minute: number): One | null {
    const { line } = this;
    while (this.at + 1 < line.length && line[this.at + 1]!.from <= minute) this.at++;
    return line[this.at] ?? null;
  }

  /** The first one after now that is so. */
  next(is: (one: One) => boolean): One | null {
    for (let i = this.at + 1; i < this.line.length; i++) if (is(this.line[i]!)) return this.line[i]!;
    return null;
  }
}

const cursors = <One extends { from: number }>(lines: readonly One[][]): Cursor<One>[] =>
  lines.map((line) => new Cursor(line));

/** Goes forward only: `to` a minute, then ask. */
export class Moment {
  readonly timeline: Timeline;
  at = 0;
  /** Pieces in the cell or outside, in order of their numbers. */
  standing: Standing[] = [];
  /** [step] pieces that stand before it: in its line or, where the rack has no slot, outside. */
  readonly before: Int32Array;
  /** What has been explained at this minute. */
  readonly explained = new Map<string, readonly Cause[]>();
  private readonly people: Cursor<Stretch>[];
  private readonly items: Cursor<Stretch>[][];
  private readonly heads: Cursor<Head>[];
  private readonly refusals: Cursor<Refusal>[];
  private units: { unit: UnitLine; places: Cursor<Place> }[];
  private readonly byNumber = new Map<number, Place>();

  constructor(timeline: Timeline) {
    this.timeline = timeline;
    this.before = new Int32Array(timeline.cell.steps.count);
    this.people = cursors(timeline.people);
    this.items = timeline.items.map(cursors);
    this.heads = cursors(timeline.heads);
    this.refusals = cursors(timeline.refusals);
    this.units = timeline.units.map((unit) => ({ unit, places: new Cursor(unit.places) }));
  }

  to(minute: number): void {
    const { before, byNumber } = this;
    const { rack } = this.timeline.cell.steps;
    this.at = minute;
    this.explained.clear();
    this.standing = [];
    before.fill(0);
    byNumber.clear();
    let haveLeft = false;
    for (const { unit, places } of this.units) {
      // They are in the order of their coming.
      if ((unit.places[0]?.from ?? 0) > minute) break;
      const place = places.now(minute);
      if (place === null) continue;
      if (place.where === 'left') haveLeft = true;
      else {
        this.standing.push({ unit, place });
        byNumber.set(unit.number, place);
        if (place.where === 'line' || (place.where === 'outside' && rack[place.step] === 0))
          before[place.step]!++;
      }
    }
    if (haveLeft) this.units = this.units.filter(({ places }) => places.now(minute)?.where !== 'left');
  }

  person(person: number): Stretch | null {
    return this.people[person]!.now(this.at);
  }

  item(gear: number, item: number): Stretch | null {
    return this.items[gear]![item]!.now(this.at);
  }

  /** When a piece of gear that is taken comes free; Infinity for not in this shift. */
  freeFrom(gear: number, item: number): number {
    const cursor = this.items[gear]![item]!;
    cursor.now(this.at);
    return cursor.next(({ state }) => state === FREE)?.from ?? Infinity;
  }

  head(step: number): Head | null {
    return this.heads[step]!.now(this.at);
  }

  /** What was told at the very instant that the head of the step was: an older one is no longer so. */
  refusal(person: number, step: number): Refusal | null {
    const told = this.refusals[person * this.timeline.cell.steps.count + step]!.now(this.at);
    return told !== null && told.from === this.head(step)?.from ? told : null;
  }

  /** When the next piece comes; null for never. */
  nextArrival(): number | null {
    return this.timeline.arrivals.find((at) => at > this.at) ?? null;
  }

  placeOf(number: number): Place | null {
    return this.byNumber.get(number) ?? null;
  }
}

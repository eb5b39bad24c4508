/**
 * The recorder that counts: everything a shift's report says, into one array made once.
 *
 * Minutes in a state are counted as the time of leaving it less the time of coming into it, so that a change
 * is one number added and one taken off, and nothing has to be kept of when it began. Times are whole
 * milliseconds: such sums are exact in any order.
 */
import { FREE, NOT_IN, REWORK, personStates } from '../engine/recorder.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Accounts } from './accounts.ts';
import { Counts } from './counts.ts';
import { HEARING, letHear } from './hearing.ts';
import { layoutOf } from './layout.ts';
import type { Kept } from './measure.ts';
import { MEASURES } from './measures.ts';
import type { ReportLayout } from './report.ts';
import { WageClerk, type Wages } from './wages.ts';

const MINUTE = 60_000;
const HOUR = 3_600_000;

/** Cuts one array into stretches that follow each other. */
class Stretches {
  size = 0;

  /** Where a stretch of `count` numbers begins. */
  room(count: number): number {
    const at = this.size;
    this.size += count;
    return at;
  }
}

export class Tally extends SilentRecorder implements Accounts {
  readonly shift: ResolvedShift;
  readonly layout: ReportLayout;
  counts = new Counts();
  /** What each measure keeps, in their order: nothing, for most of them. */
  readonly kept: Kept[] = MEASURES.map(() => ({}));
  /** Reckons the wages before a row is written. */
  readonly clerk: WageClerk;
  readonly goodByHour: Float64Array;
  readonly byCause: Float64Array;
  /** Made at the end of the shift. */
  readonly lineArea: Float64Array;
  readonly lineMost: Float64Array;
  /** [steps][bins] unit-ms in the line; made at the end of the shift. */
  readonly lineBins: Float64Array;
  readonly waited: Float64Array;
  readonly starts: Float64Array;
  /** [people][states], ms; the second half is after their own end. */
  readonly personTime: Float64Array;
  /** [gear][states], ms. */
  readonly gearTime: Float64Array;
  /** All that is counted; the arrays above are stretches of it. */
  private readonly data: Float64Array;
  private readonly hourAt: number;
  private readonly hours: number;
  private readonly causeAt: number;
  private readonly mostAt: number;
  private readonly waitedAt: number;
  private readonly startsAt: number;
  /**
   * [bins + 1][steps]: unit-ms in the line within the bin by units that came into it or left it there; and,
   * right after it, how many more are in it at the end of the bin than at its beginning. The last bin is all
   * that comes after the others.
   */
  private readonly lineAt: number;
  private readonly personAt: number;
  private readonly personWidth: number;
  private readonly gearAt: number;
  private readonly gearWidth: number;
  private readonly binWidth: number;
  private readonly bins: number;
  /** Where the bin of now stands in `data`, when it ends for good, and the end it is reckoned to. */
  private bin = 0;
  private binAt = 0;
  private binEnds = 0.5;
  private edge = 0.5;
  private readonly lineNow: Int32Array;
  /** Where in `data` the state of each person, and of each piece of gear, is counted. */
  private readonly personNow: Int32Array;
  private readonly itemNow: Int32Array;
  private readonly firstItem: Int32Array;
  private readonly branchFrom: Int32Array;
  private readonly diverts: boolean;

  constructor(cell: CompiledCell) {
    super();
    this.shift = cell.shift;
    this.layout = layoutOf(cell);
    this.clerk = new WageClerk(cell.shift);
    this.diverts = cell.divert;
    const { layout } = this;
    const steps = cell.steps.count;
    const people = cell.people.count;
    this.hours = layout.hours;
    this.bins = layout.bins;
    this.binWidth = layout.binMinutes * MINUTE;
    this.personWidth = 2 * personStates(cell.gear.count, steps);
    this.gearWidth = layout.gearStates;
    const stretches = new Stretches();
    this.hourAt = stretches.room(layout.hours);
    this.causeAt = stretches.room(layout.causes.length);
    this.mostAt = stretches.room(steps);
    this.waitedAt = stretches.room(steps);
    this.startsAt = stretches.room(steps);
    this.lineAt = stretches.room(2 * steps * (layout.bins + 1));
    this.personAt = stretches.room(people * this.personWidth);
    this.gearAt = stretches.room(cell.gear.count * this.gearWidth);
    const data = new Float64Array(stretches.size);
    this.data = data;
    this.goodByHour = data.subarray(this.hourAt, this.hourAt + layout.hours);
    this.byCause = data.subarray(this.causeAt, this.causeAt + layout.causes.length);
    this.lineMost = data.subarray(this.mostAt, this.mostAt + steps);
    this.waited = data.subarray(this.waitedAt, this.waitedAt + steps);
    this.starts = data.subarray(this.startsAt, this.startsAt + steps);
    this.personTime = data.subarray(this.personAt, this.personAt + people * this.personWidth);
    this.gearTime = data.subarray(this.gearAt, this.gearAt + cell.gear.count * this.gearWidth);
    this.lineArea = new Float64Array(steps);
    this.lineBins = new Float64Array(steps * layout.bins);
    this.lineNow = new Int32Array(steps);
    this.personNow = new Int32Array(people);
    this.itemNow = new Int32Array(cell.gear.itemCount);
    this.firstItem = cell.gear.firstItem;
    this.branchFrom = cell.steps.branchFrom;
    letHear(this);
  }

  get wages(): Wages {
    return this.clerk.wages;
  }

  override begin(): void {
    this.counts = new Counts();
    for (const { measure, heard } of HEARING) this.kept[measure] = { ...heard.keeps };
    this.data.fill(0);
    this.toBin(0);
    for (let step = 0; step < this.lineNow.length; step++) this.lineNow[step] = 0;
    for (let person = 0; person < this.personNow.length; person++)
      this.personNow[person] = this.personAt + person * this.personWidth + NOT_IN;
    for (let gear = 0; gear + 1 < this.firstItem.length; gear++) {
      for (let item = this.firstItem[gear]!; item < this.firstItem[gear + 1]!; item++)
        this.itemNow[item] = this.gearAt + gear * this.gearWidth + FREE;
    }
  }

  override arrive(): void {
    this.counts.arrived++;
  }

  override divert(time: number): void {
    const { counts } = this;
    counts.diverted++;
    // Before a rack of 0 it was outside for this instant.
    if (counts.outsideNow > 0 && this.diverts) this.setOutside(time, counts.outsideNow - 1);
  }

  override keepOutside(time: number, _unit: number, outside: number): void {
    this.setOutside(time, outside);
    if (outside > this.counts.outsideMost) this.counts.outsideMost = outside;
  }

  override enter(time: number, _unit: number, outside: number): void {
    this.setOutside(time, outside);
  }

  private setOutside(time: number, outside: number): void {
    const { counts } = this;
    counts.outsideArea += counts.outsideNow * (time - counts.outsideSince);
    counts.outsideSince = time;
    counts.outsideNow = outside;
  }

  override join(time: number, _unit: number, step: number, length: number): void {
    this.changeLine(time, step, 1);
    this.lineNow[step] = length;
    const most = this.mostAt + step;
    if (length > this.data[most]!) this.data[most] = length;
  }

  override start(
    time: number,
    _unit: number,
    step: number,
    _visit: number,
    _person: number,
    _second: number,
    _duration: number,
    waited: number,
    length: number,
  ): void {
    const { data } = this;
    const starts = this.startsAt + step;
    const waits = this.waitedAt + step;
    data[starts] = data[starts]! + 1;
    data[waits] = data[waits]! + waited;
    // A unit that comes straight in from outside was in no line.
    if (length === this.lineNow[step]) return;
    this.changeLine(time, step, -1);
    this.lineNow[step] = length;
  }

  /** So many more units in the line from now on. */
  private changeLine(time: number, step: number, more: number): void {
    if (time >= this.binEnds) this.turnTo(time);
    const { data } = this;
    const at = this.binAt + 2 * step;
    data[at] = data[at]! + more * (this.edge - time);
    data[at + 1] = data[at + 1]! + more;
  }

  private turnTo(time: number): void {
    while (time >= this.binEnds) this.toBin(this.bin + 1);
  }

  private toBin(bin: number): void {
    this.bin = bin;
    this.binAt = this.lineAt + 2 * this.lineNow.length * bin;
    // What comes after all bins has no end of its own: it is reckoned to 0, which falls out again at the
    // close.
    this.edge = bin < this.bins ? (bin + 1) * this.binWidth : 0;
    this.binEnds = bin < this.bins ? this.edge : Infinity;
  }

  override finish(
    _time: number,
    _unit: number,
    step: number,
    _person: number,
    outcome: number,
    branch: number,
  ): void {
    if (outcome === REWORK) this.countRework(step, branch);
  }

  override waitEnd(_time: number, _unit: number, step: number, outcome: number, branch: number): void {
    if (outcome === REWORK) this.countRework(step, branch);
  }

  private countRework(step: number, branch: number): void {
    const at = this.causeAt + this.branchFrom[step]! + branch;
    this.data[at] = this.data[at]! + 1;
    this.counts.reworked++;
  }

  override good(time: number, _unit: number, lead: number, flow: number, repeats: number): void {
    const { counts } = this;
    counts.good++;
    counts.lead += lead;
    counts.flow += flow;
    if (repeats === 0) counts.firstPass++;
    const at = this.hourAt + Math.min(this.hours - 1, Math.floor(time / HOUR));
    this.data[at] = this.data[at]! + 1;
  }

  override scrap(): void {
    this.counts.scrap++;
  }

  override rackSent(_time: number, fill: number, waited: number): void {
    const { counts } = this;
    counts.racks++;
    counts.rackFill += fill;
    counts.rackWait += waited;
  }

  override changePlaces(_time: number, units: number): void {
    this.counts.places += units;
  }

  override person(time: number, person: number, state: number, overtime: boolean): void {
    const { data, personNow, personWidth } = this;
    const before = personNow[person]!;
    const now = this.personAt + person * personWidth + (overtime ? state + personWidth / 2 : state);
    data[before] = data[before]! + time;
    data[now] = data[now]! - time;
    personNow[person] = now;
  }

  override gear(time: number, gear: number, item: number, state: number): void {
    const { data, itemNow } = this;
    const id = this.firstItem[gear]! + item;
    const before = itemNow[id]!;
    const now = this.gearAt + gear * this.gearWidth + state;
    data[before] = data[before]! + time;
    data[now] = data[now]! - time;
    itemNow[id] = now;
  }

  override targetMet(time: number): void {
    this.counts.targetAt = time;
  }

  override breakLapsed(_time: number, _person: number, milliseconds: number): void {
    this.counts.lapsed += milliseconds;
  }

  override end(time: number, inside: number, outside: number): void {
    const { counts, data, personNow, itemNow } = this;
    counts.closed = time;
    counts.inside = inside;
    counts.outside = outside;
    this.setOutside(time, counts.outsideNow);
    for (let person = 0; person < personNow.length; person++)
      data[personNow[person]!] = data[personNow[person]!]! + time;
    for (let item = 0; item < itemNow.length; item++) data[itemNow[item]!] = data[itemNow[item]!]! + time;
    this.closeLines(time);
  }

  /** Units still in line have waited too: the area is the sum of all waits. */
  private closeLines(time: number): void {
    const { data, lineNow, lineArea, lineBins, bins, binWidth } = this;
    const steps = lineNow.length;
    for (let step = 0; step < steps; step++)
      if (lineNow[step] !== 0) this.changeLine(time, step, -lineNow[step]!);
    for (let step = 0; step < steps; step++) {
      let length = 0;
      let area = 0;
      let at = this.lineAt + 2 * step;
      for (let bin = 0; bin < bins; bin++) {
        const within = data[at]! + length * binWidth;
        lineBins[step * bins + bin] = within;
        area += within;
        length += data[at + 1]!;
        at += 2 * steps;
      }
      lineArea[step] = area + data[at]! - length * (bins * binWidth);
    }
  }
}

/** The recorder that counts: everything a shift's report says, into typed arrays made once. */
import { FREE, NOT_IN, REWORK, personStates } from '../engine/recorder.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import { layoutOf } from './layout.ts';
import type { ReportLayout } from './report.ts';

const MINUTE = 60_000;
const HOUR = 3_600_000;

export class Tally extends SilentRecorder {
  readonly cell: CompiledCell;
  readonly layout: ReportLayout;
  arrived = 0;
  diverted = 0;
  goods = 0;
  scrapped = 0;
  reworked = 0;
  firstPass = 0;
  leads = 0;
  flows = 0;
  targetAt = NaN;
  closed = 0;
  inside = 0;
  outside = 0;
  racks = 0;
  fills = 0;
  rackWaits = 0;
  places = 0;
  lapsed = 0;
  outsideArea = 0;
  outsideMost = 0;
  readonly goodByHour: Float64Array;
  readonly byCause: Float64Array;
  readonly lineArea: Float64Array;
  readonly lineMost: Float64Array;
  /** [steps][bins] */
  readonly lineBins: Float64Array;
  readonly waited: Float64Array;
  readonly starts: Float64Array;
  /** [people][states], ms; the second half is after their own end. */
  readonly personTime: Float64Array;
  /** [gear][states], ms. */
  readonly gearTime: Float64Array;
  /** Kept by `writeRow`: shares of pay of each person's breaks and times away. */
  readonly offShares: { breaks: number; away: number }[] = [];
  private readonly binWidth: number;
  private readonly bins: number;
  private readonly lineSince: Float64Array;
  private readonly lineNow: Float64Array;
  private readonly personSince: Float64Array;
  private readonly personNow: Int32Array;
  private readonly personWidth: number;
  private readonly itemSince: Float64Array;
  private readonly itemNow: Int32Array;
  private readonly gearWidth: number;
  private readonly firstItem: Int32Array;
  private readonly branchFrom: Int32Array;
  private outsideSince = 0;
  private outsideNow = 0;

  constructor(cell: CompiledCell) {
    super();
    this.cell = cell;
    this.layout = layoutOf(cell);
    const { layout } = this;
    const steps = cell.steps.count;
    this.bins = layout.bins;
    this.binWidth = layout.binMinutes * MINUTE;
    this.goodByHour = new Float64Array(layout.hours);
    this.byCause = new Float64Array(layout.causes.length);
    this.lineArea = new Float64Array(steps);
    this.lineMost = new Float64Array(steps);
    this.lineBins = new Float64Array(steps * layout.bins);
    this.lineSince = new Float64Array(steps);
    this.lineNow = new Float64Array(steps);
    this.waited = new Float64Array(steps);
    this.starts = new Float64Array(steps);
    this.personWidth = 2 * personStates(cell.gear.count, steps);
    this.personTime = new Float64Array(cell.people.count * this.personWidth);
    this.personSince = new Float64Array(cell.people.count);
    this.personNow = new Int32Array(cell.people.count);
    this.gearWidth = layout.gearStates;
    this.gearTime = new Float64Array(cell.gear.count * this.gearWidth);
    this.itemSince = new Float64Array(cell.gear.itemCount);
    this.itemNow = new Int32Array(cell.gear.itemCount);
    this.firstItem = cell.gear.firstItem;
    this.branchFrom = cell.steps.branchFrom;
  }

  override begin(): void {
    this.arrived = this.diverted = this.goods = this.scrapped = this.reworked = this.firstPass = 0;
    this.leads = this.flows = this.closed = this.inside = this.outside = this.racks = this.fills = this.rackWaits = 0;
    this.places = this.lapsed = this.outsideArea = this.outsideMost = this.outsideSince = this.outsideNow = 0;
    this.targetAt = NaN;
    for (const array of [
      this.goodByHour, this.byCause, this.lineArea, this.lineMost, this.lineBins, this.lineSince, this.lineNow, this.waited, this.starts,
      this.personTime, this.personSince, this.gearTime, this.itemSince,
    ]) array.fill(0);
    this.personNow.fill(NOT_IN);
    this.itemNow.fill(FREE);
  }

  override arrive(): void {
    this.arrived++;
  }

  override divert(time: number): void {
    this.diverted++;
    // Before a rack of 0 it was outside for this instant.
    if (this.outsideNow > 0 && this.cell.divert) this.setOutside(time, this.outsideNow - 1);
  }

  override keepOutside(time: number, _unit: number, outside: number): void {
    this.setOutside(time, outside);
    if (outside > this.outsideMost) this.outsideMost = outside;
  }

  override enter(time: number, _unit: number, outside: number): void {
    this.setOutside(time, outside);
  }

  private setOutside(time: number, outside: number): void {
    this.outsideArea += this.outsideNow * (time - this.outsideSince);
    this.outsideSince = time;
    this.outsideNow = outside;
  }

  override join(time: number, _unit: number, step: number, length: number): void {
    this.setLine(time, step, length);
    if (length > this.lineMost[step]!) this.lineMost[step] = length;
  }

  override start(
    time: number, _unit: number, step: number, _visit: number, _person: number, _second: number, _duration: number, waited: number, length: number,
  ): void {
    this.starts[step] = this.starts[step]! + 1;
    this.waited[step] = this.waited[step]! + waited;
    if (length !== this.lineNow[step]) this.setLine(time, step, length);
  }

  private setLine(time: number, step: number, length: number): void {
    const since = this.lineSince[step]!;
    const before = this.lineNow[step]!;
    this.lineSince[step] = time;
    this.lineNow[step] = length;
    if (before === 0 || time === since) return;
    this.lineArea[step] = this.lineArea[step]! + before * (time - since);
    const { bins, binWidth } = this;
    let from = since;
    for (let bin = Math.floor(since / binWidth); bin < bins && from < time; bin++) {
      const to = Math.min(time, (bin + 1) * binWidth);
      const at = step * bins + bin;
      this.lineBins[at] = this.lineBins[at]! + before * (to - from);
      from = to;
    }
  }

  override finish(_time: number, _unit: number, step: number, _person: number, outcome: number, branch: number): void {
    if (outcome === REWORK) this.countRework(step, branch);
  }

  override waitEnd(_time: number, _unit: number, step: number, outcome: number, branch: number): void {
    if (outcome === REWORK) this.countRework(step, branch);
  }

  private countRework(step: number, branch: number): void {
    const at = this.branchFrom[step]! + branch;
    this.byCause[at] = this.byCause[at]! + 1;
    this.reworked++;
  }

  override good(time: number, _unit: number, lead: number, flow: number, repeats: number): void {
    this.goods++;
    this.leads += lead;
    this.flows += flow;
    if (repeats === 0) this.firstPass++;
    const hour = Math.min(this.goodByHour.length - 1, Math.floor(time / HOUR));
    this.goodByHour[hour] = this.goodByHour[hour]! + 1;
  }

  override scrap(): void {
    this.scrapped++;
  }

  override rackSent(_time: number, fill: number, waited: number): void {
    this.racks++;
    this.fills += fill;
    this.rackWaits += waited;
  }

  override changePlaces(_time: number, units: number): void {
    this.places += units;
  }

  override person(time: number, person: number, state: number, overtime: boolean): void {
    const at = person * this.personWidth + this.personNow[person]!;
    this.personTime[at] = this.personTime[at]! + time - this.personSince[person]!;
    this.personSince[person] = time;
    this.personNow[person] = overtime ? state + this.personWidth / 2 : state;
  }

  override gear(time: number, gear: number, item: number, state: number): void {
    const id = this.firstItem[gear]! + item;
    const at = gear * this.gearWidth + this.itemNow[id]!;
    this.gearTime[at] = this.gearTime[at]! + time - this.itemSince[id]!;
    this.itemSince[id] = time;
    this.itemNow[id] = state;
  }

  override targetMet(time: number): void {
    this.targetAt = time;
  }

  override breakLapsed(_time: number, _person: number, milliseconds: number): void {
    this.lapsed += milliseconds;
  }

  override end(time: number, inside: number, outside: number): void {
    this.closed = time;
    this.inside = inside;
    this.outside = outside;
    this.setOutside(time, this.outsideNow);
    for (let step = 0; step < this.lineNow.length; step++) {
      // Units still in line have waited too: the area is the sum of all waits.
      this.setLine(time, step, this.lineNow[step]!);
    }
    for (let person = 0; person < this.personNow.length; person++) {
      const state = this.personNow[person]!;
      const half = this.personWidth / 2;
      this.person(time, person, state >= half ? state - half : state, state >= half);
    }
    for (let gear = 0; gear + 1 < this.firstItem.length; gear++) {
      for (let item = this.firstItem[gear]!; item < this.firstItem[gear + 1]!; item++) this.gear(time, gear, item - this.firstItem[gear]!, this.itemNow[item]!);
    }
  }
}

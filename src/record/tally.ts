/** What was counted of a shift (src/core/recorder.ts), as measures read it, and what they heard. */
import * as at from '../core/stretches.ts';
import type { Stretches } from '../core/stretches.ts';
import { stretchesOf } from '../engine/run.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Accounts } from './accounts.ts';
import { Counts } from './counts.ts';
import { HEARING, letHear } from './hearing.ts';
import { layoutWith } from './layout.ts';
import type { Kept } from './measure.ts';
import { MEASURES, type ListName } from './measures.ts';
import type { ReportLayout } from './report.ts';
import { WageClerk, type Wages } from './wages.ts';

const NOTHING: Float64Array = new Float64Array(0);

export class Tally extends SilentRecorder implements Accounts {
  readonly shift: ResolvedShift;
  readonly layout: ReportLayout;
  readonly counts = new Counts();
  /** What each measure keeps, in their order: nothing, for most of them. */
  readonly kept: Kept[] = MEASURES.map(() => ({}));
  /** Reckons the wages before a row is written. */
  readonly clerk: WageClerk;
  goodByHour = NOTHING;
  byCause = NOTHING;
  lineArea = NOTHING;
  lineMost = NOTHING;
  lineBins = NOTHING;
  waited = NOTHING;
  starts = NOTHING;
  personTime = NOTHING;
  gearTime = NOTHING;
  finishing = NOTHING;
  private readonly stretches: Stretches;
  private data = NOTHING;

  /** @param lists the rows written of it have; null: all. */
  constructor(cell: CompiledCell, lists: readonly ListName[] | null = null) {
    super();
    this.shift = cell.shift;
    this.layout = layoutWith(cell.shift, lists);
    this.clerk = new WageClerk(cell.shift);
    this.stretches = stretchesOf(cell);
    letHear(this);
  }

  get wages(): Wages {
    return this.clerk.wages;
  }

  override begin(): void {
    for (const { measure, heard } of HEARING) this.kept[measure] = { ...heard.keeps };
  }

  /** Reads the accounts of a shift that is over. They are read in place: until the next run. */
  read(data: Float64Array): void {
    if (data !== this.data) this.look(data);
    const { counts } = this;
    counts.arrived = data[at.ARRIVED]!;
    counts.diverted = data[at.DIVERTED]!;
    counts.good = data[at.GOODS]!;
    counts.scrap = data[at.SCRAPS]!;
    counts.again = data[at.AGAIN]!;
    counts.dated = data[at.DATED]!;
    counts.late = data[at.LATE]!;
    counts.reworked = data[at.REWORKED]!;
    counts.firstPass = data[at.FIRST_PASS]!;
    counts.lead = data[at.LEAD]!;
    counts.flow = data[at.FLOW]!;
    counts.newGood = data[at.NEW_GOODS]!;
    counts.newLead = data[at.NEW_LEAD]!;
    counts.targetAt = data[at.TARGET_AT]!;
    counts.closed = data[at.CLOSED]!;
    counts.inside = data[at.INSIDE]!;
    counts.outside = data[at.STILL_OUTSIDE]!;
    counts.racks = data[at.RACKS]!;
    counts.rackFill = data[at.RACK_FILL]!;
    counts.rackWait = data[at.RACK_WAIT]!;
    counts.places = data[at.PLACES]!;
    counts.lapsed = data[at.LAPSED]!;
    counts.outsideArea = data[at.OUTSIDE_AREA]!;
    counts.outsideMost = data[at.OUTSIDE_MOST]!;
  }

  private look(data: Float64Array): void {
    const { stretches } = this;
    this.data = data;
    this.goodByHour = data.subarray(stretches.goodByHour, stretches.byCause);
    this.byCause = data.subarray(stretches.byCause, stretches.lineArea);
    this.lineArea = data.subarray(stretches.lineArea, stretches.lineMost);
    this.lineMost = data.subarray(stretches.lineMost, stretches.waited);
    this.waited = data.subarray(stretches.waited, stretches.starts);
    this.starts = data.subarray(stretches.starts, stretches.lineBins);
    this.lineBins = data.subarray(stretches.lineBins, stretches.personTime);
    this.personTime = data.subarray(stretches.personTime, stretches.gearTime);
    this.gearTime = data.subarray(stretches.gearTime, stretches.finishing);
    this.finishing = data.subarray(stretches.finishing, stretches.lineChanges);
  }
}

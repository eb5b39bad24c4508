/** What a shift's measures are read off once its report has closed. */
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Counts } from './counts.ts';
import type { ReportLayout } from './report.ts';
import type { Wages } from './wages.ts';

export interface Accounts {
  readonly shift: ResolvedShift;
  readonly layout: ReportLayout;
  readonly counts: Readonly<Counts>;
  /** [hours] good units by hour from the start; the last one takes all that is later. */
  readonly goodByHour: Float64Array;
  /** [causes] units sent back. */
  readonly byCause: Float64Array;
  /** [steps] unit-ms in the line, most units in it, ms waited in it, starts. */
  readonly lineArea: Float64Array;
  readonly lineMost: Float64Array;
  readonly waited: Float64Array;
  readonly starts: Float64Array;
  /** [steps][bins] unit-ms in the line. */
  readonly lineBins: Float64Array;
  /** [people][2 x personStates], ms; the second half of a person's states is after their own end. */
  readonly personTime: Float64Array;
  /** [gear][gearStates], ms, all items of a kind together. */
  readonly gearTime: Float64Array;
  /** [people] ms after their own end with the piece that was in their hands then. */
  readonly finishing: Float64Array;
  /** What the shift's people are paid. */
  readonly wages: Readonly<Wages>;
}

/**
 * The flat record of one shift of one replication: a row of numbers whose places are given by a layout. All
 * minutes are minutes (not ms); what does not exist in a shift (the lead time where nothing was good) is NaN.
 */
export interface ReportLayout {
  /** Numbers in a row. */
  size: number;
  steps: string[];
  gear: string[];
  people: string[];
  causes: { step: string; to: string; cause: string }[];
  /** Width of the bins of `lineAt`, minutes. */
  binMinutes: number;
  bins: number;
  hours: number;
  personStates: number;
  gearStates: number;
  /** Where each vector begins. A matrix is row by row. */
  at: {
    /** Scalars, see SCALARS. */
    scalars: number;
    /** [hours] good units by hour from the start; the last one takes all that is later. */
    goodByHour: number;
    /** [causes] */
    rework: number;
    /** [steps] time average and most in the line. */
    lineMean: number;
    lineMost: number;
    /** [steps][bins] average length of the line in each bin of the scheduled shift. */
    lineAt: number;
    /** [steps] minutes waited in the line by all units together (this shift), starts. */
    waited: number;
    starts: number;
    /** [steps] minutes worked at the step, all people. */
    worked: number;
    /** [people][personStates] minutes before their own end; and after it. */
    personMinutes: number;
    personOvertime: number;
    /** [people] labour cost. */
    personCost: number;
    /** [gear][gearStates] minutes, all items of the kind together. */
    gearMinutes: number;
  };
}

/** The scalars, in their order in the row. */
export const SCALARS = [
  'arrived',
  'diverted',
  'outside',
  'inside',
  'good',
  'scrap',
  'reworked',
  'firstPassYield',
  'leadMean',
  'flowMean',
  /** Overtime minutes of all people, labour cost, labour cost per good unit. */
  'overtime',
  'cost',
  'costPerGood',
  /** 1 or 0 (NaN without a target), and when, minutes. */
  'targetMet',
  'targetAt',
  /** Minutes the report covers. */
  'length',
  'racksSent',
  'rackFill',
  'rackWait',
  'placesChanged',
  'breakLapsed',
  /** Time average and most outside. */
  'outsideMean',
  'outsideMost',
] as const;
export type Scalar = (typeof SCALARS)[number];
export const scalarAt = (layout: ReportLayout, name: Scalar): number =>
  layout.at.scalars + SCALARS.indexOf(name);

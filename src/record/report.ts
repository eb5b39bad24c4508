/**
 * The flat record of one shift of one replication: a row of numbers whose places are given by a layout. All
 * minutes are minutes (not ms); what does not exist in a shift (the lead time where nothing was good) is NaN.
 * What each number means says the table of measures.
 */
import type { Axis } from './measure.ts';
import { SCALARS, type ListName, type Scalar } from './measures.ts';

export { SCALARS, type Scalar };

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
  /** Numbers along each axis of a list measure. */
  sizes: Record<Axis, number>;
  /** Where the scalars begin, in the order of SCALARS, and each list measure. */
  at: Record<'scalars' | ListName, number>;
}

export const scalarAt = (layout: ReportLayout, name: Scalar): number =>
  layout.at.scalars + SCALARS.indexOf(name);

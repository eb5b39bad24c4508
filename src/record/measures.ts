/** All measures of a shift, in the order of its row. One more is one file in measures/ and one line here. */
import type { ListMeasure, Measure } from './measure.ts';
import {
  lineAt,
  lineMean,
  lineMost,
  outsideMean,
  outsideMost,
  starts,
  waited,
  worked,
} from './measures/lines.ts';
import { finishing, personFinishing, plannedOvertime } from './measures/finishing.ts';
import { gearMinutes, personMinutes, personOvertime } from './measures/minutes.ts';
import { placesChanged, rackFill, racksSent, rackWait } from './measures/racks.ts';
import {
  breakLapsed,
  flowMean,
  leadMean,
  length,
  newGood,
  newLead,
  targetAt,
  targetMet,
} from './measures/time.ts';
import {
  arrived,
  dated,
  diverted,
  firstPassYield,
  good,
  goodByHour,
  inside,
  late,
  outside,
  returned,
  rework,
  reworked,
  scrap,
} from './measures/units.ts';
import { anyOvertime, cost, costPerGood, overtime, personCost } from './measures/wages.ts';

/** One number a shift each. */
export const MEASURES = [
  arrived,
  diverted,
  outside,
  inside,
  good,
  scrap,
  reworked,
  firstPassYield,
  leadMean,
  flowMean,
  overtime,
  finishing,
  plannedOvertime,
  anyOvertime,
  cost,
  costPerGood,
  targetMet,
  targetAt,
  length,
  racksSent,
  rackFill,
  rackWait,
  placesChanged,
  breakLapsed,
  outsideMean,
  outsideMost,
  newGood,
  newLead,
  returned,
  dated,
  late,
] as const satisfies readonly Measure[];

/** Many numbers a shift each, after the others in its row. */
export const LIST_MEASURES = [
  goodByHour,
  rework,
  lineMean,
  lineMost,
  lineAt,
  waited,
  starts,
  worked,
  personMinutes,
  personOvertime,
  personFinishing,
  personCost,
  gearMinutes,
] as const satisfies readonly ListMeasure[];

export type Scalar = (typeof MEASURES)[number]['name'];
export type ListName = (typeof LIST_MEASURES)[number]['name'];

/** The names of the single numbers, in their order in the row. */
export const SCALARS: readonly Scalar[] = MEASURES.map(({ name }) => name);

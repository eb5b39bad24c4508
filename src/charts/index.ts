/**
 * The pictures: plain data and a width in, an SVG as text out; and beside each the same figures as a table.
 */
export { comparisonPicture, comparisonTable, twentyShifts, type Comparison } from './comparison.ts';
export { crewDayPicture, crewDayTable, type CrewDay, type CrewLane } from './crew-day.ts';
export { dayLinesPicture, dayLinesTable, type DayLine, type DayLines } from './day-lines.ts';
export { fanPicture, fanTable, type Fan } from './fan.ts';
export { histogramPicture, histogramTable, type Histogram } from './histogram.ts';
export { lanesPicture, lanesTable, type Block, type Lanes } from './lanes.ts';
export { limitsPicture, limitsTable, type Limits } from './limits.ts';
export {
  minutesPicture,
  minutesTable,
  type Minutes,
  type MinutesPart,
  type MinutesStrip,
} from './minutes.ts';
export { sideBySidePicture } from './side-by-side.ts';
export type { Choice, SideBySide } from './side-by-side-parts.ts';
export { staircasePicture, staircaseTable, type Staircase, type Tread } from './staircase.ts';
export { weeksPicture, weeksTable, type Weeks } from './weeks.ts';
export type { Hours } from './axis.ts';
export type { Foot, Size, Table } from './frame.ts';
export { MEANING_WORDS, MEANINGS, type Meaning } from './palette.ts';

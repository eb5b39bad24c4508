/**
 * One line of the record of a shift, in the words of the shop, whether it comes out of a run or was written
 * down on the floor. Types and the list of events only.
 */

/**
 * Every event and what it says. `second` is the second person of two; `item` the number of the piece of gear,
 * from 1.
 */
export const EVENTS = {
  'shift begins': 'The record begins.',
  'shift ends': 'The record ends; detail: how many pieces are left in the cell.',
  arrives: 'A piece comes to the cell.',
  'waits outside': 'The first rack is full and the piece waits outside.',
  'comes in': 'A piece that waited outside gets its place.',
  'sent elsewhere': 'The first rack is full and the piece goes to another cell.',
  'joins line': 'A piece is in the line of a step.',
  begins: 'A person begins a piece at a step.',
  'put down': 'A piece is put down in the middle of a step.',
  resumed: 'A piece put down is taken up again.',
  ends: 'The step is done on this piece, whatever comes of it.',
  rework: 'The piece just ended goes back; detail: the step it goes to, and the cause after a colon.',
  scrap: 'The piece just ended is scrapped.',
  'cure begins': 'A wait (cure, rest) begins.',
  'cure ends': 'A wait is over.',
  blocked: 'The piece cannot move on: no room at the next step.',
  'moves on': 'A blocked piece gets its place.',
  'stands aside': 'A piece on hold stands aside before a step.',
  released: 'The hold is over.',
  good: 'The piece is good and on the out-rack.',
  'out again':
    'A piece that came back from a later department is on the out-rack again; it was counted before.',
  'rack sent': 'A full out-rack leaves.',
  'places changed': 'Blocked pieces that waited for each other in a circle change places; detail: how many.',
  comes: 'A person comes.',
  goes: 'A person goes.',
  break: 'A person’s break begins.',
  away: 'A person leaves for another line.',
  back: 'A person is back from a break or another line.',
  'tidies up': 'A person begins to tidy up.',
  idle: 'A person has nothing to do; detail: why.',
  'break lost': 'Break time still owed when a person goes; detail: minutes.',
  'gear taken': 'A piece of gear is taken.',
  'gear free': 'A piece of gear is free again.',
  'gear out': 'A piece of gear is out of order.',
  'gear mended': 'A piece of gear is in order again.',
  'target met': 'The number due is reached.',
} as const;

export type EventName = keyof typeof EVENTS;
export const EVENT_NAMES = Object.keys(EVENTS) as EventName[];

/** Texts are ids of the scenario (or free, written by hand); "" is none. */
export interface EventRow {
  /**
   * Whole milliseconds from the start of the shift (the first one of a record of several); under 0 before it.
   */
  time: number;
  event: EventName;
  /** The piece: its name, or its number in the run. */
  unit: string;
  product: string;
  step: string;
  person: string;
  second: string;
  gear: string;
  /** Which piece of the gear, from 1; 0 is none. */
  item: number;
  detail: string;
}

/** A row with nothing but a time and an event. */
export const bareEvent = (time: number, event: EventName): EventRow => ({
  time,
  event,
  unit: '',
  product: '',
  step: '',
  person: '',
  second: '',
  gear: '',
  item: 0,
  detail: '',
});

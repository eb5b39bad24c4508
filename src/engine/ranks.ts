/**
 * What happens first at one instant: policy, so it stands in one table. Events of one time run in the order
 * of these ranks; moves of blocked units and starts follow when none is left. Within a rank: what was planned
 * first; people in crew order.
 */
export const RANK_ENDS = 0;
export const RANK_RETURNS = 1;
export const RANK_ARRIVALS = 2;
export const RANK_PEOPLE = 3;

/** Room for planned events within a rank: 2^44 of them, exactly representable with the rank in a double. */
const RANK_ROOM = 17_592_186_044_416;
/** Changes of one person at one instant, in this order. */
const PERSON_ROOM = 16;

export const orderOf = (rank: number, sequence: number): number => rank * RANK_ROOM + sequence;
export const personOrder = (person: number, change: number): number =>
  RANK_PEOPLE * RANK_ROOM + person * PERSON_ROOM + change;

/** Kinds of events. */
export const END_HANDS = 0;
export const END_WAIT = 1;
export const RACK_BACK = 2;
export const GEAR_FAILS = 3;
export const GEAR_BACK = 4;
export const RELEASE = 5;
export const ARRIVAL = 6;
/** People; in the order in which one person's changes of one instant are made. */
export const COVER = 8;
export const OFF_END = 9;
export const COME = 10;
/** Their own end comes before a break that would begin with it. */
export const GO = 11;
export const OFF_START = 12;
export const LEAVE = 13;
/** The last moment of a person's overtime. */
export const CAP = 14;
/** An instant to be looked at: the end of the scheduled shift. */
export const NOTHING = 15;

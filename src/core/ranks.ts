/**
 * What happens first at one instant: policy, so it stands in one table. Bound events of one time are carried
 * out in the order of these ranks; moves of blocked units and starts follow when none is left. Within a rank:
 * what was planned first; people in crew order.
 */
export const RANK_ENDS: i32 = 0;
export const RANK_RETURNS: i32 = 1;
export const RANK_ARRIVALS: i32 = 2;
export const RANK_PEOPLE: i32 = 3;

/** Room for planned events within a rank: 2^44 of them, exactly representable with the rank in a double. */
const RANK_ROOM: number = 17592186044416;
/** Changes of one person at one instant, in this order. */
const PERSON_ROOM: i32 = 16;

export function orderOf(rank: i32, sequence: number): number {
  return rank * RANK_ROOM + sequence;
}

export function personOrder(person: i32, change: i32): number {
  return RANK_PEOPLE * RANK_ROOM + (person * PERSON_ROOM + change);
}

/** Kinds of events. */
export const END_HANDS: i32 = 0;
export const END_WAIT: i32 = 1;
export const RACK_BACK: i32 = 2;
export const GEAR_FAILS: i32 = 3;
export const GEAR_BACK: i32 = 4;
export const RELEASE: i32 = 5;
export const ARRIVAL: i32 = 6;
/** A planned time out of order, whose items are chosen at that instant. */
export const OUTAGE: i32 = 7;
/** People; in the order in which one person's changes of one instant are made. */
export const COVER: i32 = 8;
export const OFF_END: i32 = 9;
export const COME: i32 = 10;
/** Their own end comes before a break that would begin with it. */
export const GO: i32 = 11;
export const OFF_START: i32 = 12;
export const LEAVE: i32 = 13;
/** The last moment of a person's overtime. */
export const CAP: i32 = 14;
/** An instant to be looked at: the end of the scheduled shift. */
export const NOTHING: i32 = 15;

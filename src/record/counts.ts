/** What is counted of a shift, a field a count. Times are milliseconds. */
export class Counts {
  arrived = 0;
  diverted = 0;
  good = 0;
  scrap = 0;
  /** Units out again that were counted before. */
  again = 0;
  /** Good units with a due time, and those of them that were out after it. */
  dated = 0;
  late = 0;
  /** Units sent back. */
  reworked = 0;
  /** Good units without a repeat visit. */
  firstPass = 0;
  /** Sums over the good units: from arrival, and from the first start. */
  lead = 0;
  flow = 0;
  /** Good units that came in during the shift, and their sum from arrival. */
  newGood = 0;
  newLead = 0;
  /** When the target was met, NaN where it was not. */
  targetAt = NaN;
  /** When the report closed. */
  closed = 0;
  /** In the cell, and waiting outside, when the report closed. */
  inside = 0;
  outside = 0;
  racks = 0;
  /** Sums over the racks sent: time they took to fill, time units waited on them. */
  rackFill = 0;
  rackWait = 0;
  /** Units that changed places out of a deadlock. */
  places = 0;
  /** Break time owed that lapsed. */
  lapsed = 0;
  /** Unit-ms outside, and most units outside at once. */
  outsideArea = 0;
  outsideMost = 0;
}

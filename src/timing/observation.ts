/** One time taken at the bench, as it was read, nothing corrected. */
export interface Observation {
  /** Step id of the scenario. */
  step: string;
  /**
   * Product id of the scenario, or as written where the scenario knows no such product; null where not told.
   */
  product: string | null;
  person: string | null;
  /** Minutes it took, more than 0. */
  minutes: number;
  /** Pace against normal (1 is normal, 1.1 quicker); null where not rated. */
  rating: number | null;
  /** A second or later visit of the same piece. */
  repeat: boolean;
  /** "2024-03-05", or null. */
  date: string | null;
  /** Clock minutes (after midnight) at which it was begun; left out where not told. */
  at?: number;
  /** Row of the file, from 1; of a record of events, the place of the event. */
  row: number;
}

export interface UnreadRow {
  row: number;
  why: string;
  text: string;
}

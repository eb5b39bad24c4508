/**
 * What the library takes and gives. These types are its contract, of their own and not those of the program
 * inside: within a major version nothing is taken away or given another meaning; fields are added.
 * Units: good units a shift, minutes, the file's currency; shares and chances 0 to 1.
 */

/** A scenario that was checked and can be run: its file as JSON. Get one from `readScenario`. */
export interface Scenario {
  readonly name: string;
}

/** What is wrong with a scenario, or worth pointing out. */
export interface Fault {
  /** The place in words, such as `steps.glue.takes[0].until`; empty is the whole file. */
  path: string;
  found: string;
  allowed: string;
  remedy: string;
  /** One sentence made of the others. */
  text: string;
}

export type Reading =
  { kind: 'fine'; scenario: Scenario; remarks: Fault[] } | { kind: 'wrong'; faults: Fault[] };

/** An average and how well it is known. */
export interface Range {
  estimate: number;
  low: number;
  high: number;
  /** Half the width for luck alone, and what is not known of the inputs adds: half^2 = luck^2 + inputs^2. */
  luck: number;
  inputs: number;
}

export interface StudyAsked {
  /** Options of the file to hold against it as it is, on the same luck. Default: none. */
  options?: readonly string[];
  /** Exactly so many shifts of each (2 to 10,000,000) instead of a precision. */
  count?: number;
  /** Until the difference (or mean) is known to so many good units. Default: the file's, else 0.25. */
  precision?: number;
  /** Default: the file's. The same text gives the same shifts. */
  seed?: string;
  /** Told after every block of shifts. */
  onProgress?: (done: number, needed: number) => void;
  /** Aborted, the study ends with what it has, marked partial. */
  signal?: AbortSignal;
}

export interface CaseAnswer {
  /** "base", or the option. */
  id: string;
  name: string;
  /** A shift. */
  good: Range;
  overtimeMinutes: Range;
  cost: Range;
  /** What nine shifts in ten, half and one in ten make. Of several in a row: all of them together. */
  nineInTen: number;
  half: number;
  oneInTen: number;
  /** Null without a target. */
  target: { units: number; chance: Range } | null;
  /** Every measure by its name; what they mean tells `measures()`. */
  measures: Record<string, Range>;
}

/** What an option brings over the file as it is, a shift. */
export interface Gain {
  id: string;
  good: Range;
  overtimeMinutes: Range;
  cost: Range;
}

export interface Study {
  /** Shifts of each case. */
  count: number;
  /** Stopped before it was done. */
  partial: boolean;
  /** The most shifts were run before the precision was reached. */
  capped: boolean;
  /** That each range holds the true value. */
  confidence: number;
  seed: string;
  cases: CaseAnswer[];
  gains: Gain[];
}

export interface Limit {
  id: string;
  /** Such as "one more clamp set". */
  name: string;
  good: Range;
  /** What it costs to buy; null where the file does not say. */
  price: number | null;
}

export interface Limits {
  count: number;
  partial: boolean;
  /** The one that gains most first. */
  limits: Limit[];
  /** What holds the cell back, in words; empty where nothing that was tried surely gains what matters. */
  holdsBack: string[];
}

/** An event of one run; texts are ids of the file, empty where there is none. */
export interface RecordedEvent {
  /** Whole milliseconds from the start of the first shift. */
  time: number;
  event: string;
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

export interface MeasureMeaning {
  name: string;
  unit: string;
  description: string;
}

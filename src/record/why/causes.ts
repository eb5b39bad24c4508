/**
 * Why something did not start: a closed list. Steps, people, gear and pieces are named by their numbers in
 * the shift (pieces from 0, -1 for none), times are minutes from its start.
 *
 * A chain of causes goes from what is missing to what kept that from being there, in the order in which a
 * start is decided: a piece, its gear, somebody free, the rules of time.
 */
export type Cause =
  /** No piece (or, for gear that would hold one more, only `there` of them) stood before the step. */
  | { kind: 'no piece'; step: number; there: number }
  /** Overtime is for what has been begun. */
  | { kind: 'nothing new'; step: number }
  /** The step is for pieces sent back, and none was. */
  | { kind: 'none sent back'; step: number }
  /** None of the gear it needs was free. */
  | { kind: 'no gear'; step: number; gear: number }
  /** Its bench was held by a piece that could not move on. */
  | { kind: 'nowhere to put it'; step: number; unit: number }
  | { kind: 'rack full'; step: number }
  | { kind: 'no out-rack' }
  /** A rule of time of the step; `until` Infinity: for the rest of the shift. */
  | { kind: 'shut'; step: number; until: number }
  | OfPerson
  | { kind: 'nobody covers'; step: number }
  /** Where the piece that would be next was. */
  | { kind: 'in hand'; step: number; unit: number; person: number; until: number }
  | { kind: 'curing'; step: number; unit: number; until: number }
  | { kind: 'put down'; step: number; unit: number; until: number }
  | { kind: 'on hold'; step: number; unit: number; until: number }
  | { kind: 'out of order'; gear: number; until: number }
  | { kind: 'not come yet'; until: number }
  | { kind: 'none to come' }
  /** No step needs this gear. */
  | { kind: 'not needed'; gear: number }
  /** Never told: a run that gives it has a fault. */
  | { kind: 'unknown' };

/** Why somebody who covers the step did not begin it. */
export type OfPerson = { step: number; person: number } & (
  | { kind: 'would not fit'; before: 'break' | 'away' | 'end' | 'cap'; until: number; needed: number }
  /** Tidied up, or was past the end with no overtime to be had. */
  | { kind: 'day over' }
  | { kind: 'no second' }
  | { kind: 'busy'; at: number; unit: number; until: number }
  /** Stood by a piece that takes two and was put down. */
  | { kind: 'other of two' }
  | { kind: 'off'; why: 'break' | 'away'; until: number }
  | { kind: 'not in'; until: number }
  | { kind: 'gone' }
  | { kind: 'no post' }
);

export type CauseKind = Cause['kind'];

/**
 * What makes two causes one reason when minutes are added up: all but which piece it was, in whose hands, and
 * until when.
 */
const SAME = ['kind', 'step', 'gear', 'person', 'at', 'before', 'why'] as const;
/** Those that a cause has. */
type Parts = Partial<Record<(typeof SAME)[number], string | number>>;

export function isSameReason(a: Cause, b: Cause): boolean {
  if (a.kind !== b.kind) return false;
  const [one, other]: [Parts, Parts] = [a, b];
  return SAME.every((part) => one[part] === other[part] || isOfPiece(a, part));
}

/** The same for all causes that are one reason. */
export function reasonKey(cause: Cause): string {
  const parts: Parts = cause;
  return SAME.map((part) => (isOfPiece(cause, part) ? '' : (parts[part] ?? ''))).join(' ');
}

const isOfPiece = ({ kind }: Cause, part: string): boolean => kind === 'in hand' && part === 'person';

/**
 * What one more of something does, read off two intervals: what this one gains over now, and what the one
 * after it gains over this one. Both must be stated together (see `differenceInterval`'s `several`).
 */
export interface Range {
  low: number;
  high: number;
}

export type Verdict =
  /**
   * It was what held the cell back, and no longer is: this one surely gains what matters, the next surely
   * less.
   */
  | { kind: 'removes' }
  /** Both surely gain what matters: it still holds the cell back. */
  | { kind: 'eases' }
  /** This one surely gains less than what matters. */
  | { kind: 'was not the constraint' }
  /** The runs do not say; `open` names the gain that is still on both sides of what matters. */
  | { kind: 'cannot tell yet'; open: 'this' | 'next' };

export type Gain = 'matters' | 'does not' | 'open';

/** Whether a gain surely reaches the difference that matters, surely falls short of it, or may do either. */
export function gainOf(range: Range, matters: number): Gain {
  if (range.low >= matters) return 'matters';
  return range.high < matters ? 'does not' : 'open';
}

/**
 * @param gain of this one over now. @param next of the one after over this one.
 * @param matters the difference that matters to the reader, over 0, in the gains' unit.
 */
export function verdictOf(gain: Range, next: Range, matters: number): Verdict {
  if (!(matters > 0)) throw new RangeError(`the difference that matters must be over 0, not ${matters}`);
  const first = gainOf(gain, matters);
  if (first === 'does not') return { kind: 'was not the constraint' };
  if (first === 'open') return { kind: 'cannot tell yet', open: 'this' };
  const second = gainOf(next, matters);
  if (second === 'open') return { kind: 'cannot tell yet', open: 'next' };
  return { kind: second === 'matters' ? 'eases' : 'removes' };
}

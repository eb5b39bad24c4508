/** Who might have begun something, and what each of them was at instead. */
import {
  ALONE,
  AWAY,
  BEFORE_AWAY,
  BEFORE_BREAK,
  BEFORE_CAP,
  BEFORE_END,
  DAY_OVER,
  GONE,
  NO_COVER,
  NO_GEAR,
  NOT_IN,
  ON_BREAK,
  SHUT,
  TIDYING,
  WAITING_PARTNER,
} from '../../engine/states.ts';
import type { Cause } from './causes.ts';
import type { Moment } from './moment.ts';
import type { Refusal } from './timeline.ts';

const NOTHING: readonly number[] = [];

/** The steps a person covers now, in their order. */
export const coverOf = ({ timeline, at }: Moment, person: number): readonly number[] =>
  timeline.covers[person]!.findLast(({ from }) => from <= at)?.steps ?? NOTHING;

/**
 * Why the people who cover a step did not begin what was there for it, who was nearest to it first; one cause
 * where nobody covers it. `besides`: a person who is left out.
 */
export function whoMight(moment: Moment, step: number, besides = -1): readonly Cause[] {
  const key = `who ${step} ${besides}`;
  const known = moment.explained.get(key);
  if (known !== undefined) return known;
  const covering: number[] = [];
  for (let person = 0; person < moment.timeline.people.length; person++)
    if (person !== besides && coverOf(moment, person).includes(step)) covering.push(person);
  const found: Cause[] = covering
    .map((person) => whyNot(moment, person, step))
    .sort((a, b) => nearness(a) - nearness(b) || untilOf(a) - untilOf(b));
  if (found.length === 0) found.push({ kind: 'nobody covers', step });
  moment.explained.set(key, found);
  return found;
}

/** Why this person did not begin what was there for the step. */
export function whyNot(moment: Moment, person: number, step: number): Cause {
  const doing = moment.person(person);
  const { cell } = moment.timeline;
  if (doing === null) return { kind: 'unknown' };
  const { state, to: until, unit } = doing;
  const of = { step, person };
  switch (state) {
    case NOT_IN:
      return { kind: 'not in', ...of, until };
    case GONE:
      return { kind: 'gone', ...of };
    case ON_BREAK:
      return { kind: 'off', why: 'break', ...of, until };
    case AWAY:
      return { kind: 'off', why: 'away', ...of, until };
    case TIDYING:
      return { kind: 'day over', ...of };
    case WAITING_PARTNER:
      return { kind: 'other of two', ...of };
    case NO_COVER:
      return { kind: 'no post', ...of };
  }
  const at = state - NO_GEAR - cell.gear.count;
  if (at >= 0) return { kind: 'busy', ...of, at, unit, until };
  const refusal = moment.refusal(person, step);
  return refusal === null ? { kind: 'unknown' } : refused(refusal, person, step);
}

function refused({ why, until, needed }: Refusal, person: number, step: number): Cause {
  const of = { step, person };
  switch (why) {
    case SHUT:
      return { kind: 'shut', step, until };
    case DAY_OVER:
      return { kind: 'day over', ...of };
    case BEFORE_CAP:
      return { kind: 'would not fit', before: 'cap', ...of, until, needed };
    case BEFORE_BREAK:
      return { kind: 'would not fit', before: 'break', ...of, until, needed };
    case BEFORE_AWAY:
      return { kind: 'would not fit', before: 'away', ...of, until, needed };
    case BEFORE_END:
      return { kind: 'would not fit', before: 'end', ...of, until, needed };
    case ALONE:
      return { kind: 'no second', ...of };
    default:
      return { kind: 'unknown' };
  }
}

/** Who lacked least comes first: free, then at work, then off for a while, then not there. */
const NEAREST: readonly Cause['kind'][] = [
  'unknown',
  'no second',
  'shut',
  'would not fit',
  'busy',
  'other of two',
  'off',
  'day over',
  'no post',
  'not in',
  'gone',
];
const nearness = (cause: Cause): number => NEAREST.indexOf(cause.kind);
const untilOf = (cause: Cause): number => ('until' in cause ? cause.until : Infinity);

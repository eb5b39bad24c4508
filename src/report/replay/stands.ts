/** The stretches in which gear or a person stood, the dearest first, and the words for each. */
import type { ShiftReasons, Stood } from '../../record/why/reasons.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { FREE } from '../../engine/states.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import { causeWords } from '../../words/causes.ts';
import { gearStateWords } from '../../words/states.ts';
import { capitalized, counted, inSentence } from '../../words/words.ts';

/** One stretch without a gap: `parts` are the reasons one after another. */
export interface Stand {
  kind: 'gear' | 'person';
  /** Place in the shift, and of the piece of gear (0 for people). */
  index: number;
  item: number;
  from: number;
  to: number;
  parts: Stood[];
  /** Minutes of it in which pieces stood before the step: somebody could have been at work. */
  lost: number;
}

const LEAST = 3;

/** All stretches of three minutes and more, benches of a step left out; those that cost most come first. */
export function standsOf(shift: ResolvedShift, { idle, stood }: ShiftReasons, least = LEAST): Stand[] {
  const gear = stood.flatMap((kind, index) =>
    shift.gear[index]!.kind === 'bench'
      ? []
      : kind.flatMap((line, item) => stretches(line).map((parts) => standOf('gear', index, item, parts))),
  );
  const people = idle.flatMap((line, index) =>
    stretches(line).map((parts) => standOf('person', index, 0, parts)),
  );
  return [...gear, ...people].filter(({ from, to }) => to - from >= least).sort(dearest);
}

/** Gear while pieces stood waiting for it or in it, then all else by its length. */
const dearest = (a: Stand, b: Stand): number => costOf(b) - costOf(a) || a.from - b.from;

/** A minute with pieces waiting is lost; one without any could at most have been one. */
const costOf = ({ kind, from, to, lost }: Stand): number =>
  kind === 'gear' ? 2 * lost + (to - from) / 8 : lost + (to - from) / 4;

function standOf(kind: Stand['kind'], index: number, item: number, parts: Stood[]): Stand {
  const lost = parts.reduce((sum, { from, to, there, state }) => {
    const waits = there > 0 || (kind === 'gear' && state !== FREE);
    return sum + (waits ? to - from : 0);
  }, 0);
  return { kind, index, item, from: parts[0]!.from, to: parts.at(-1)!.to, parts, lost };
}

/** Reasons that follow each other while the same goes on: free, or waiting with a piece. */
function stretches(line: readonly Stood[]): Stood[][] {
  const all: Stood[][] = [];
  for (const one of line) {
    const open = all.at(-1);
    const last = open?.at(-1);
    const goesOn =
      last !== undefined && last.to === one.from && (last.state === FREE) === (one.state === FREE);
    if (goesOn) open!.push(one);
    else all.push([one]);
  }
  return all;
}

export const standName = ({ kind, index, item }: Stand, shift: ResolvedShift): string => {
  if (kind === 'person') return shift.people[index]!.name;
  const { name, count } = shift.gear[index]!;
  return count === 1 ? name : `${name} ${item + 1}`;
};

const clock = (shift: ResolvedShift, minutes: number): string =>
  clockOfMinutes(minutesOfClock(shift.start) + Math.floor(minutes + 1e-9));

/** "Clamp set 2 stood free for 48 minutes, 09:53 to 10:41." */
export function standWords(stand: Stand, shift: ResolvedShift): string {
  const { from, to } = stand;
  const long = counted(Math.max(1, Math.round(to - from)), 'minute');
  return `${capitalized(standName(stand, shift))} ${didWords(stand, shift)} for ${long}, ${clock(shift, from)} to ${clock(shift, to)}.`;
}

function didWords({ kind, index, parts }: Stand, shift: ResolvedShift): string {
  if (kind === 'person') return 'was without work';
  const { state } = parts[0]!;
  if (state === FREE) return 'stood free';
  const { words } = gearStateWords(state, index, shift);
  return words.startsWith('put down') ? 'stood with a piece put down' : `stood with a piece, ${words}`;
}

/** Reasons that went on for less than this, or this share of it all, are left out where there are others. */
const SHORT = 1;
const SHORT_SHARE = 0.04;
const MOST_PARTS = 6;

/**
 * Why, one sentence a reason in the order of the clock: "4 pieces stood before glue. 10:00: Tova was on a
 * break until 10:15. 10:15: ..."
 */
export function whyLines(stand: Stand, shift: ResolvedShift): string[] {
  const least = Math.max(SHORT, SHORT_SHARE * (stand.to - stand.from));
  const telling = stand.parts.filter(({ from, to }) => to - from >= least);
  const parts = (telling.length > 0 ? telling : stand.parts).slice(0, MOST_PARTS);
  const left = (telling.length > 0 ? telling : stand.parts).length - parts.length;
  const lines = parts.map((part, i) => {
    const words = partWords(part, stand.kind, shift);
    return parts.length === 1 && i === 0 ? words : `${clock(shift, part.from)}: ${words}`;
  });
  return left > 0 ? [...lines, `And ${counted(left, 'reason')} more.`] : lines;
}

function partWords({ chain, others, there }: Stood, kind: Stand['kind'], shift: ResolvedShift): string {
  const last = chain.at(-1)!;
  const step = 'step' in last ? shift.steps[last.step] : undefined;
  const stood =
    there > 0 && kind === 'gear' && step !== undefined && 'person' in last && last.kind !== 'in hand'
      ? `${counted(there, 'piece')} stood before ${inSentence(step.name)}; `
      : '';
  const before = chain.slice(0, -1).map((cause) => `${causeWords(cause, shift)}; `);
  const beside = kind === 'gear' ? others.map((cause) => causeWords(cause, shift)) : [];
  return `${capitalized(`${before.join('')}${stood}${causeWords(last, shift)}`)}${beside.length === 0 ? '' : `; ${beside.slice(0, 2).join('; ')}`}.`;
}

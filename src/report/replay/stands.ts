/** The stretches in which gear or a person stood, the dearest first, and the words for each. */
import type { ShiftReasons, Stood } from '../../record/why/reasons.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import type { ResolvedPlant } from '../../scenario/resolved.ts';
import { FREE, gearStateOf, workingAt } from '../../engine/states.ts';
import type { CauseKind } from '../../record/why/causes.ts';
import type { Stretch } from '../../record/stretch.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import { causeWords } from '../../words/causes.ts';
import { gearStateWords } from '../../words/states.ts';
import { capitalized, counted, fixed, inSentence, money } from '../../words/words.ts';

/** One stretch without a gap: `parts` are the reasons one after another. */
export interface Stand {
  kind: 'gear' | 'person';
  /** Place in the shift, and of the piece of gear (0 for people). */
  index: number;
  item: number;
  from: number;
  to: number;
  parts: Stood[];
  /** Minutes of it in which pieces were there and it was this, or hands for it, that they waited for. */
  lost: number;
  /** Pieces that those minutes had room for, no more than were there. */
  units: number;
}

/** Over the list of stands. */
export const DEAREST = 'What stood and why, the dearest first: by the pieces there was room for';

const LEAST = 3;

/** All stretches of three minutes and more, benches of a step left out; those that cost most come first. */
export function standsOf(
  shift: ResolvedShift,
  { idle, stood, items, people: lines, good }: ShiftReasons,
  least = LEAST,
): Stand[] {
  const each = (made: (state: number) => boolean, lines: readonly Stretch[][]): number => {
    const worked = lines.flat().filter(({ state }) => made(state));
    return worked.reduce((sum, { from, to }) => sum + to - from, 0) / Math.max(1, good);
  };
  const gear = stood.flatMap((kind, index) => {
    if (shift.gear[index]!.kind === 'bench') return [];
    const held = each((state) => gearStateOf(state).kind === 'at', items[index]!);
    return kind.flatMap((line, item) =>
      stretches(line).map((parts) => standOf({ kind: 'gear', index, item }, parts, held)),
    );
  });
  const people = idle.flatMap((line, index) => {
    const took = each((state) => state >= workingAt(shift.gear.length, 0), [lines[index]!]);
    return stretches(line).map((parts) => standOf({ kind: 'person', index, item: 0 }, parts, took));
  });
  return [...gear, ...people].filter(({ from, to }) => to - from >= least).sort(dearest);
}

/** By the pieces there was room for, then by length. */
const dearest = (a: Stand, b: Stand): number =>
  b.units - a.units || b.to - b.from - (a.to - a.from) || a.from - b.from;

/** @param each minutes that a good piece of the shift held it. */
function standOf(who: Pick<Stand, 'kind' | 'index' | 'item'>, parts: Stood[], each: number): Stand {
  const waited = parts.filter((part) => piecesThere(who.kind, part) > 0);
  const lost = waited.reduce((sum, { from, to }) => sum + to - from, 0);
  const most = Math.max(0, ...waited.map((part) => piecesThere(who.kind, part)));
  const units = each > 0 ? Math.min(lost / each, most) : 0;
  return { ...who, from: parts[0]!.from, to: parts.at(-1)!.to, parts, lost, units };
}

/** Pieces that waited for this and nothing else: gear free, or with a piece in it; somebody free. */
function piecesThere(kind: Stand['kind'], { there, state, chain }: Stood): number {
  const { kind: missing } = chain[0]!;
  if (kind === 'person') return OF_PEOPLE.has(missing) ? there : 0;
  if (state !== FREE) return Math.max(1, there);
  return FOR_WANT_OF_PIECES.has(missing) ? 0 : there;
}

/** What stands further back in the chain is not before this gear. */
const FOR_WANT_OF_PIECES: ReadonlySet<CauseKind> = new Set<CauseKind>([
  'no piece',
  'none sent back',
  'nothing new',
  'not needed',
]);

/** What keeps somebody who is free from a piece that could be begun. */
const OF_PEOPLE: ReadonlySet<CauseKind> = new Set<CauseKind>([
  'would not fit',
  'shut',
  'day over',
  'no second',
  'other of two',
]);

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

/** What an extra piece brings in; null where the file does not say. */
export type Worth = Pick<ResolvedPlant['money'], 'margin' | 'currency'>;

/** Pieces under which nothing is said of them. */
const WORTH_A_WORD = 0.05;

/**
 * "Clamp set 2 stood free for 48 minutes, 09:53 to 10:41: room for 1.1 pieces ($42) while some were there."
 * The money where the file says what a piece brings in.
 */
export function standWords(stand: Stand, shift: ResolvedShift, worth: Worth): string {
  const { from, to, units } = stand;
  const long = counted(Math.max(1, Math.round(to - from)), 'minute');
  return `${capitalized(standName(stand, shift))} ${didWords(stand, shift)} for ${long}, ${clock(shift, from)} to ${clock(shift, to)}${units < WORTH_A_WORD ? '' : `: ${roomWords(units, worth)}`}.`;
}

function roomWords(units: number, { margin, currency }: Worth): string {
  const brings = margin === null ? '' : ` (${money(Math.round(units * margin), currency)})`;
  return `room for ${fixed(units, 1)} ${fixed(units, 1) === '1.0' ? 'piece' : 'pieces'}${brings} while ${units > 1 ? 'some were' : 'one was'} there`;
}

function didWords({ kind, index, parts }: Stand, shift: ResolvedShift): string {
  if (kind === 'person') return 'was without work';
  const { state } = parts[0]!;
  if (state === FREE) return 'stood free';
  const { words } = gearStateWords(state, index, shift);
  return words.startsWith('put down') ? 'stood with a piece put down' : `stood with a piece (${words})`;
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

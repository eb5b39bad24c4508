/** Why something did not start, in the shop's words: one entry for each cause there is. */
import type { Cause, CauseKind, OfPerson } from '../record/why/causes.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import { counted, inSentence, plain, singular } from './words.ts';

/** What the words need of a shift. */
export type CauseNames = Pick<ResolvedShift, 'start' | 'length' | 'steps' | 'people' | 'gear' | 'breaks'>;

interface Words<Kind extends CauseKind> {
  /** At that minute, with piece and time: "Tova was at “unclamp” until 10:12". */
  then: (cause: Extract<Cause, { kind: Kind }>, names: Names) => string;
  /** Over many shifts: "Tova at “unclamp”". */
  ever: (cause: Extract<Cause, { kind: Kind }>, names: Names) => string;
}

class Names {
  private readonly shift: CauseNames;

  constructor(shift: CauseNames) {
    this.shift = shift;
  }

  step(step: number): string {
    const found = this.shift.steps[step];
    return found === undefined ? 'the next step' : inSentence(found.name);
  }

  rack(step: number): string {
    const slots = this.shift.steps[step]?.rack;
    return slots === null || slots === undefined ? '' : ` (${slots})`;
  }

  who(person: number): string {
    return this.shift.people[person]?.name ?? 'somebody';
  }

  gear(gear: number): string {
    return inSentence(singular(this.shift.gear[gear]?.name ?? 'gear'));
  }

  isBench(gear: number): boolean {
    return this.shift.gear[gear]?.kind === 'bench';
  }

  clock(minutes: number): string {
    return clockOfMinutes(minutesOfClock(this.shift.start) + Math.floor(minutes + 1e-9));
  }

  /** ", until 10:12"; nothing for what lasted beyond the shift. */
  until(minutes: number): string {
    return minutes >= this.shift.length ? '' : ` until ${this.clock(minutes)}`;
  }

  /** "the break at 10:00". */
  break(at: number): string {
    const name = this.shift.breaks.find(({ from }) => from === at)?.name;
    return `the ${name === undefined ? 'break' : inSentence(name)} at ${this.clock(at)}`;
  }
}

const piece = (unit: number): string => (unit < 0 ? 'a piece' : `piece ${unit + 1}`);

const BEFORE = {
  break: 'a break',
  away: 'leaving for another line',
  end: 'the end',
  cap: 'the end of overtime',
};

function stopWords({ before, until }: Extract<OfPerson, { kind: 'would not fit' }>, names: Names): string {
  if (before === 'break') return names.break(until);
  if (before === 'away') return `leaving for another line at ${names.clock(until)}`;
  return `${BEFORE[before]} at ${names.clock(until)}`;
}

const WORDS: { [Kind in CauseKind]: Words<Kind> } = {
  'no piece': {
    then: ({ step, there }, n) =>
      there === 0
        ? `nothing stood before ${n.step(step)}`
        : `only ${counted(there, 'piece')} stood before ${n.step(step)}`,
    ever: ({ step }, n) => `nothing before ${n.step(step)}`,
  },
  'nothing new': {
    then: ({ step }, n) => `after the end nothing new was begun at ${n.step(step)}`,
    ever: () => 'after the end nothing new is begun',
  },
  'none sent back': {
    then: ({ step }, n) => `nothing had been sent back to ${n.step(step)}`,
    ever: ({ step }, n) => `nothing sent back to ${n.step(step)}`,
  },
  'no gear': {
    then: ({ step, gear }, n) =>
      n.isBench(gear)
        ? `the bench at ${n.step(step)} was in use`
        : `no ${n.gear(gear)} was free for ${n.step(step)}`,
    ever: ({ step, gear }, n) =>
      n.isBench(gear) ? `the bench at ${n.step(step)} in use` : `no ${n.gear(gear)} free`,
  },
  'nowhere to put it': {
    then: ({ step, unit }, n) => `${piece(unit)} held the bench at ${n.step(step)} and could not move on`,
    ever: ({ step }, n) => `nowhere to put it at ${n.step(step)}`,
  },
  'rack full': {
    then: ({ step }, n) => `the rack before ${n.step(step)} was full${n.rack(step)}`,
    ever: ({ step }, n) => `the rack before ${n.step(step)} full`,
  },
  'no out-rack': { then: () => 'no out-rack had room', ever: () => 'no out-rack with room' },
  shut: {
    then: ({ step, until }, n) =>
      `${n.step(step)} was not to be begun ${Number.isFinite(until) ? `before ${n.clock(until)}` : 'any more that shift'}`,
    ever: ({ step }, n) => `${n.step(step)} not to be begun at that time`,
  },
  'would not fit': {
    then: (cause, n) =>
      `${n.who(cause.person)} would not have been through ${n.step(cause.step)} before ${stopWords(cause, n)} (${plain(Math.round(cause.needed))} min are reckoned)`,
    ever: ({ step, before }, n) => `${n.step(step)} would not fit before ${BEFORE[before]}`,
  },
  'day over': {
    then: ({ person }, n) => `${n.who(person)} was tidying up or past the end`,
    ever: ({ person }, n) => `${n.who(person)} tidying up or past the end`,
  },
  'no second': {
    then: ({ step }, n) => `${n.step(step)} takes two`,
    ever: ({ step }, n) => `no second pair of hands at ${n.step(step)}`,
  },
  busy: {
    then: ({ person, at, unit, until }, n) =>
      `${n.who(person)} was at ${n.step(at)}${unit < 0 ? '' : `, ${piece(unit)},`}${n.until(until)}`,
    ever: ({ person, at }, n) => `${n.who(person)} at ${n.step(at)}`,
  },
  'other of two': {
    then: ({ person }, n) => `${n.who(person)} stood by a piece that takes two`,
    ever: ({ person }, n) => `${n.who(person)} standing by a piece that takes two`,
  },
  off: {
    then: ({ person, why, until }, n) =>
      `${n.who(person)} was ${why === 'break' ? 'on a break' : 'on another line'}${n.until(until)}`,
    ever: ({ person, why }, n) => `${n.who(person)} ${why === 'break' ? 'on a break' : 'on another line'}`,
  },
  'not in': {
    then: ({ person, until }, n) => `${n.who(person)} was not in${n.until(until)}`,
    ever: ({ person }, n) => `${n.who(person)} not in`,
  },
  gone: {
    then: ({ person }, n) => `${n.who(person)} had gone home`,
    ever: ({ person }, n) => `${n.who(person)} gone home`,
  },
  'no post': {
    then: ({ person }, n) => `${n.who(person)} had no post at that time`,
    ever: ({ person }, n) => `${n.who(person)} without a post`,
  },
  'nobody covers': {
    then: ({ step }, n) => `nobody stood at ${n.step(step)} at that time`,
    ever: ({ step }, n) => `nobody at ${n.step(step)}`,
  },
  'in hand': {
    then: ({ step, unit, person, until }, n) =>
      `${piece(unit)} was in hand at ${n.step(step)} (${n.who(person)})${n.until(until)}`,
    ever: ({ step }, n) => `the next piece in hand at ${n.step(step)}`,
  },
  curing: {
    then: ({ unit, step, until }, n) => `${piece(unit)} was in ${n.step(step)}${n.until(until)}`,
    ever: ({ step }, n) => `the next piece in ${n.step(step)}`,
  },
  'put down': {
    then: ({ step, unit, until }, n) => `${piece(unit)} was put down at ${n.step(step)}${n.until(until)}`,
    ever: ({ step }, n) => `put down at ${n.step(step)}`,
  },
  'on hold': {
    then: ({ step, unit, until }, n) => `${piece(unit)} was on hold before ${n.step(step)}${n.until(until)}`,
    ever: ({ step }, n) => `on hold before ${n.step(step)}`,
  },
  'out of order': {
    then: ({ gear, until }, n) => `the ${n.gear(gear)} was out of order${n.until(until)}`,
    ever: ({ gear }, n) => `${n.gear(gear)} out of order`,
  },
  'not come yet': {
    then: ({ until }, n) => `the next piece came in at ${n.clock(until)}`,
    ever: () => 'the next piece not come in yet',
  },
  'none to come': { then: () => 'no more pieces came in', ever: () => 'no more pieces to come in' },
  'not needed': {
    then: ({ gear }, n) => `no step needs the ${n.gear(gear)}`,
    ever: ({ gear }, n) => `no step needs the ${n.gear(gear)}`,
  },
  unknown: { then: () => 'not known', ever: () => 'not known' },
};

function wordsOf<Kind extends CauseKind>(cause: Extract<Cause, { kind: Kind }>): Words<Kind> {
  return WORDS[cause.kind as Kind];
}

/** At that minute: "Tova was at unclamp, piece 4, until 10:12". */
export const causeWords = (cause: Cause, shift: CauseNames): string =>
  wordsOf(cause).then(cause as never, new Names(shift));

/** Over many shifts: "Tova at unclamp". */
export const reasonWords = (cause: Cause, shift: CauseNames): string =>
  wordsOf(cause).ever(cause as never, new Names(shift));

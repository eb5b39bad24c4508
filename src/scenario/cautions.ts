/**
 * What the tool owes its users wherever such numbers are entered or answers stand: it plans; it clears nobody
 * and nothing. One line each, only where they apply. Sources were read in excerpts; read the current text
 * before taking a figure as a limit.
 */
import { resolve, type ResolvedShift } from './resolve.ts';
import { isSanding } from './rules/remarks.ts';
import type { Scenario } from './schema.ts';

export type CautionTopic =
  | 'cure'
  | 'hours'
  | 'long hours'
  | 'vibration'
  | 'dust'
  | 'adhesives'
  | 'lifting'
  | 'repetition'
  | 'forecast';

export interface Caution {
  topic: CautionTopic;
  /** One sentence or two, for screen, paper and the command line alike. */
  text: string;
  /** Where the figures come from; left out where a caution has none. */
  source?: string;
}

/** Minutes of a shift, overtime included, from which the day counts as long. */
const LONG_DAY = 600;

type Applies = (shift: ResolvedShift, scenario: Scenario) => boolean;

const sands: Applies = (shift, scenario) =>
  shift.steps.some(isSanding) || Object.keys(scenario.limits?.vibration ?? {}).length > 0;
const waits: Applies = (shift) => shift.steps.some((step) => step.kind === 'wait');
const clamps: Applies = (shift) => shift.steps.some((step) => step.takes.length > 0 || step.people === 2);
const longHours: Applies = (shift) =>
  shift.overtime.until !== 'none' ||
  shift.length >= LONG_DAY ||
  shift.people.some((person) => person.hoursThisWeek > 40 || person.daysThisWeek >= 6);
const always: Applies = () => true;

const CAUTIONS: readonly (Caution & { applies: Applies })[] = [
  {
    topic: 'cure',
    applies: waits,
    text: "Cure and rest times are put in by you; the adhesive's data sheet rules, for this wood, this day and before sanding.",
  },
  {
    topic: 'hours',
    applies: always,
    text: 'Hours, breaks, overtime and pay: local law and agreements decide, not this plan; states and plants differ.',
    source:
      'US: 29 CFR 778 (1.5 times over 40 h a week). UK: Working Time Regulations 1998 (20 min if over 6 h, 11 h daily rest, 48 h weekly average).',
  },
  {
    topic: 'long hours',
    applies: longHours,
    text: 'Long hours hurt: overtime schedules go with 61 % more injuries, days of 12 hours and more with 37 % more.',
    source: 'Occup Environ Med 62:588.',
  },
  {
    topic: 'vibration',
    applies: sands,
    text: 'Sanding machines shake hands and arms: at 7 m/s2 action is due after about 1 hour of trigger time, the limit is reached after about 4.',
    source:
      'Directive 2002/44/EC; UK Control of Vibration at Work Regulations 2005: action 2.5, limit 5 m/s2 A(8).',
  },
  {
    topic: 'dust',
    applies: sands,
    text: 'Wood dust from sanding harms lungs and nose: extraction and masks as local rules say.',
    source: 'UK hardwood 3 mg/m3 over 8 h; NIOSH recommends 1; OSHA 15 total, 5 respirable.',
  },
  {
    topic: 'adhesives',
    applies: waits,
    text: 'Lamps, solvents and adhesives: as their makers say; gloves and eye protection.',
  },
  {
    topic: 'lifting',
    applies: clamps,
    text: 'Lifting and clamping: two people where a piece is awkward, whatever the plan says.',
  },
  {
    topic: 'repetition',
    applies: sands,
    text: 'Repetition, force and grip: rotate, and keep the breaks.',
    source: 'HSE HSG60.',
  },
  {
    topic: 'forecast',
    applies: always,
    text: 'A forecast, not a promise; never for ranking people. It clears nobody for a task: training does.',
  },
];

/**
 * The cautions that apply to a checked scenario (for an option: the scenario with the option applied), in a
 * fixed order.
 */
export function cautionsFor(scenario: Scenario): Caution[] {
  const shift = resolve(scenario);
  return CAUTIONS.filter((one) => one.applies(shift, scenario)).map(({ topic, text, source }) => ({
    topic,
    text,
    ...(source === undefined ? {} : { source }),
  }));
}

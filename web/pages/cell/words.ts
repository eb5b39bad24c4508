/** The page's sentences: what the cell looks like, and each part of it in a few words. */
import {
  counted,
  duration,
  inSentence,
  listed,
  plain,
  plural,
  singular,
  spelt,
} from '../../../src/words/words.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Intake, Person, Scenario, Step } from '../../../src/scenario/schema.ts';
import { timeInWords } from '../../parts/time-words.ts';
import { benchesOf, isWait, mixMinutes } from './cell-data.ts';

const capitalized = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const speltCounted = (count: number, name: string): string =>
  `${spelt(count)} ${count === 1 ? singular(name) : plural(name)}`;

/**
 * "Six people, two clamp sets, seven steps: an hour and 24 minutes of hands in a piece, 30 minutes of cure."
 */
export function answerWords(scenario: Scenario): string {
  const people = Object.keys(scenario.people).length;
  const gear = Object.entries(scenario.gear ?? {})
    .slice(0, 2)
    .map(([id, one]) => speltCounted(one.count, inSentence(one.name ?? id)));
  const steps = Object.entries(scenario.steps).filter(([, step]) => step.aside !== true);
  const hands = steps.filter(([, step]) => !isWait(step));
  const waits = steps.filter(([, step]) => isWait(step));
  const sum = (of: [string, Step][]): number =>
    Math.round(of.reduce((total, [id, step]) => total + mixMinutes(scenario, id) * (step.people ?? 1), 0));
  const parts = [
    people === 1 ? 'one person' : `${spelt(people)} people`,
    ...gear,
    speltCounted(hands.length, 'step'),
  ];
  const cure =
    waits.length === 0
      ? ''
      : `, ${longWords(sum(waits))} of ${waits.every(([id, step]) => /rest/i.test(`${id} ${step.name ?? ''}`)) ? 'rest' : 'cure'}`;
  return `${capitalized(listed(parts))}: ${longWords(sum(hands))} of hands in a piece${cure}.`;
}

/** "an hour and 24 minutes". */
function longWords(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  const small = counted(rest, 'minute');
  if (hours === 0) return small;
  const large = hours === 1 ? 'an hour' : `${spelt(hours)} hours`;
  return rest === 0 ? large : `${large} and ${small}`;
}

export const minutesWords = (minutes: number): string => `${plain(Math.round(minutes * 10) / 10)} min`;

/** A step for those who listen: all that the picture shows of it. */
export function stepWords(scenario: Scenario, id: string, who: string[]): string {
  const step = scenario.steps[id]!;
  const rack =
    typeof step.rack === 'number'
      ? step.rack === 0
        ? 'handed over in place'
        : `rack of ${step.rack} before it`
      : 'no limit to what waits before it';
  const parts = isWait(step)
    ? [timeInWords(step.time), 'needs no hands']
    : [
        timeInWords(step.time),
        counted(benchesOf(step), 'bench'),
        ...(step.people === 2 ? ['takes two people'] : []),
        rack,
        who.length === 0 ? 'nobody stands here' : `here: ${listed(who)}`,
      ];
  return `${capitalized(step.name ?? id)}: ${parts.join('; ')}`;
}

/** "8% back to sand, 3% to clean, 1% scrap". */
export function backWords(scenario: Scenario, step: Step): string {
  const back = (step.rework ?? []).map(
    ({ to, percent }, i) =>
      `${plain(percent)}% ${i === 0 ? 'back ' : ''}to ${inSentence(scenario.steps[to]?.name ?? to)}`,
  );
  return [
    ...back,
    ...(step.scrap === undefined || step.scrap === 0 ? [] : [`${plain(step.scrap)}% scrap`]),
  ].join(', ');
}

export function personWords(scenario: Scenario, person: Person): string {
  const covers = person.covers ?? Object.keys(person.skills ?? {});
  const named = covers.map((step) => inSentence(scenario.steps[step]?.name ?? step));
  return named.length === 0
    ? 'stands nowhere yet'
    : named.length === 1
      ? named[0]!
      : `${named[0]!}, then ${listed(named.slice(1))}`;
}

export function intakeWords(intake: Intake | undefined): string {
  const late = (intake?.late ?? 0) > 0 ? `, all ${minutesWords(intake!.late!)} late` : '';
  switch (intake?.kind) {
    case undefined:
      return '60 pieces there at the start';
    case 'at start':
      return `${counted(intake.units, 'piece')} there at the start${late}`;
    case 'beat':
      return `a piece every ${minutesWords(intake.every)}${late}`;
    case 'random':
      return `pieces at irregular times, ${timeInWords(intake.gap)} apart${late}`;
    case 'constant':
      return `always ${counted(intake.inside, 'piece')} inside: one out, one in${late}`;
    case 'list': {
      const shown = intake.arrivals.slice(0, 5).map(({ at, units = 1 }) => `${units} at ${at}`);
      return `${shown.length === 0 ? 'nothing' : listed(shown)}${intake.arrivals.length > 5 ? ` and ${intake.arrivals.length - 5} more` : ''}${late}`;
    }
  }
}

export function shiftWords(scenario: Scenario): string {
  const shift = scenario.shift ?? {};
  const breaks = shift.breaks ?? [];
  const off = breaks.reduce((sum, one) => sum + one.minutes, 0);
  const target = typeof shift.target === 'number' ? `, ${shift.target} due` : '';
  return `${shift.start ?? DEFAULTS.shift.start} to ${shift.end ?? DEFAULTS.shift.end}, ${breaks.length === 0 ? 'no breaks' : `${counted(breaks.length, 'break')} (${duration(off)})`}${target}`;
}

export function overtimeWords(scenario: Scenario): string {
  const overtime = scenario.shift?.overtime;
  if ((overtime?.until ?? DEFAULTS.shift.overtime.until) === 'none') return 'no overtime';
  return `overtime until ${overtime!.until === 'target' ? 'the target is made' : 'the cell is empty'}, at most ${minutesWords(overtime!.cap ?? DEFAULTS.shift.overtime.cap)}`;
}

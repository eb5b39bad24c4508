/**
 * What keeps a cell from the most its crew and gear could make, and the shift with such a cause put right.
 * Putting right takes waiting away and no work: whoever need not stop for a break is slower in the same
 * proportion, and hands that take clamps off at once are paid for by those who did it. So with everything put
 * right no cell makes more than its crew and gear could.
 */
import { compileTime } from '../duration/compile.ts';
import type { Time } from '../duration/time.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import { fluidCeiling } from './ceilings/fluid-ceiling.ts';
import { spreadsheetNumber } from './ceilings/spreadsheet.ts';
import type { StudyCase } from './study.ts';

export const CAUSES = [
  'times that vary',
  'clamps waiting for hands',
  'full racks',
  'breaks',
  'tidying up',
  'overtime',
  'who is in',
  'gear out of order',
  'holds',
  'arrivals',
  'opening stock',
] as const;
export type Cause = (typeof CAUSES)[number];

/** Of each cause, what it changes of a shift to put it right. */
const RIGHT: Record<Cause, (shift: ResolvedShift) => ResolvedShift> = {
  'times that vary': steady,
  'clamps waiting for hands': handsForGear,
  'full racks': roomyRacks,
  breaks: withoutBreaks,
  'tidying up': withoutTidying,
  overtime: overtimeWorked,
  'who is in': everybodyIn,
  'gear out of order': (shift) => ({ ...shift, gear: shift.gear.map((gear) => ({ ...gear, fails: null })) }),
  holds: (shift) => ({ ...shift, holds: [] }),
  arrivals: partsAlways,
  'opening stock': (shift) => ({ ...shift, carryOver: [] }),
};

/** The causes there are in this shift at all; the opening stock always is one, were it none. */
export const causesOf = (shift: ResolvedShift): Cause[] =>
  CAUSES.filter(
    (cause) => cause === 'opening stock' || JSON.stringify(RIGHT[cause](shift)) !== JSON.stringify(shift),
  );

/** The shift with these causes put right, in the order of the list. */
export const putRight = (shift: ResolvedShift, causes: readonly Cause[]): ResolvedShift =>
  CAUSES.filter((cause) => causes.includes(cause)).reduce((made, cause) => RIGHT[cause](made), shift);

/**
 * A case of a study with these causes put right. Without the opening stock the cell is met as a shift like it
 * would leave it: one is run before the one that counts.
 */
export function caseOf(shift: ResolvedShift, causes: readonly Cause[], id: string): StudyCase {
  const made = putRight(shift, causes);
  if (!causes.includes('opening stock')) return { id, name: id, shifts: [made] };
  const again: ResolvedShift = {
    ...made,
    startsAfter: made.startsAfter + made.length,
    intake: causes.includes('arrivals')
      ? { kind: 'at start', units: 0, late: 0, whenFull: 'hold', dueAfter: null }
      : made.intake,
  };
  return { id, name: id, shifts: [made, again], warmUp: 1 };
}

/** The most this crew and gear could make in a shift at the pace they can keep up, nobody ever waiting. */
export const mostOf = (shift: ResolvedShift): number =>
  fluidCeiling(putRight(shift, ['overtime', 'holds', 'arrivals', 'opening stock']), { inHand: false }).good;

function steady(shift: ResolvedShift): ResolvedShift {
  const mean = (time: Time): Time => compileTime(time).mean;
  return {
    ...shift,
    steps: shift.steps.map((step) => ({
      ...step,
      time: mean(step.time),
      repeatTime: step.repeatTime === null ? null : mean(step.repeatTime),
    })),
    products: shift.products.map((product) => ({
      ...product,
      tasks: Object.fromEntries(
        Object.entries(product.tasks).map(([step, task]) => [
          step,
          { ...task, time: mean(task.time), repeat: mean(task.repeat) },
        ]),
      ),
    })),
  };
}

const minutesOff = ({ offs }: ResolvedPerson): number => offs.reduce((sum, one) => sum + one.minutes, 0);

/** Minutes there less those off. */
const onDuty = (person: ResolvedPerson): number => person.to - person.from - minutesOff(person);

const slower = (person: ResolvedPerson, factor: number): ResolvedPerson => ({
  ...person,
  skills: Object.fromEntries(
    Object.entries(person.skills).map(([step, skill]) => [step, { ...skill, factor: skill.factor * factor }]),
  ),
});

function withoutBreaks(shift: ResolvedShift): ResolvedShift {
  const all = (person: ResolvedPerson): ResolvedPerson =>
    person.offs.length === 0 || onDuty(person) <= 0
      ? person
      : { ...slower(person, (person.to - person.from) / onDuty(person)), breaks: [], away: [], offs: [] };
  return { ...shift, people: shift.people.map(all) };
}

function withoutTidying(shift: ResolvedShift): ResolvedShift {
  const { tidyUp } = shift;
  if (tidyUp === 0) return shift;
  return {
    ...shift,
    tidyUp: 0,
    people: shift.people.map((person) =>
      onDuty(person) > 2 * tidyUp ? slower(person, onDuty(person) / (onDuty(person) - tidyUp)) : person,
    ),
  };
}

/** What the ceiling reckons with: everybody who may be kept works to the cap, whatever is made by then. */
function overtimeWorked(shift: ResolvedShift): ResolvedShift {
  const { until, cap, who } = shift.overtime;
  if (until === 'none' || cap === 0) return shift;
  const stays = (person: ResolvedPerson): boolean => person.overtime && (who?.includes(person.id) ?? true);
  return {
    ...shift,
    length: shift.length + cap,
    overtime: { until: 'none', cap: 0, who: null },
    people: shift.people.map((person) => (stays(person) ? { ...person, to: person.to + cap } : person)),
  };
}

function everybodyIn(shift: ResolvedShift): ResolvedShift {
  const surely = (person: ResolvedPerson): ResolvedPerson =>
    person.chance > 0 && (person.chance < 1 || person.lateChance > 0)
      ? { ...slower(person, 1 / person.chance), chance: 1, lateChance: 0 }
      : person;
  return { ...shift, people: shift.people.map(surely) };
}

/** Slots beyond which a rack is hardly ever full; without any limit it would be fed for ever. */
const MORE_SLOTS = 12;

function roomyRacks(shift: ResolvedShift): ResolvedShift {
  return {
    ...shift,
    outRack: null,
    steps: shift.steps.map((step) => ({
      ...step,
      rack: step.rack === null ? null : step.rack + MORE_SLOTS,
    })),
  };
}

function partsAlways(shift: ResolvedShift): ResolvedShift {
  const { intake } = shift;
  const units = Math.max(LEAST_PARTS, Math.ceil(PLENTY * spreadsheetNumber(shift).units) || LEAST_PARTS);
  if (
    intake.kind === 'constant' ||
    (intake.kind === 'at start' && intake.late === 0 && intake.units >= units)
  )
    return shift;
  const { dueAfter } = intake;
  return { ...shift, intake: { kind: 'at start', units, late: 0, whenFull: 'hold', dueAfter } };
}

/** Parts for two shifts, whatever the cell, in times what a spreadsheet says of one. */
const PLENTY = 3;
const LEAST_PARTS = 100;

/**
 * Hands that only free gear, as many as could ever be wanted; those who did it are slower by what it takes.
 */
function handsForGear(shift: ResolvedShift): ResolvedShift {
  const frees = (step: string): boolean =>
    shift.steps.some((one) => one.takes.some((take) => take.until === step));
  const steps = shift.steps.filter((step) => step.kind === 'hands' && frees(step.id));
  if (steps.length === 0) return shift;
  const helpers = steps.flatMap((step) => helpersAt(shift, step.id, step.people));
  const ids = new Set(steps.map(({ id }) => id));
  const covers = (person: ResolvedPerson): boolean =>
    person.cover.some((cover) => cover.steps.some((step) => ids.has(step)));
  const paid = priceOf(shift, ids, covers);
  return {
    ...shift,
    people: [
      ...shift.people.map((person) =>
        covers(person)
          ? {
              ...slower(person, paid),
              cover: person.cover.map(({ from, steps: all }) => ({
                from,
                steps: all.filter((step) => !ids.has(step)),
              })),
            }
          : person,
      ),
      ...helpers,
    ],
    gear: shift.gear.map((gear) =>
      gear.kind === 'bench' && [...ids].some((step) => gear.id === `${step}-bench`)
        ? { ...gear, count: gear.count + helpers.length }
        : gear,
    ),
  };
}

function helpersAt(shift: ResolvedShift, step: string, people: number): ResolvedPerson[] {
  const taken = shift.steps.flatMap((one) => one.takes).filter((take) => take.until === step);
  const items = taken.reduce(
    (sum, take) => sum + (shift.gear.find((gear) => gear.id === take.gear)?.count ?? 0),
    0,
  );
  return Array.from({ length: people * items }, (_, i): ResolvedPerson => ({
    ...shift.people[0]!,
    id: `hands-${step}-${i}`,
    name: 'hands',
    cover: [{ from: 0, steps: [step] }],
    breaks: [],
    away: [],
    offs: [],
    rule: 'in order',
    skills: { [step]: { level: 3, factor: 1, rework: 1 } },
    from: 0,
    to: shift.length,
    chance: 1,
    lateChance: 0,
    late: null,
    pay: 0,
    overtime: false,
  }));
}

/** How much slower those who freed gear are when others do: their minutes over their minutes without it. */
function priceOf(
  shift: ResolvedShift,
  ids: ReadonlySet<string>,
  covers: (person: ResolvedPerson) => boolean,
): number {
  const theirs = shift.people.filter(covers).reduce((sum, one) => sum + onDuty(one) * one.chance, 0);
  const each = spreadsheetNumber(shift)
    .lines.filter((line) => line.kind === 'step' && ids.has(line.id))
    .reduce((sum, line) => sum + line.perUnit, 0);
  const made = Math.min(spreadsheetNumber(shift).units, fluidCeiling(shift, { inHand: false }).good);
  const left = theirs - each * made;
  return left > theirs / MOST_SLOWER && Number.isFinite(left) ? theirs / left : MOST_SLOWER;
}

/** Who does hardly anything else is no slower than this at the rest. */
const MOST_SLOWER = 4;

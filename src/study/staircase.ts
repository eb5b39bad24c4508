/**
 * From the spreadsheet's number down to what the cell makes, one loss at a time. Every tread is a run in
 * which everything that comes later in the order is still put right, so the treads add up to the whole
 * difference by construction; what each is worth depends on the order, which is fixed and stated with it.
 *
 * Put right means:
 * - shared hands: whoever covers several steps is there once for each of them;
 * - clamps waiting for hands: the step that frees taken gear always finds hands and a bench at once;
 * - full racks: every rack with a limit has so many slots more that it is hardly ever full (without any
 *   limit, shared hands would
 *   go on feeding it for ever), and the out-rack is always there;
 * - variation: every time is its mean, nobody is absent or late, no gear fails;
 * - breaks and the first hour: nobody goes on a break or away, but is slower in the same proportion; every
 *   step has work in front
 *   of it as in the middle of a day, nobody stops early to tidy up, and parts never run out;
 * - rework: no piece goes back and none is scrapped, but every step takes the mean time a good piece needs
 *   with both.
 */
import { compileTime } from '../duration/compile.ts';
import { benchOf, type ResolvedPerson, type ResolvedShift, type ResolvedStep } from '../scenario/resolve.ts';
import type { Time } from '../duration/time.ts';
import type { Runner } from '../record/job.ts';
import { spreadsheetNumber } from './ceilings/spreadsheet.ts';
import { around, type Interval } from './intervals/interval.ts';
import { summarize, type StudySummary } from './summary.ts';
import { runStudy, type StudyCase } from './study.ts';
import type { StoppingSettings } from './stopping.ts';

export const LOSSES = [
  'shared hands',
  'clamps waiting for hands',
  'full racks',
  'variation',
  'breaks and the first hour',
  'rework',
] as const;
export type Loss = (typeof LOSSES)[number];

export interface StaircaseTread {
  loss: Loss;
  /** Good units with this loss and all before it in; and what it takes, with the range of this estimate. */
  units: number;
  change: Interval;
}

export interface StaircaseResult {
  /** The spreadsheet's number; NaN where nothing limits. */
  spreadsheet: number;
  treads: StaircaseTread[];
  /** What the cell makes: the last tread. */
  units: Interval;
  count: number;
  summary: StudySummary;
}

/**
 * Runs the staircase of one shift. Throws and stops as `runStudy`; null where it was stopped before the first
 * look.
 */
export async function runStaircase(
  shift: ResolvedShift,
  settings: Partial<StoppingSettings>,
  runner: Runner,
  signal?: AbortSignal,
): Promise<StaircaseResult | null> {
  const cases = LOSSES.map((loss, i) => treadCase(shift, loss, i));
  const pairs = LOSSES.slice(1).map((_, i) => ({ before: i, after: i + 1 }));
  const state = await runStudy({ cases, pairs, settings }, runner, undefined, signal);
  if (state.stopping.done < 2) return null;
  const summary = summarize(state);
  const spreadsheet = spreadsheetNumber(shift).units;
  const treads = LOSSES.map((loss, i): StaircaseTread => {
    const { good } = summary.cases[i]!;
    const change =
      i > 0
        ? summary.pairs[i - 1]!.good
        : around(good.estimate - spreadsheet, good.half, good.count, good.confidence);
    return { loss, units: good.estimate, change };
  });
  return { spreadsheet, treads, units: summary.cases.at(-1)!.good, count: summary.count, summary };
}

/**
 * Without a first hour the cell is met as a shift like it would leave it: one is run before the one that
 * counts.
 */
function treadCase(shift: ResolvedShift, loss: Loss, i: number): StudyCase {
  const losses = LOSSES.slice(i + 1);
  const made = putRight(shift, losses);
  const even = losses.includes('breaks and the first hour');
  const again: ResolvedShift = {
    ...made,
    startsAfter: made.startsAfter + made.length,
    intake: { ...made.intake, kind: 'at start', units: 0 } as ResolvedShift['intake'],
  };
  return { id: `tread-${i + 1}`, name: loss, shifts: even ? [made, again] : [made], warmUp: even ? 1 : 0 };
}

/** The shift with these losses put right. */
export function putRight(shift: ResolvedShift, losses: readonly Loss[]): ResolvedShift {
  const right: Record<Loss, (shift: ResolvedShift, whole: ResolvedShift) => ResolvedShift> = {
    'shared hands': ownHands,
    'clamps waiting for hands': handsForGear,
    'full racks': roomyRacks,
    variation: steady,
    'breaks and the first hour': evenDay,
    rework: asMeans,
  };
  // From the last in the order to the first: the means of rework need the curves, the crew is multiplied
  // last.
  return [...LOSSES]
    .reverse()
    .filter((loss) => losses.includes(loss))
    .reduce((made, loss) => right[loss](made, shift), shift);
}

function ownHands(shift: ResolvedShift): ResolvedShift {
  const people = shift.people.flatMap((person): ResolvedPerson[] => {
    const steps = [...new Set(person.cover.flatMap((cover) => cover.steps))];
    return steps.map((step, i) => ({
      ...person,
      id: i === 0 ? person.id : `${person.id}-at-${step}`,
      cover: person.cover.map((cover) => ({
        from: cover.from,
        steps: cover.steps.filter((one) => one === step),
      })),
    }));
  });
  return { ...shift, people };
}

/**
 * Hands that only free gear, as many as could ever be wanted, asked before everybody else; and benches for
 * them.
 */
function handsForGear(shift: ResolvedShift): ResolvedShift {
  const steps = [...new Set(shift.steps.flatMap((step) => step.takes.map((take) => take.until)))].filter(
    (step) => shift.steps.find((one) => one.id === step)?.kind === 'hands',
  );
  if (steps.length === 0) return shift;
  const wanted = (step: string): number => {
    const two = shift.steps.find((one) => one.id === step)!.people;
    return (
      two *
      shift.steps
        .flatMap((one) => one.takes)
        .filter((take) => take.until === step)
        .reduce((sum, take) => sum + (shift.gear.find((gear) => gear.id === take.gear)?.count ?? 0), 0)
    );
  };
  const helpers = steps.flatMap((step) =>
    Array.from({ length: wanted(step) }, (_, i): ResolvedPerson => ({
      ...shift.people[0]!,
      id: `hands-${step}-${i}`,
      name: 'hands',
      cover: [{ from: 0, steps: [step] }],
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
    })),
  );
  return {
    ...shift,
    people: [...helpers, ...shift.people],
    gear: shift.gear.map((gear) =>
      steps.some((step) => gear.id === benchOf(step))
        ? { ...gear, count: gear.count + helpers.length }
        : gear,
    ),
  };
}

const MORE_SLOTS = 12;
const roomyRacks = (shift: ResolvedShift): ResolvedShift => ({
  ...shift,
  outRack: null,
  steps: shift.steps.map((step) => ({ ...step, rack: step.rack === null ? null : step.rack + MORE_SLOTS })),
});

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
    people: shift.people.map((person) => ({ ...person, chance: person.chance > 0 ? 1 : 0, lateChance: 0 })),
    gear: shift.gear.map((gear) => ({ ...gear, fails: null })),
    intake: shift.intake.kind === 'random' ? { ...shift.intake, gap: mean(shift.intake.gap) } : shift.intake,
  };
}

/** Parts for two shifts, whatever the cell. */
const PLENTY = 2000;

const scaled = (factor: number, person: ResolvedPerson): ResolvedPerson['skills'] =>
  Object.fromEntries(
    Object.entries(person.skills).map(([step, skill]) => [step, { ...skill, factor: skill.factor * factor }]),
  );

function evenDay(shift: ResolvedShift): ResolvedShift {
  const people = shift.people.map((person): ResolvedPerson => {
    const there = person.to - person.from;
    const off = person.offs.reduce((sum, one) => sum + one.minutes, 0);
    return {
      ...person,
      offs: [],
      skills: scaled(there > off ? there / (there - off) : 1, person),
      lateChance: 0,
    };
  });
  return {
    ...shift,
    people,
    carryOver: [],
    holds: [],
    tidyUp: 0,
    intake: { kind: 'at start', units: PLENTY, late: 0, whenFull: 'hold' },
  };
}

/** No loops and no scrap: every step takes what a good piece needs there on the whole. */
function asMeans(shift: ResolvedShift, whole: ResolvedShift): ResolvedShift {
  const lines = new Map(
    spreadsheetNumber(whole)
      .lines.filter((line) => line.kind === 'step')
      .map((line) => [line.id, line.perUnit]),
  );
  const shares = whole.products.reduce((sum, product) => sum + product.share, 0) || 1;
  const firstVisit = (step: ResolvedStep): number =>
    whole.products.reduce((sum, product) => {
      if (product.skips.includes(step.id)) return sum;
      const { time, factor } = product.tasks[step.id]!;
      const mean = compileTime(time).mean;
      return sum + (product.share / shares) * mean * factor * whole.allowance * step.people;
    }, 0);
  const steps = shift.steps.map((step) => ({ ...step, rework: [], scrap: 0 }));
  const products = shift.products.map((product) => {
    const tasks = { ...product.tasks };
    for (const step of whole.steps) {
      const [needed, once] = [lines.get(step.id), firstVisit(step)];
      if (needed === undefined || !(once > 0)) continue;
      const task = tasks[step.id]!;
      tasks[step.id] = { ...task, factor: task.factor * (needed / once) };
    }
    return { ...product, tasks };
  });
  return { ...shift, steps, products };
}

/**
 * The rest of a shift as a scenario of its own, that begins at the minute of the count with what was counted
 * in.
 */
import { clockOfMinutes, minutesAfter, minutesOfClock } from '../scenario/clock.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Hold, Intake, Person, Scenario, Shift, Step } from '../scenario/schema.ts';
import { goodSoFar, type NowState } from './state.ts';

/**
 * What is left of the first shift of a checked scenario at `now`. Clock times stay what they were; what is
 * over is left out; a break under way has its rest; arrivals that were due by now are in the count already.
 * What is overdue is due at once. The target is what is still missing. Throws RangeError for a time outside
 * the shift.
 */
export function remainder(scenario: Scenario, now: NowState): Scenario {
  const shift = scenario.shift ?? {};
  const start = shift.start ?? '06:00';
  const elapsed = minutesAfter(start, now.at);
  const { length } = resolve(scenario);
  if (elapsed >= length)
    throw new RangeError(
      `${now.at} is not within the shift, which starts at ${start} and lasts ${length} minutes`,
    );
  const { nextShifts: _later, options: _options, ...rest } = scenario;
  const after = (clock: string): number => minutesAfter(start, clock);
  const people = Object.fromEntries(
    Object.entries(scenario.people).map(([id, person]) => [
      id,
      personFrom(person, shift, elapsed, after, presence(id, person, scenario, now)),
    ]),
  );
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => [id, stepFrom(step, elapsed, after)]),
  );
  const latest = latestMinute(shift, length);
  const intake = intakeFrom(scenario, elapsed, latest);
  const over = overHolds(scenario, elapsed, after, latest);
  return {
    ...rest,
    ...(over.length > 0 && scenario.products === undefined ? { products: ONE_PRODUCT } : {}),
    people,
    steps,
    gear: gearFrom(scenario, now, elapsed, after),
    shift: shiftFrom(shift, now, elapsed, after),
    intake,
    carryOver: now.inside.map((piece) =>
      piece.due !== undefined && after(piece.due) < elapsed ? { ...piece, due: now.at } : piece,
    ),
    holds: [...holdsFrom(now, after, elapsed, intake), ...over],
  };
}

/** When the day is over at the latest, overtime in. */
function latestMinute({ overtime }: Shift, length: number): number {
  return length + (overtime?.until === undefined || overtime.until === 'none' ? 0 : (overtime.cap ?? 60));
}

/**
 * Holds that still run, on pieces that are still there or to come: several of one name are numbered once they
 * are in the cell.
 */
function holdsFrom(now: NowState, after: After, elapsed: number, intake: Intake): Hold[] {
  const names = new Set(
    [...now.inside, ...(intake.kind === 'list' ? intake.arrivals : [])].map((one) => one.name ?? ''),
  );
  return now.holds
    .filter((hold) => after(hold.until) > elapsed)
    .flatMap((hold) => {
      if (hold.units === undefined) return [hold];
      const units = hold.units.flatMap((name) =>
        [...names].filter(
          (one) => one === name || (one.startsWith(`${name} `) && /^\d+$/.test(one.slice(name.length + 1))),
        ),
      );
      return units.length > 0 ? [{ ...hold, units }] : [];
    });
}

type After = (clock: string) => number;
type Breaks = NonNullable<Shift['breaks']>;

function breaksFrom(breaks: Breaks | undefined, elapsed: number, after: After, now: string): Breaks {
  return (breaks ?? []).flatMap((one) => {
    const from = after(one.from);
    const end = from + one.minutes;
    if (end <= elapsed) return [];
    return [from >= elapsed ? one : { ...one, from: now, minutes: end - elapsed }];
  });
}

function shiftFrom(shift: Shift, now: NowState, elapsed: number, after: After): Shift {
  const made: Shift = {
    ...shift,
    start: now.at,
    end: shift.end ?? '14:30',
    breaks: breaksFrom(shift.breaks, elapsed, after, now.at),
  };
  if (shift.target === undefined || shift.target === null) return made;
  made.target = Math.max(0, shift.target - goodSoFar(now));
  // Nobody is kept for a number that is made.
  if (made.target === 0 && shift.overtime?.until === 'target')
    made.overtime = { ...shift.overtime, until: 'none' };
  return made;
}

/** Here; past their own end and here for so many minutes of the shift more; or gone. */
type Presence = { kind: 'here' } | { kind: 'staying on'; until: number } | { kind: 'gone' };

/** Somebody past their own end is still here while their overtime lasts, or with a piece in hand. */
function presence(id: string, person: Person, scenario: Scenario, now: NowState): Presence {
  if (now.out.includes(id)) return { kind: 'gone' };
  const start = scenario.shift?.start ?? '06:00';
  const elapsed = minutesAfter(start, now.at);
  const end = person.to === undefined ? Infinity : minutesAfter(start, person.to) || 1440;
  if (end > elapsed) return { kind: 'here' };
  const overtime = scenario.shift?.overtime;
  const asked =
    person.overtime !== false &&
    (overtime?.until ?? 'none') !== 'none' &&
    (overtime?.who?.includes(id) ?? true);
  const until = asked ? end + (overtime?.cap ?? 60) : end;
  if (until > elapsed) return { kind: 'staying on', until };
  return now.inside.some((piece) => piece.state === 'in hand' && piece.person === id)
    ? { kind: 'staying on', until: elapsed + 1 }
    : { kind: 'gone' };
}

function personFrom(person: Person, shift: Shift, elapsed: number, after: After, present: Presence): Person {
  const { from, changes, attendance, ...rest } = person;
  const made: Person = { ...rest };
  const now = clockOfMinutes(minutesOfClock(shift.start ?? '06:00') + elapsed);
  const began = from === undefined ? 0 : after(from);
  if (began > elapsed && from !== undefined) made.from = from;
  if (present.kind === 'gone') {
    made.attendance = { percent: 0 };
    delete made.to;
  } else if (present.kind === 'staying on') {
    // Their own end is over; the end of their overtime is their end now, and no more comes after it.
    made.to = clockOfMinutes(minutesOfClock(shift.start ?? '06:00') + present.until);
    made.overtime = false;
  } else if (began > elapsed && attendance !== undefined) {
    made.attendance = attendance;
  }
  const due = (changes ?? [])
    .filter((change) => after(change.from) <= elapsed)
    .sort((a, b) => after(a.from) - after(b.from));
  const current = due.at(-1);
  if (current !== undefined) made.covers = current.covers;
  const later = (changes ?? []).filter((change) => after(change.from) > elapsed);
  if (later.length > 0) made.changes = later;
  if (person.breaks !== undefined) made.breaks = breaksFrom(person.breaks, elapsed, after, now);
  const away = (person.away ?? [])
    .filter((one) => after(one.from) + minutesAfter(one.from, one.to) > elapsed)
    .map((one) => (after(one.from) >= elapsed ? one : { ...one, from: now }));
  if (person.away !== undefined) made.away = away;
  // Hours worked so far today count towards the week.
  const worked = Math.max(0, elapsed - began);
  if (present.kind !== 'gone') made.hoursThisWeek = (person.hoursThisWeek ?? 0) + worked / 60;
  return made;
}

function stepFrom(step: Step, elapsed: number, after: After): Step {
  if (step.lastStart === undefined || after(step.lastStart) >= elapsed) return step;
  const { lastStart: _over, ...rest } = step;
  return rest;
}

/** A hold is on products or named pieces: where the file names no product, the one there is gets a name. */
const ONE_PRODUCT: NonNullable<Scenario['products']> = { piece: {} };

/**
 * Where the last start is over nothing is begun any more: all stands aside before the step to the end (a file
 * wants its last minute at most).
 */
function overHolds(scenario: Scenario, elapsed: number, after: After, latest: number): Hold[] {
  if (latest - 1 <= elapsed) return [];
  const until = clockOfMinutes(minutesOfClock(scenario.shift?.start ?? '06:00') + latest - 1);
  const over = Object.entries(scenario.steps)
    .filter(([, step]) => step.lastStart !== undefined && after(step.lastStart) < elapsed)
    .map(([id]) => id);
  const products = Object.entries(scenario.products ?? ONE_PRODUCT);
  return over.flatMap((before) =>
    products
      .filter(([, one]) => one.skips?.includes(before) !== true)
      .map(([product]) => ({ before, until, product })),
  );
}

function gearFrom(
  scenario: Scenario,
  now: NowState,
  elapsed: number,
  after: After,
): Record<string, NonNullable<Scenario['gear']>[string]> {
  return Object.fromEntries(
    Object.entries(scenario.gear ?? {}).map(([id, gear]) => {
      const planned = (gear.out ?? []).filter((one) => after(one.from) >= elapsed);
      const broken = now.broken
        .filter((one) => one.gear === id && one.minutes > 0)
        .map((one) => ({ from: now.at, minutes: one.minutes, items: one.items }));
      const { out: _out, ...rest } = gear;
      return [id, planned.length + broken.length > 0 ? { ...rest, out: [...broken, ...planned] } : rest];
    }),
  );
}

/** Arrivals that are still to come. A random intake goes on as it was; what came at the start has come. */
function intakeFrom(scenario: Scenario, elapsed: number, latest: number): Intake {
  const intake = scenario.intake ?? { kind: 'at start', units: 60 };
  const start = scenario.shift?.start ?? '06:00';
  const late = intake.late ?? 0;
  const full = intake.whenFull === undefined ? {} : { whenFull: intake.whenFull };
  const clockAt = (minute: number): string => clockOfMinutes(minutesOfClock(start) + minute);
  if (intake.kind === 'list') {
    const arrivals = intake.arrivals
      .map((one) => ({ one, at: minutesAfter(start, one.at) + late }))
      .filter(({ at }) => at > elapsed && at < latest)
      .map(({ one, at }) => ({ ...one, at: clockAt(at) }));
    return { kind: 'list', arrivals, ...full };
  }
  if (intake.kind === 'beat') {
    const came = elapsed < late ? 0 : Math.floor((elapsed - late) / intake.every + 1e-9) + 1;
    const units = intake.units === undefined ? {} : { units: Math.max(0, intake.units - came) };
    return { ...intake, ...units, late: late + came * intake.every - elapsed };
  }
  if (intake.kind === 'random') return { ...intake, late: Math.max(0, late - elapsed) };
  if (intake.kind === 'at start')
    return late > elapsed ? { ...intake, late: late - elapsed } : { ...intake, units: 0, late: 0 };
  return { ...intake, late: 0 };
}

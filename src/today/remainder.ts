/**
 * The rest of a shift as a scenario of its own, that begins at the minute of the count with what was counted
 * in.
 */
import { withLaterRules } from '../scenario/step-rules.ts';
import { clockAfter, minutesAfter } from '../scenario/clock.ts';
import { DEFAULTS } from '../scenario/defaults.ts';
import { intakeOf, resolve, type ResolvedPerson, type ResolvedShift } from '../scenario/resolve.ts';
import type { Gear, Hold, Intake, Person, Scenario, Shift, Step } from '../scenario/schema.ts';
import { holdsOnKnown } from './holds-on-known.ts';
import { outRackFrom } from './out-racks.ts';
import { dueApart } from './piece-due.ts';
import { goodSoFar, type NowState } from './state.ts';

/**
 * What is left of the first shift of a checked scenario at `now`. Clock times stay what they were; what is
 * over is left out; a break under way has its rest; arrivals that were due by now are in the count already.
 * What is overdue stays so by its minutes. The target is what is still missing. After the end it is the rest
 * of the overtime, or a last minute in which nothing is done any more. Throws RangeError for a time long
 * outside the shift.
 */
export function remainder(scenario: Scenario, now: NowState): Scenario {
  const shift = resolve(scenario);
  const { start, length } = shift;
  const elapsed = minutesAfter(start, now.at);
  if (elapsed >= latestMinute(shift) + PAST_END)
    throw new RangeError(
      `${now.at} is not within the shift, which starts at ${start} and lasts ${length} minutes`,
    );
  const { nextShifts: _later, options: _options, ...rest } = scenario;
  const after = (clock: string): number => minutesAfter(start, clock);
  const people = Object.fromEntries(
    shift.people.map((person) => [
      person.id,
      personFrom(scenario.people[person.id]!, person, shift, elapsed, presence(person, shift, elapsed, now)),
    ]),
  );
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => [id, stepFrom(step, elapsed, after)]),
  );
  const latest = latestMinute(shift);
  const intake = intakeFrom(scenario, shift, elapsed, latest);
  const over = overHolds(shift, elapsed, latest);
  return {
    ...rest,
    ...(over.length > 0 && scenario.products === undefined
      ? { products: { [DEFAULTS.product.id]: {} } }
      : {}),
    people,
    steps,
    gear: gearFrom(scenario, shift, now, elapsed),
    shift: shiftFrom({ ...scenario.shift }, shift, now, elapsed),
    intake,
    carryOver: now.inside.map((counted) => {
      const { piece, due } = dueApart(counted, shift, elapsed);
      return due === null ? piece : { ...piece, dueIn: due - elapsed };
    }),
    holds: [...holdsFrom(now, after, elapsed, intake), ...over],
    ...outRackFrom(scenario, now.outRack),
  };
}

/** A count so long after everybody has gone is of another day, or mistyped; minutes. */
const PAST_END = 240;

/** When the day is over at the latest, overtime in. */
function latestMinute({ overtime, length }: ResolvedShift): number {
  return length + (overtime.until === 'none' ? 0 : overtime.cap);
}

/** Holds that still run, on pieces that are still there or to come. */
const holdsFrom = (now: NowState, after: After, elapsed: number, intake: Intake): Hold[] =>
  holdsOnKnown(
    now.holds.filter((hold) => after(hold.until) > elapsed),
    now.inside,
    intake,
  );

type After = (clock: string) => number;
type Breaks = NonNullable<Shift['breaks']>;

function breaksFrom(breaks: Breaks | undefined, elapsed: number, { start }: ResolvedShift): Breaks {
  const now = clockAfter(start, elapsed);
  const left = breaks?.flatMap((one) => {
    const from = minutesAfter(start, one.from);
    const end = from + one.minutes;
    if (end <= elapsed) return [];
    return [from >= elapsed ? one : { ...one, from: now, minutes: end - elapsed }];
  });
  return left ?? [];
}

/** The end of what is left, minutes from the shift's start. */
export const restEnds = (shift: ResolvedShift, elapsed: number): number =>
  elapsed < shift.length ? shift.length : Math.max(latestMinute(shift), elapsed + 1);

function shiftFrom(written: Shift, shift: ResolvedShift, now: NowState, elapsed: number): Shift {
  const over = elapsed >= shift.length;
  const made: Shift = {
    ...written,
    start: now.at,
    end: clockAfter(shift.start, restEnds(shift, elapsed)),
    breaks: breaksFrom(written.breaks, elapsed, shift),
    // What is left of a day that is over is its overtime: no tidying up before it, and no more behind it.
    ...(over ? { tidyUp: 0, overtime: { until: 'none' } } : {}),
  };
  if (shift.target === null) return made;
  made.target = Math.max(0, shift.target - goodSoFar(now));
  // Nobody is kept for a number that is made.
  if (made.target === 0 && shift.overtime.until === 'target')
    made.overtime = { ...written.overtime, until: 'none' };
  return made;
}

/** Here; past their own end and here for so many minutes of the shift more; or gone. */
type Presence = { kind: 'here' } | { kind: 'staying on'; until: number } | { kind: 'gone' };

/** Somebody past their own end is still here while their overtime lasts, or with a piece in hand. */
function presence(
  person: ResolvedPerson,
  { overtime }: ResolvedShift,
  elapsed: number,
  now: NowState,
): Presence {
  if (now.out.includes(person.id)) return { kind: 'gone' };
  if (person.to > elapsed) return { kind: 'here' };
  const asked =
    person.overtime &&
    overtime.until !== 'none' &&
    (overtime.who === null || overtime.who.includes(person.id));
  const until = asked ? person.to + overtime.cap : person.to;
  if (until > elapsed) return { kind: 'staying on', until };
  return now.inside.some((piece) => piece.state === 'in hand' && piece.person === person.id)
    ? { kind: 'staying on', until: elapsed + 1 }
    : { kind: 'gone' };
}

/** @param known the same person, resolved. */
function personFrom(
  person: Person,
  known: ResolvedPerson,
  shift: ResolvedShift,
  elapsed: number,
  present: Presence,
): Person {
  const { from, changes: _changes, attendance, ...rest } = person;
  const made: Person = { ...rest };
  const clock = (minute: number): string => clockAfter(shift.start, minute);
  if (known.from > elapsed && from !== undefined) made.from = from;
  if (present.kind === 'gone') {
    made.attendance = { percent: 0 };
    delete made.to;
  } else if (present.kind === 'staying on') {
    // Their own end is over; the end of their overtime is their end now, and no more comes after it.
    made.to = clock(present.until);
    made.overtime = false;
  } else if (known.from > elapsed && attendance !== undefined) {
    made.attendance = attendance;
  }
  const due = known.cover.filter((cover) => cover.from <= elapsed);
  if (due.length > 1) made.covers = due.at(-1)!.steps;
  const later = known.cover.filter((cover) => cover.from > elapsed);
  if (later.length > 0) made.changes = later.map((one) => ({ from: clock(one.from), covers: one.steps }));
  if (person.breaks !== undefined) made.breaks = breaksFrom(person.breaks, elapsed, shift);
  if (person.away !== undefined) made.away = awayFrom(person.away, elapsed, shift);
  // Hours worked so far today count towards the week.
  const worked = Math.max(0, elapsed - known.from);
  if (present.kind !== 'gone') made.hoursThisWeek = known.hoursThisWeek + worked / 60;
  return made;
}

function awayFrom(
  away: NonNullable<Person['away']>,
  elapsed: number,
  { start }: ResolvedShift,
): NonNullable<Person['away']> {
  const after = (clock: string): number => minutesAfter(start, clock);
  return away
    .filter((one) => after(one.from) + minutesAfter(one.from, one.to) > elapsed)
    .map((one) => (after(one.from) >= elapsed ? one : { ...one, from: clockAfter(start, elapsed) }));
}

function stepFrom(step: Step, elapsed: number, after: After): Step {
  return withLaterRules(step, (clock) => after(clock) < elapsed);
}

/**
 * Where a step is not begun just now, all stands aside before it for as long (a file wants the last minute of
 * the shift at most). A hold is on products or named pieces: where the file names no product, the
 * one there is gets a name.
 */
function overHolds(shift: ResolvedShift, elapsed: number, latest: number): Hold[] {
  if (latest - 1 <= elapsed) return [];
  return shift.steps.flatMap(({ id: before, shut }) => {
    const now = shut.find(({ after, until }) => after < elapsed && until > elapsed);
    if (now === undefined) return [];
    const until = clockAfter(shift.start, Math.min(now.until, latest - 1));
    return shift.products
      .filter((product) => !product.skips.includes(before))
      .map((product) => ({ before, until, product: product.id }));
  });
}

function gearFrom(
  scenario: Scenario,
  shift: ResolvedShift,
  now: NowState,
  elapsed: number,
): Record<string, Gear> {
  const listed = shift.gear.filter((kind) => kind.kind === 'gear');
  return Object.fromEntries(
    listed.map(({ id, out }) => {
      const { out: written, ...rest } = scenario.gear![id]!;
      const planned = written?.filter((_, i) => out[i]!.from > elapsed) ?? [];
      // Where the count says nothing of the kind, a planned time that is under way goes on.
      const underWay = out
        .filter(({ from }) => from <= elapsed)
        .map(({ from, minutes, items }) => ({ gear: id, items, minutes: from + minutes - elapsed }));
      const counted = now.broken.filter((one) => one.gear === id);
      const broken = (counted.length > 0 ? counted : underWay)
        .filter((one) => one.minutes > 0)
        .map((one) => ({ from: now.at, minutes: one.minutes, items: one.items }));
      return [id, planned.length + broken.length > 0 ? { ...rest, out: [...broken, ...planned] } : rest];
    }),
  );
}

/** Arrivals that are still to come. A random intake goes on as it was; what came at the start has come. */
function intakeFrom(scenario: Scenario, shift: ResolvedShift, elapsed: number, latest: number): Intake {
  const intake = intakeOf(scenario);
  const { start } = shift;
  const { late } = shift.intake;
  const full = {
    ...(intake.whenFull === undefined ? {} : { whenFull: intake.whenFull }),
    ...(intake.dueAfter === undefined ? {} : { dueAfter: intake.dueAfter }),
  };
  if (intake.kind === 'list') {
    const arrivals = intake.arrivals
      .map((one) => ({ one, at: minutesAfter(start, one.at) + late }))
      .filter(({ at }) => at > elapsed && at < latest)
      .map(({ one, at }) => ({ ...one, at: clockAfter(start, at) }));
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

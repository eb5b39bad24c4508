/** Units: how they come, and what is in the cell at the start. */
import { minutesAfter } from '../clock.ts';
import { DEFAULTS } from '../defaults.ts';
import type { ResolvedCarried, ResolvedHold, ResolvedIntake, ResolvedShift } from '../resolved.ts';
import type { CarryOver, Hold, Intake, Scenario } from '../schema.ts';

type After = (clock: string) => number;
type Arrival = Extract<Intake, { kind: 'list' }>['arrivals'][number];

/** The file's intake; without one, some units at the start. */
export const intakeOf = (scenario: Scenario): Intake => scenario.intake ?? { ...DEFAULTS.intake };

export function resolveIntake(intake: Intake, after: After): ResolvedIntake {
  const common = {
    late: intake.late ?? DEFAULTS.intake.late,
    whenFull: intake.whenFull ?? DEFAULTS.intake.whenFull,
    dueAfter: intake.dueAfter ?? DEFAULTS.arrival.dueAfter,
  };
  switch (intake.kind) {
    case 'at start':
      return { kind: intake.kind, units: intake.units, ...common };
    case 'beat':
      return { kind: intake.kind, every: intake.every, units: intake.units ?? null, ...common };
    case 'random':
      return { kind: intake.kind, gap: intake.gap, units: intake.units ?? null, ...common };
    case 'constant':
      return { kind: intake.kind, inside: intake.inside, ...common };
    case 'list':
      return {
        kind: intake.kind,
        arrivals: intake.arrivals.map((one) => ({
          at: after(one.at),
          units: one.units ?? DEFAULTS.arrival.units,
          product: one.product ?? null,
          due: dueOf(one, common, after),
          rush: one.rush ?? false,
          name: one.name ?? null,
        })),
        ...common,
      };
  }
}

/** Minutes from the start of the shift; null: not due at any time. */
function dueOf(
  { at, due, dueAfter }: Arrival,
  usual: Pick<ResolvedIntake, 'late' | 'dueAfter'>,
  after: After,
): number | null {
  if (due !== undefined) return after(due);
  const within = dueAfter ?? usual.dueAfter;
  return within === null ? null : after(at) + usual.late + within;
}

export const resolveCarried = (unit: CarryOver, after: After): ResolvedCarried => ({
  at: unit.at,
  state: unit.state ?? DEFAULTS.carried.state,
  units: unit.units ?? DEFAULTS.carried.units,
  product: unit.product ?? null,
  minutes: unit.minutes ?? null,
  person: unit.person ?? null,
  gear: unit.gear ?? null,
  visits: unit.visits ?? null,
  to: unit.to ?? null,
  arrived: unit.arrived ?? DEFAULTS.carried.arrived,
  waited: unit.waited ?? DEFAULTS.carried.waited,
  due: carriedDue(unit, after),
  rush: unit.rush ?? false,
  name: unit.name ?? null,
});

function carriedDue({ due, dueIn, dueAfter, arrived }: CarryOver, after: After): number | null {
  if (dueAfter !== undefined) return dueAfter - (arrived ?? DEFAULTS.carried.arrived);
  return dueIn ?? (due === undefined ? null : after(due));
}

/** The same for a piece counted in during a shift. */
export const carriedOf = (shift: Pick<ResolvedShift, 'start'>, unit: CarryOver): ResolvedCarried =>
  resolveCarried(unit, (clock) => minutesAfter(shift.start, clock));

/** The same for a hold. */
export const holdOf = (shift: Pick<ResolvedShift, 'start'>, hold: Hold): ResolvedHold =>
  resolveHold(hold, (clock) => minutesAfter(shift.start, clock));

export const resolveHold = (hold: Hold, after: After): ResolvedHold => ({
  before: hold.before,
  until: after(hold.until),
  product: hold.product ?? null,
  units: hold.units ?? null,
  whose: hold.whose ?? '',
});

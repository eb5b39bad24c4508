/**
 * What a record of a day says was different from the plan: how kits came, who was there, the times, what came
 * back.
 */
import { clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Intake, Scenario } from '../scenario/schema.ts';
import type { EventRow } from '../record/event-row.ts';
import type { DayAsItWas } from './why-missed.ts';

const MINUTE = 60_000;

/** Later than this is late. */
const LATE = 1;

/**
 * Read off a record of the first shift. Paces are not in it: they come from the times of the record
 * (src/timing). What the record has no event of (nobody wrote down who came, say) counts as planned.
 */
export function dayOfEvents(scenario: Scenario, events: readonly EventRow[]): DayAsItWas {
  const good = events.filter((one) => one.event === 'good').length;
  return { good, ...kitsOf(scenario, events), ...peopleOf(scenario, events), ...reworkOf(scenario, events) };
}

function kitsOf(scenario: Scenario, events: readonly EventRow[]): Pick<DayAsItWas, 'intake'> {
  const shift = resolve(scenario);
  // What was carried over arrives at 0 in a record and is not told again: it is in the file.
  const carried = new Set(shift.carryOver.flatMap((one) => (one.name === null ? [] : [one.name])));
  const nameless = shift.carryOver
    .filter((one) => one.name === null)
    .reduce((sum, one) => sum + one.units, 0);
  const ofFile = (unit: string): boolean => carried.has(unit) || carried.has(unit.replace(/ \d+$/, ''));
  const came = events.filter((one) => one.event === 'arrives' && !ofFile(one.unit));
  const arrived = came.slice(Math.min(nameless, came.filter((one) => one.time <= 0).length));
  if (arrived.length === 0) return {};
  const start = minutesOfClock(shift.start);
  type Arrival = Extract<Intake, { kind: 'list' }>['arrivals'][number];
  const { products } = scenario;
  const arrivals: (Arrival & { units: number })[] = [];
  for (const { time, product } of arrived) {
    const at = clockOfMinutes(start + Math.max(0, Math.round(time / MINUTE)));
    const known = products !== undefined && Object.hasOwn(products, product) ? product : undefined;
    const last = arrivals.at(-1);
    if (last?.at === at && last.product === known) last.units += 1;
    else arrivals.push({ at, units: 1, ...(known === undefined ? {} : { product: known }) });
  }
  const full = scenario.intake?.whenFull === undefined ? {} : { whenFull: scenario.intake.whenFull };
  return { intake: { kind: 'list', arrivals, ...full } };
}

function peopleOf(scenario: Scenario, events: readonly EventRow[]): Pick<DayAsItWas, 'out' | 'late'> {
  const came = new Map<string, number>();
  for (const one of events)
    if (one.event === 'comes' && !came.has(one.person)) came.set(one.person, one.time / MINUTE);
  if (came.size === 0) return {};
  const people = resolve(scenario).people;
  const late = people.flatMap(({ id, from }) => {
    const minutes = (came.get(id) ?? from) - from;
    return minutes > LATE ? [[id, minutes] as const] : [];
  });
  return {
    out: people.filter(({ id }) => !came.has(id)).map(({ id }) => id),
    late: Object.fromEntries(late),
  };
}

/** By step: how many ended, how many went back where the file's rework goes, how many were scrapped. */
function reworkOf(scenario: Scenario, events: readonly EventRow[]): Pick<DayAsItWas, 'rework'> {
  const rework: NonNullable<DayAsItWas['rework']> = {};
  for (const [id, step] of Object.entries(scenario.steps)) {
    const here = events.filter((one) => one.step === id);
    const of = here.filter((one) => one.event === 'ends' || one.event === 'cure ends').length;
    if (of === 0) continue;
    const back =
      step.rework?.map(
        ({ to, cause }) =>
          here.filter((one) => {
            if (one.event !== 'rework') return false;
            const [went, why] = one.detail.split(': ');
            return went === to && (cause === undefined || why === undefined || why === cause);
          }).length,
      ) ?? [];
    rework[id] = { back, scrapped: here.filter((one) => one.event === 'scrap').length, of };
  }
  return { rework };
}

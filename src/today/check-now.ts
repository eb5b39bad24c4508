/** Is this count of the cell possible? What the scenario's own check finds is said of the count. */
import { z } from '../zod.ts';
import { checkScenario } from '../scenario/check.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { carrySchema, holdSchema } from '../scenario/schema/shift.ts';
import { remainder } from './remainder.ts';
import type { NowState } from './state.ts';
import { inOneOrder } from './told-count.ts';
import { minutesToNextStart, tomorrow } from './tomorrow.ts';

const count = z.number().min(0).max(100_000);

export const nowSchema = z.strictObject({
  at: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a clock time as HH:MM, for example 10:40'),
  goodByHour: z.array(count).max(48).default([]),
  good: count.optional(),
  inside: z.array(carrySchema).max(10_000).default([]),
  holds: z.array(holdSchema).max(1000).default([]),
  out: z.array(z.string()).max(60).default([]),
  broken: z
    .array(z.strictObject({ gear: z.string(), items: z.int().min(1).max(1000), minutes: count }))
    .max(1000)
    .default([]),
  outRack: z.strictObject({ standing: count, away: z.array(count).max(1000) }).optional(),
});

/**
 * The steps and people of a sound file are sound; what a short rest of the day makes of them (no whole piece
 * fits any more, somebody's posts are all over) is how things are, and no mistake of the count.
 */
const OF_THE_HOUR = new Set(['steps', 'people']);

type Counted = { kind: 'fine'; now: NowState; rest: Scenario } | { kind: 'wrong'; faults: string[] };

/**
 * The count within the shift, and the rest of the shift as a scenario; or sentences that say what is wrong
 * with it.
 */
export const checkNow = (scenario: Scenario, value: unknown): Counted => check(scenario, value, remainder);

/**
 * The count at any time, its end and after included, and tomorrow's scenario with it as the opening stock.
 */
export const checkHandover = (scenario: Scenario, value: unknown): Counted =>
  check(scenario, value, (today, now) => tomorrow(today, now, minutesToNextStart(today, now)));

/** The count of an earlier shift, and the scenario it opens `between` minutes later. */
export const checkOpening = (scenario: Scenario, value: unknown, between: number): Counted =>
  check(scenario, value, (before, now) => tomorrow(before, now, between));

function check(
  scenario: Scenario,
  value: unknown,
  next: (scenario: Scenario, now: NowState) => Scenario,
): Counted {
  const read = nowSchema.safeParse(value);
  if (!read.success)
    return {
      kind: 'wrong',
      faults: read.error.issues
        .slice(0, 20)
        .map((issue) => `${issue.path.join('.') || 'the count'}: ${issue.message}`),
    };
  const given: NowState = read.data;
  const unknown = [
    ...unknownPeople(scenario, given),
    ...unknownSteps(scenario, given),
    ...unknownGear(scenario, given),
  ];
  if (unknown.length > 0) return { kind: 'wrong', faults: unknown };
  const now = inOneOrder(scenario, given);
  try {
    const rest = next(scenario, now);
    const reading = checkScenario(rest);
    const faults =
      reading.kind === 'fine'
        ? []
        : reading.faults.filter((fault) => !OF_THE_HOUR.has(String(fault.place[0])));
    return faults.length === 0
      ? { kind: 'fine', now, rest }
      : { kind: 'wrong', faults: faults.map((fault) => fault.text) };
  } catch (error) {
    if (error instanceof RangeError) return { kind: 'wrong', faults: [error.message] };
    throw error;
  }
}

function unknownPeople(scenario: Scenario, now: NowState): string[] {
  return now.out
    .filter((id) => !Object.hasOwn(scenario.people, id))
    .map((id) => `out: nobody is called "${id}"; there are ${Object.keys(scenario.people).join(', ')}`);
}

function unknownSteps(scenario: Scenario, now: NowState): string[] {
  const steps = Object.keys(scenario.steps);
  return [...new Set(now.inside.map((piece) => piece.at))]
    .filter((at) => !steps.includes(at))
    .map((at) => `inside: no step is called "${at}"; there are ${steps.join(', ')}`);
}

function unknownGear(scenario: Scenario, now: NowState): string[] {
  const gear = resolve(scenario).gear.filter((one) => one.kind === 'gear');
  return now.broken.flatMap((one) => {
    const kind = gear.find(({ id }) => id === one.gear);
    if (kind === undefined)
      return [
        `broken: there is no gear "${one.gear}"; there is ${gear.map(({ id }) => id).join(', ') || 'none'}`,
      ];
    return one.items > kind.count
      ? [`broken: ${one.items} of "${one.gear}" are out of order and there are only ${kind.count}`]
      : [];
  });
}

/** Is this count of the cell possible? What the scenario's own check finds is said of the count. */
import { z } from 'zod';
import { checkScenario } from '../../scenario/check.ts';
import { carrySchema, holdSchema, type Scenario } from '../../scenario/schema.ts';
import { remainder } from './remainder.ts';
import type { NowState } from './state.ts';

const count = z.number().min(0).max(100_000);

export const nowSchema = z.strictObject({
  at: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a clock time as HH:MM, for example 10:40'),
  goodByHour: z.array(count).max(48).default([]),
  good: count.optional(),
  inside: z.array(carrySchema).max(10_000).default([]),
  holds: z.array(holdSchema).max(1000).default([]),
  out: z.array(z.string()).max(60).default([]),
  broken: z.array(z.strictObject({ gear: z.string(), items: z.int().min(1).max(1000), minutes: count })).max(1000).default([]),
});

/** The count, or sentences that say what is wrong with it. */
export function checkNow(scenario: Scenario, value: unknown): { kind: 'fine'; now: NowState; rest: Scenario } | { kind: 'wrong'; faults: string[] } {
  const read = nowSchema.safeParse(value);
  if (!read.success) return { kind: 'wrong', faults: read.error.issues.slice(0, 20).map((issue) => `${issue.path.join('.') || 'the count'}: ${issue.message}`) };
  const now: NowState = read.data;
  const faults = [
    ...now.out.filter((id) => !Object.hasOwn(scenario.people, id)).map((id) => `out: nobody is called "${id}"; there are ${Object.keys(scenario.people).join(', ')}`),
    ...now.broken.filter((one) => !Object.hasOwn(scenario.gear ?? {}, one.gear)).map((one) => `broken: there is no gear "${one.gear}"; there is ${Object.keys(scenario.gear ?? {}).join(', ') || 'none'}`),
  ];
  if (faults.length > 0) return { kind: 'wrong', faults };
  try {
    const rest = remainder(scenario, now);
    const reading = checkScenario(rest);
    return reading.kind === 'fine' ? { kind: 'fine', now, rest } : { kind: 'wrong', faults: reading.faults.map((fault) => fault.text) };
  } catch (error) {
    return { kind: 'wrong', faults: [error instanceof Error ? error.message : String(error)] };
  }
}

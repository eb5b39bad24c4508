/** What a lead says of the day to plan: kept in this browser by cell, and made the question of a plan. */
import { z } from '../../../src/zod.ts';
import type { Attendance, CrewQuestion } from '../../../src/staffing/question.ts';
import { promiseShare } from '../../../src/study/from-scenario.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { Own } from '../../store/own.ts';

const attendance = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('in') }),
  z.object({ kind: z.literal('out') }),
  z.object({ kind: z.literal('late'), minutes: z.number().min(0).max(1440) }),
  z.object({ kind: z.literal('perhaps'), chance: z.number().min(0).max(1) }),
]);
const askedSchema = z.object({
  attendance: z.record(z.string(), attendance),
  target: z.number().int().min(0).max(100_000).nullable(),
  overtime: z.number().min(0).max(1440),
  confidence: z.number().min(1).max(99),
  changes: z.union([z.literal(0), z.literal(1), z.literal(2)]),
  breaks: z.boolean(),
  /** What this browser kept before there was a choice has no word of it. */
  cheapest: z.boolean().default(false),
  /** Whose attendance it is: on another day others are in. */
  day: z.string().optional(),
});
export type Asked = z.infer<typeof askedSchema>;

const kept = new Own<Asked>({
  key: 'clampwright-crew',
  name: 'who is in tomorrow',
  read: (value) => {
    const read = askedSchema.safeParse(value);
    return read.success ? read.data : null;
  },
});

/** What was asked last; who is in is forgotten where it was said of another day. */
export function askedFor(cell: string, scenario: Scenario, day: string): Asked {
  const before = kept.get(cell);
  if (before !== null)
    return before.day === undefined || before.day === day ? before : { ...before, attendance: {}, day };
  const { target, overtime } = shiftOf(scenario);
  const cap = overtime.until === 'none' ? 0 : overtime.cap;
  return {
    attendance: {},
    target,
    overtime: cap,
    confidence: Math.round(promiseShare(scenario) * 100),
    changes: 1,
    breaks: true,
    cheapest: false,
    day,
  };
}

/** False where this browser keeps nothing. */
export const keepAsked = (cell: string, asked: Asked): boolean => kept.set(cell, asked) !== null;

export function questionOf(scenario: Scenario, asked: Asked): CrewQuestion {
  const known = Object.entries(asked.attendance).filter(([id]) => Object.hasOwn(scenario.people, id)) as [
    string,
    Attendance,
  ][];
  return {
    scenario,
    attendance: Object.fromEntries(known),
    target: asked.target,
    overtime: asked.overtime > 0 ? { cap: asked.overtime } : null,
    confidence: asked.confidence / 100,
    cheapest: asked.cheapest,
    vary: { changes: asked.changes, breaks: asked.breaks },
  };
}

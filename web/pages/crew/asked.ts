/**
 * What a lead says of tomorrow: kept in this browser by cell, and turned into the question a plan answers.
 */
import { z } from '../../../src/zod.ts';
import type { Attendance, CrewQuestion } from '../../../src/staffing/question.ts';
import { promiseShare } from '../../../src/study/from-scenario.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';

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
});
export type Asked = z.infer<typeof askedSchema>;

const KEY = 'clampwright-crew';

export function askedFor(cell: string, scenario: Scenario): Asked {
  try {
    const all = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    const read = askedSchema.safeParse(all[cell]);
    if (read.success) return read.data;
  } catch {
    // Nothing kept, or nothing that can be read.
  }
  const { target, overtime } = scenario.shift ?? {};
  const cap = (overtime?.until ?? 'none') === 'none' ? 0 : (overtime?.cap ?? 60);
  return {
    attendance: {},
    target: target ?? null,
    overtime: cap,
    confidence: Math.round(promiseShare(scenario) * 100),
    changes: 1,
    breaks: true,
  };
}

/** False where this browser keeps nothing. */
export function keepAsked(cell: string, asked: Asked): boolean {
  try {
    const all = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    localStorage.setItem(KEY, JSON.stringify({ ...all, [cell]: asked }));
    return true;
  } catch {
    return false;
  }
}

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
    vary: { changes: asked.changes, breaks: asked.breaks },
  };
}

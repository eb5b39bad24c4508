/** A plan of a crew as entries of its day. */
import type { ToSay } from '../book/next-entry.ts';
import type { CrewPlan } from '../staffing/plan-crew.ts';
import type { TriedChange } from '../staffing/try-change.ts';
import { changedSheet, forecastSaid, plannedSheet, planSaid, type OpenedDay } from '../today/opened-day.ts';
import { answerSentences } from './crew-words.ts';

export type PlanSaid = { kind: 'said'; said: ToSay[] } | { kind: 'refused'; why: string };

/**
 * The plan, or the sheet that a change by hand made of it, and its forecast as entries of the day. A change
 * that breaks a rule is shown and never kept.
 */
export function planOfDay(
  { day, unplanned }: OpenedDay,
  plan: CrewPlan,
  change: Record<string, unknown> | null,
  tried: Extract<TriedChange, { kind: 'tried' }> | null,
): PlanSaid {
  if (plan.kind === 'over the limit')
    return { kind: 'refused', why: "Nothing is put into the book: no plan keeps the file's limits." };
  if (tried !== null && tried.broken.length > 0)
    return {
      kind: 'refused',
      why: 'Nothing is put into the book: the sheet with your change breaks a rule.',
    };
  const sheet = change === null || tried === null ? plannedSheet(plan) : changedSheet(plan, change, tried);
  const answer = change === null ? answerSentences(plan) : ['The sheet was changed by hand.'];
  return {
    kind: 'said',
    said: [
      { day, kind: 'plan', content: planSaid(unplanned, sheet, answer) },
      { day, kind: 'forecast', content: forecastSaid(sheet) },
    ],
  };
}

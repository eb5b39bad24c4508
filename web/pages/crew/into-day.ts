/** The plan put into its day, and what the book has of that day already. */
import { html, nothing, type TemplateResult } from 'lit';
import { planOfDay } from '../../../src/report/plan-of-day.ts';
import { dayWords } from '../../../src/scenario/calendar.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import type { TriedChange } from '../../../src/staffing/try-change.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import { percent, plain } from '../../../src/words/words.ts';
import { say } from '../../parts/notice.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { keepInBook } from '../common/kept-in-book.ts';

export type Tried = Extract<TriedChange, { kind: 'tried' }>;

/** A sheet changed by hand is put in whole: plan and change together. */
export interface ByHand {
  change: Record<string, unknown>;
  tried: Tried;
}

export async function putIntoDay(
  store: CellStore,
  opened: OpenedDay,
  plan: CrewPlan,
  hand: ByHand | null = null,
): Promise<void> {
  const made = planOfDay(opened, plan, hand?.change ?? null, hand?.tried ?? null);
  if (made.kind === 'refused') return say(made.why, { kind: 'wrong' });
  await keepInBook(store, made.said, `${dayWords(opened.day)} has its plan and forecast.`);
}

/** "In the book for Monday 8 March 2027: 20 good promised, with a chance of 75 %." Empty where nothing is. */
export function planInBook({ day, view, plan, unused }: OpenedDay): string {
  if (view.plan === null) return '';
  const { promise } = view.plan.content;
  const promised =
    promise == null
      ? 'a plan without a promise'
      : `a plan that promises ${plain(promise.units)} good with a chance of ${percent(promise.chance)}`;
  const old =
    plan === null
      ? ` It does not fit the cell any more${unused.length === 0 ? '' : ` (${unused.join(' ')})`}.`
      : plan.current
        ? ''
        : ' The cell has changed since it was made: plan again.';
  return `In the book for ${dayWords(day)} stands ${promised}.${old}`;
}

export function intoDay(
  store: CellStore,
  opened: OpenedDay,
  plan: CrewPlan,
  current: boolean,
): TemplateResult | typeof nothing {
  const known = planInBook(opened);
  const words = opened.view.plan === null ? 'put it into the day' : 'put it into the day instead';
  return html`<div class="unprinted day">
    ${known === '' ? nothing : html`<p>${known}</p>`}
    ${
      plan.kind === 'over the limit'
        ? nothing
        : html`<button
            type="button"
            class="firm"
            ?disabled=${!current}
            @click=${() => void putIntoDay(store, opened, plan)}
          >
            ${words}
          </button>`
    }
  </div>`;
}

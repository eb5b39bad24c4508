/** The counts that the book has of the day: put in, looked at again, taken back. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { dayWords } from '../../../src/scenario/calendar.ts';
import { carriedOf } from '../../../src/scenario/resolve.ts';
import { checkNow } from '../../../src/today/check-now.ts';
import { countKept, countSaid } from '../../../src/today/kept-counts.ts';
import { goodSoFar, type NowState } from '../../../src/today/state.ts';
import { counted } from '../../../src/words/words.ts';
import { dayAbout, openedFor } from '../../shell/day.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { keepInBook, takeOut } from '../common/kept-in-book.ts';

export const keptStyle = css`
  .kept {
    list-style: none;
    margin: 0;
    padding: 0;
    max-width: 40rem;
  }
  .kept li {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0 var(--space-3);
    padding: 0;
    border-bottom: 1px solid var(--hairline);
  }
  .kept li span {
    flex: 1 1 14rem;
  }
  .wrong > p {
    display: inline;
  }
  .wrong ul {
    margin: var(--space-1) 0 var(--space-4);
  }
`;

/** What of a count cannot be; it stays as it was typed. */
export const faultsOf = (faults: string[]): TemplateResult | typeof nothing =>
  faults.length === 0
    ? nothing
    : html`<div class="wrong" role="alert">
        <p>This count cannot be:</p>
        <ul>
          ${faults.map((fault) => html`<li>${fault}</li>`)}
        </ul>
      </div>`;

/** A count of the same time stands in for one that was kept before. */
export function keepCounted(store: CellStore, now: NowState): Promise<void> {
  const day = dayAbout(store);
  return keepInBook(
    store,
    [{ day, kind: 'count', content: countSaid(now) }],
    `The count of ${now.at} is kept for ${dayWords(day)}.`,
  );
}

/** @param again is handed a count that is to be looked at, or put right, once more. */
export function keptCounts(
  store: CellStore,
  again: (now: NowState) => void,
): TemplateResult | typeof nothing {
  const filed = store.scenario.get();
  if (filed === null) return nothing;
  const day = dayAbout(store);
  const { view, scenario } = openedFor(store, filed, day);
  if (view.counts.length === 0) return nothing;
  const rows = view.counts.map(({ entry, content }) => {
    const checked = checkNow(scenario, countKept(content));
    const now = checked.kind === 'fine' ? checked.now : null;
    const inside = now?.inside.reduce((sum, piece) => sum + carriedOf({ start: now.at }, piece).units, 0);
    return html`<li>
      <span
        >${content.at}${now === null ? ': does not fit the cell any more' : `: ${goodSoFar(now)} good, ${counted(inside!, 'piece')} in the cell`}</span
      >
      ${
        now === null
          ? nothing
          : html`<button type="button" class="plain small" @click=${() => again(now)}>
              look at ${content.at} again
            </button>`
      }
      <button
        type="button"
        class="plain small"
        @click=${() => void takeOut(store, [entry.id], `The count of ${content.at} is taken back.`)}
      >
        take ${content.at} back
      </button>
    </li>`;
  });
  return html`<section aria-labelledby="kept">
    <h2 id="kept">Counted on ${dayWords(day)}</h2>
    <ul class="kept">
      ${rows}
    </ul>
  </section>`;
}

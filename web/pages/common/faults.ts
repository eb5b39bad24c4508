/** What is said on an answering page while the cell itself has mistakes. */
import { html, nothing, type TemplateResult } from 'lit';
import { addressOf } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { valueAt } from '../../store/draft.ts';

/** A cell just begun has nobody: something still to say rather than a mistake. */
const isEmpty = (group: unknown): boolean =>
  typeof group === 'object' && group !== null && Object.keys(group).length === 0;

export function faultsLine(store: CellStore): TemplateResult | typeof nothing {
  const { faults } = store;
  if (faults.length === 0) return nothing;
  if (isEmpty(valueAt(store.draft.get(), ['people'])))
    return html`<p role="status">
      This cell is not whole yet. Still to say: who works here. That is said on the page
      <a href=${addressOf('cell')}>Cell</a>.
    </p>`;
  const more = faults.length === 1 ? '' : ` And ${faults.length - 1} more.`;
  return html`<p class="wrong" role="status">
    ${faults[0]!.text}${more}
    ${store.scenario.get() === null ? 'Put it right on the page' : 'Until it is put right the answers are those from before. Page'}
    <a href=${addressOf('cell')}>Cell</a>.
  </p>`;
}

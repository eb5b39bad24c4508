/** The switch that shows ranges as they would be if the times were known exactly. */
import { html, type TemplateResult } from 'lit';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/toggle.ts';
import type { CellStore } from '../../store/cell-store.ts';

export const knownSwitch = (store: CellStore): TemplateResult =>
  html`<cw-toggle
    label="As if the times were exactly known"
    .value=${store.at(['study', 'timesKnown']) === true}
    hint="Ranges then say what luck alone leaves open, not what is known of times, shares of rework and attendance."
    @cw-change=${({ detail }: PartEvent<'cw-change', boolean>) =>
      store.change(
        detail.value ? 'as if the times were known' : 'times as well as they are known',
        ['study', 'timesKnown'],
        detail.value ? true : undefined,
      )}
  ></cw-toggle>`;

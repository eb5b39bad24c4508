/** The times that have moved: what they are now, what that changes, and into the cell with them. */
import { html, nothing, type TemplateResult } from 'lit';
import { newTimesBlocks } from '../../../src/report/new-times-blocks.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import { type LogBook, timesOfBook } from '../../../src/timing/log-book.ts';
import { newTimes, type NewTimes } from '../../../src/timing/new-times.ts';
import { say } from '../../parts/notice.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { lastOf } from '../../work/same.ts';
import { blocks } from '../brief/blocks.ts';

/** What has moved by the last days' records; made once for a cell and a log. */
export const movedTimes = (): ((scenario: Scenario, log: LogBook) => NewTimes | null) =>
  lastOf((scenario: Scenario, log: LogBook) => {
    const recent = timesOfBook(log);
    return recent.length === 0 ? null : newTimes(scenario, recent);
  });

export function putNewTimes(store: CellStore, { scenario }: NewTimes): void {
  const plain = (value: unknown): never => JSON.parse(JSON.stringify(value)) as never;
  const changes: [(string | number)[], never][] = [[['steps'], plain(scenario.steps)]];
  if (scenario.products !== undefined) changes.push([['products'], plain(scenario.products)]);
  store.changeMany('the new times', changes);
  say('The cell now uses the new times. One step back undoes it.');
}

/** @param study of the shift with the old and the new times; null: not asked yet. */
export const newTimesSection = (
  scenario: Scenario,
  made: NewTimes | null,
  study: StudySummary | null,
  { put, ask, work }: { put: () => void; ask: () => void; work: unknown },
): TemplateResult | typeof nothing =>
  made === null
    ? nothing
    : html`<section aria-labelledby="new-times">
        <h2 id="new-times">The new times</h2>
        ${blocks(newTimesBlocks(scenario, made, study), 12)}
        <div class="do">
          <button type="button" class="firm" @click=${put}>use the new times in the cell</button>
          <button type="button" @click=${ask}>what would they change?</button>
        </div>
        ${work}
      </section>`;

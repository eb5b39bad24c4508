/** Rows of a page, each one press from Compare. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { capitalized } from '../../../src/words/words.ts';
import { choiceMade, type Typed } from '../../../src/whatif/make.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { Extra } from '../../../src/study/one-more.ts';
import { say } from '../../parts/notice.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { changesTo, putBeside } from './put-beside.ts';

export const besideStyle = css`
  .beside {
    display: flex;
    flex-wrap: wrap;
    gap: var(--space-1) var(--space-4);
    list-style: none;
    margin: var(--space-3) 0;
    padding: 0;
  }
  .beside::before {
    content: 'Put beside on Compare:';
    align-self: center;
    color: var(--muted);
  }
  .beside button {
    font-weight: 400;
    padding: 0;
    text-align: left;
  }
  @media print {
    .beside {
      display: none;
    }
  }
`;

export interface BesideRow {
  name: string;
  put: () => void;
}

export const besideList = (rows: BesideRow[]): TemplateResult | typeof nothing =>
  rows.length === 0
    ? nothing
    : html`<ul class="beside" aria-label="Put beside on Compare">
        ${rows.map(
          ({ name, put }) =>
            html`<li>
              <button type="button" aria-label=${`put beside: ${name}`} @click=${put}>${name}</button>
            </li>`,
        )}
      </ul>`;

/** One more of a thing, or a thing loosened. */
export const extraRow = (
  store: CellStore,
  scenario: Scenario,
  { name, price, scenario: changed }: Extra,
): BesideRow => ({
  name,
  put: () =>
    putBeside(store, scenario, {
      name: capitalized(name).slice(0, 120),
      changes: changesTo(scenario, changed),
      ...(price === null ? {} : { price }),
    }),
});

/** What could be typed as a what-if; said aloud where the cell does not take it. */
export const typedRow = (store: CellStore, scenario: Scenario, typed: Typed, name: string): BesideRow => ({
  name,
  put: () => {
    const made = choiceMade(scenario, typed);
    if (made.kind === 'refused') return say(made.why, { kind: 'wrong' });
    const { label, changes, price } = made.made;
    putBeside(store, scenario, {
      name: label.slice(0, 120),
      changes,
      ...(price === undefined ? {} : { price }),
    });
  },
});

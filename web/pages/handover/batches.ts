/** Batches put aside until somebody decides, over as many days as it takes. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { nameOf } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { keepInBook } from '../common/kept-in-book.ts';
import { shiftOf } from '../common/resolved.ts';

export const batchStyle = css`
  form {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 12rem), 1fr));
    gap: var(--space-3);
    align-items: end;
    margin-top: var(--space-3);
    max-width: 44rem;
  }
`;

export function batches(store: CellStore, scenario: Scenario, opened: OpenedDay): TemplateResult {
  const { day, view } = opened;
  const { steps } = shiftOf(scenario);
  const add = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const field = (name: string): string => String(new FormData(form).get(name) ?? '').trim();
    const [name, before, whose] = [field('name'), field('before'), field('whose')];
    if (name === '') return;
    const content = { name, ...(before === '' ? {} : { before }), ...(whose === '' ? {} : { whose }) };
    void keepInBook(store, [{ day, kind: 'hold', content }], `“${name}” is put aside.`).then(() =>
      form.reset(),
    );
  };
  const decided = (name: string): void =>
    void keepInBook(store, [{ day, kind: 'hold', content: { name, over: true } }], `“${name}” is decided.`);
  return html`<section aria-labelledby="aside">
    <h2 id="aside">Put aside until somebody decides</h2>
    ${
      view.holds.length === 0
        ? html`<p class="muted">
            Nothing is. What is put aside stays so from day to day until it is decided.
          </p>`
        : html`<ul class="kept">
            ${view.holds.map(
              ({ entry, content }) =>
                html`<li>
                  <span
                    >${content.name}${content.before === undefined ? nothing : html`, before “${nameOf(steps, content.before)}”`}${content.whose === undefined ? nothing : html`: ${content.whose} decides`}
                    <span class="muted small">since ${entry.day}</span></span
                  >
                  <button type="button" class="plain small" @click=${() => decided(content.name)}>
                    it is decided
                  </button>
                </li>`,
            )}
          </ul>`
    }
    <form @submit=${add}>
      <label>What<input type="text" name="name" maxlength="120" autocomplete="off" required /></label>
      <label
        >Before
        <select name="before">
          <option value="">no step</option>
          ${steps.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
        </select></label
      >
      <label>Who decides<input type="text" name="whose" maxlength="120" autocomplete="off" /></label>
      <button type="submit">put it aside</button>
    </form>
  </section>`;
}

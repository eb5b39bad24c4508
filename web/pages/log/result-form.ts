import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Content } from '../../../src/book/kinds.ts';
import { dayWords } from '../../../src/scenario/calendar.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/number.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { keepInBook } from '../common/kept-in-book.ts';
import { shiftOf } from '../common/resolved.ts';
import { changedCause, contentOf, hoursIn, resultOf, type Causes, type ResultDraft } from './result.ts';

type Numbered = PartEvent<'cw-change', number | null>;
type Texted = PartEvent<'cw-change', string>;

/**
 * `<cw-result .store=${store} .opened=${day}>`: what came of a day, with scrap and rework by cause and
 * overtime by person. It closes the day, or puts right what was written before.
 */
@customElement('cw-result')
export class CwResult extends LitElement {
  static override styles = [
    base,
    css`
      :host,
      details > div {
        display: grid;
        gap: var(--space-4);
      }
      summary {
        min-height: var(--touch);
        display: flex;
        align-items: center;
        font-weight: 600;
        cursor: pointer;
      }
      .cause {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1.2fr);
        gap: var(--space-2);
        align-items: end;
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) opened!: OpenedDay;
  @state() private draft: ResultDraft = resultOf(null);
  /** The hours as they were typed, where they cannot be read yet. */
  @state() private typed = '';
  private of = '';

  /** Another day, or another result of it in the book: begun from what stands there. */
  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('opened')) return;
    const { day, view } = this.opened;
    const of = `${day} ${view.result?.entry.id ?? ''}`;
    if (of === this.of) return;
    this.of = of;
    this.draft = resultOf(view.result?.content ?? null);
    this.typed = '';
  }

  protected override render(): TemplateResult {
    const { draft, opened } = this;
    const sum = draft.hours?.reduce((all, one) => all + one, 0);
    const off = sum !== undefined && draft.good !== null && sum !== draft.good;
    const wrong =
      this.typed !== ''
        ? 'Write whole numbers with commas between, one an hour: 0, 2, 3, 3.'
        : off
          ? `The hours add up to ${sum}, and ${draft.good} came.`
          : '';
    return html`<cw-number
        label="Good units that came"
        optional
        usual="not in yet"
        .value=${draft.good}
        unit="units"
        least="0"
        most="100000"
        whole
        bare
        @cw-change=${(event: Numbered) => this.set({ good: event.detail.value })}
      ></cw-number>
      <details>
        <summary>by hour, by cause, overtime</summary>
        <div>
          <cw-text
            label="Good units of each hour"
            .value=${this.typed === '' ? (draft.hours?.join(', ') ?? '') : this.typed}
            placeholder="0, 2, 3, 3"
            wrong=${wrong}
            @cw-change=${(event: Texted) => this.setHours(event.detail.value)}
          ></cw-text>
          ${this.causes('Scrapped', 'scrap')} ${this.causes('Sent back', 'rework')} ${this.overtime()}
        </div>
      </details>
      <button
        type="button"
        class="firm"
        ?disabled=${draft.good === null || wrong !== ''}
        @click=${() => void this.close()}
      >
        ${opened.view.result === null ? 'close the day' : 'put the result right'}
      </button>`;
  }

  /** A row a cause, and an empty one. */
  private causes(label: string, kind: 'scrap' | 'rework'): TemplateResult {
    const rows: Causes = [...this.draft[kind], ['', 0]];
    const put = (at: number, cause: string, pieces: number): void =>
      this.set({ [kind]: changedCause(this.draft[kind], at, cause, pieces) });
    return html`${rows.map(
      ([cause, pieces], i) =>
        html`<div class="cause">
          <cw-text
            label=${i === 0 ? `${label}, why` : `${label}, or why`}
            most="120"
            .value=${cause}
            @cw-change=${(event: Texted) => put(i, event.detail.value.trim(), Math.max(pieces, 1))}
          ></cw-text>
          ${
            cause === ''
              ? nothing
              : html`<cw-number
                  label=${`${label}: ${cause}`}
                  .value=${pieces}
                  least="0"
                  most="10000"
                  whole
                  bare
                  @cw-change=${(event: PartEvent<'cw-change', number>) => put(i, cause, event.detail.value)}
                ></cw-number>`
          }
        </div>`,
    )}`;
  }

  private overtime(): TemplateResult {
    return html`${shiftOf(this.opened.scenario).people.map(
      ({ id, name }) =>
        html`<cw-number
          inline
          label="overtime, ${name}"
          .value=${this.draft.overtime[id] ?? 0}
          unit="min"
          least="0"
          most="1440"
          step="5"
          @cw-change=${(event: PartEvent<'cw-change', number>) => this.set({ overtime: { ...this.draft.overtime, [id]: event.detail.value } })}
        ></cw-number>`,
    )}`;
  }

  private setHours(text: string): void {
    const hours = hoursIn(text);
    this.typed = hours === null ? text.trim() : '';
    this.set({ hours });
  }

  private set(change: Partial<ResultDraft>): void {
    this.draft = { ...this.draft, ...change };
  }

  private async close(): Promise<void> {
    const { draft, opened, store } = this;
    const { day, view, scenario } = opened;
    const planned = view.plan?.content.target;
    const content: Content<'result'> = {
      ...contentOf(draft),
      target: planned === undefined ? shiftOf(scenario).target : planned,
    };
    await keepInBook(store, [{ day, kind: 'result', content }], `${dayWords(day)} is closed.`);
    if (view.handover === null)
      say(`${dayWords(day)} has no handover: the next working day opens with the stock of the file.`);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-result': CwResult;
  }
}

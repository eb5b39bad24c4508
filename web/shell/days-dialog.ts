import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { isDay } from '../../src/book/calendar-day.ts';
import { dayWords } from '../../src/scenario/calendar.ts';
import '../parts/dialog.ts';
import { tell } from '../parts/events.ts';
import { base } from '../parts/style.ts';
import { entriesOf } from '../store/book.ts';
import type { CellStore } from '../store/cell-store.ts';
import { Watch } from '../store/value.ts';
import { chosenDay, dayAbout, today } from './day.ts';
import { dayNotes, daysToChoose, farOff } from './day-notes.ts';

/** `<cw-days .store=${store} ?open=${open}>`: which day the pages are about. Event: cw-close. */
@customElement('cw-days')
export class CwDays extends LitElement {
  static override styles = [
    base,
    css`
      ul {
        list-style: none;
        margin: 0 0 var(--space-6);
        padding: 0;
      }
      li {
        border-bottom: 1px solid var(--hairline);
      }
      li > button {
        width: 100%;
        justify-content: space-between;
        text-align: left;
        padding: var(--space-2) 0;
        border-bottom: 0;
        font-weight: 400;
      }
      li > button[aria-current] {
        font-weight: 600;
      }
      .here {
        color: var(--muted);
        font-weight: 400;
        font-size: var(--size-small);
        text-align: right;
      }
      input {
        width: auto;
        color-scheme: light dark;
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ type: Boolean }) open = false;
  @state() private watch: Watch | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.watch ??= new Watch(this, chosenDay, today);
  }

  protected override render(): TemplateResult | typeof nothing {
    if (!this.open) return html`<cw-dialog heading="Which day is it about?"></cw-dialog>`;
    const entries = entriesOf(this.store);
    const about = dayAbout(this.store);
    const days = daysToChoose(this.store.scenario.get() ?? {}, entries, today.get());
    const notes = (day: string): string =>
      [farOff(day, today.get()), dayNotes(entries, day)].filter((one) => one !== '').join('; ');
    return html`<cw-dialog heading="Which day is it about?" open>
      <p class="muted">
        Now, Replay and Brief take up what the book has of that day: its plan, its counts, what was handed
        over to it.
      </p>
      <ul>
        ${(days.includes(about) ? days : [...days, about].sort()).map(
          (day) =>
            html`<li>
              <button
                type="button"
                aria-current=${day === about ? 'true' : nothing}
                @click=${() => this.choose(day)}
              >
                ${dayWords(day)}<span class="here">${notes(day)}</span>
              </button>
            </li>`,
        )}
      </ul>
      <label for="other">Another day</label>
      <input id="other" type="date" .value=${about} @change=${this.other} />
      ${chosenDay.get() === null ? nothing : html`<button slot="foot" type="button" @click=${() => this.choose(null)}>the day by the clock again</button>`}
    </cw-dialog>`;
  }

  private readonly other = (event: Event): void => {
    const { value } = event.target as HTMLInputElement;
    if (isDay(value)) this.choose(value);
  };

  private choose(day: string | null): void {
    chosenDay.set(day);
    tell(this, 'cw-close', { kept: true });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-days': CwDays;
  }
}

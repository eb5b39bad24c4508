import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { isDay } from '../../src/scenario/days.ts';
import { tell } from './events.ts';
import { base } from './style.ts';

/**
 * `<cw-date label="The day" .value=${'2027-03-08'}>`: a day, "YYYY-MM-DD" in and out, written and chosen as
 * the browser does it in the reader's language. Properties: label, value (null: none), optional (may be left
 * empty), hint, wrong. Event: cw-change { value }, for days that the calendar has.
 */
@customElement('cw-date')
export class CwDate extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    base,
    css`
      input {
        font-weight: 600;
        max-width: 14rem;
        color-scheme: light dark;
      }
    `,
  ];
  @property() label = '';
  @property() value: string | null = null;
  @property({ type: Boolean }) optional = false;
  @property() hint = '';
  @property() wrong = '';

  protected override render(): TemplateResult {
    const ids = [this.hint && 'hint', this.wrong && 'wrong'].filter(Boolean).join(' ');
    return html`<label for="field">${this.label}</label>
      <input
        id="field"
        type="date"
        .value=${this.value ?? ''}
        aria-invalid=${this.wrong === '' ? 'false' : 'true'}
        aria-describedby=${ifDefined(ids || undefined)}
        @change=${this.keep}
        @blur=${this.keep}
      />
      <p class="hint" id="hint" ?hidden=${this.hint === ''}>${this.hint}</p>
      <p class="wrong" id="wrong" ?hidden=${this.wrong === ''}>${this.wrong}</p>`;
  }

  /** While a date is being typed the field is empty: what stood there holds until it is one again. */
  private readonly keep = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    const value = field.value === '' && this.optional && !field.validity.badInput ? null : field.value;
    if (value === this.value || (value !== null && !isDay(value))) {
      if (event.type === 'blur') field.value = this.value ?? '';
      return;
    }
    this.value = value;
    tell(this, 'cw-change', { value });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-date': CwDate;
  }
}

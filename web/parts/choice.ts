import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { tell } from './events.ts';
import { base } from './style.ts';

export interface Choice {
  value: string;
  label: string;
  hint?: string;
}

/**
 * `<cw-choice label="At the end" .choices=${[{ value: 'finish', label: 'finish the piece' }, …]}
 * value="finish">`: one of a few, as words to press; with `list`, one of many, as a drop-down. Properties:
 * label, choices, value, hint, wrong, list, quiet (a drop-down's label is heard, not seen). Event: cw-change.
 */
@customElement('cw-choice')
export class CwChoice extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    base,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        column-gap: var(--space-1);
      }
      .row label {
        position: relative;
        display: flex;
        align-items: center;
        min-height: var(--touch);
        padding: 0 var(--space-3);
        font-weight: 400;
        cursor: pointer;
        border-bottom: 2px solid var(--hairline);
      }
      .row label:hover {
        background: var(--shade);
      }
      .row label.on {
        font-weight: 600;
        border-bottom: 4px solid var(--ink);
        padding-top: 2px;
      }
      .row input:focus-visible + span::before {
        content: '';
        position: absolute;
        inset: 0;
        outline: 3px solid var(--unclamping);
        outline-offset: 2px;
      }
      .row input {
        position: absolute;
        opacity: 0;
        width: 1px;
        height: 1px;
      }
    `,
  ];
  @property() label = '';
  @property({ attribute: false }) choices: Choice[] = [];
  @property() value = '';
  @property() hint = '';
  @property() wrong = '';
  @property({ type: Boolean }) list = false;
  @property({ type: Boolean }) quiet = false;

  protected override render(): TemplateResult {
    const hint = this.hint || (this.choices.find((choice) => choice.value === this.value)?.hint ?? '');
    const ids = [hint && 'hint', this.wrong && 'wrong'].filter(Boolean).join(' ');
    return html` ${this.list ? this.asList(ids || undefined) : this.asWords(ids || undefined)}
      ${hint === '' ? nothing : html`<p class="hint" id="hint">${hint}</p>`}
      <p class="wrong" id="wrong" ?hidden=${this.wrong === ''}>${this.wrong}</p>`;
  }

  private asList(described: string | undefined): TemplateResult {
    return html`<label for="field" class=${this.quiet ? 'unseen' : ''}>${this.label}</label>
      <select id="field" aria-describedby=${ifDefined(described)} @change=${this.choose}>
        ${this.choices.map(({ value, label }) => html`<option value=${value} ?selected=${value === this.value}>${label}</option>`)}
      </select>`;
  }

  private asWords(described: string | undefined): TemplateResult {
    return html`<fieldset role="radiogroup" aria-describedby=${ifDefined(described)} aria-labelledby="legend">
      <legend id="legend">${this.label}</legend>
      <div class="row">
        ${this.choices.map(
          ({ value, label }) =>
            html` <label class=${value === this.value ? 'on' : ''}
              ><input
                type="radio"
                name="choice"
                value=${value}
                .checked=${value === this.value}
                @change=${this.choose}
              /><span>${label}</span></label
            >`,
        )}
      </div>
    </fieldset>`;
  }

  private readonly choose = (event: Event): void => {
    this.value = (event.target as HTMLInputElement).value;
    tell(this, 'cw-change', { value: this.value });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-choice': CwChoice;
  }
}

import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { tell } from './events.ts';
import { Patience } from './patience.ts';
import { base } from './style.ts';

/**
 * `<cw-toggle label="Finished before any break" .value=${true}>`: yes or no. Properties: label, value, hint,
 * patient (first only tried, see patience.ts). Events: cw-change; with patient cw-try before it.
 */
@customElement('cw-toggle')
export class CwToggle extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    base,
    css`
      label {
        display: grid;
        grid-template-columns: 24px 1fr;
        gap: var(--space-3);
        align-items: center;
        min-height: var(--touch);
        cursor: pointer;
        font-weight: 400;
      }
      label:hover {
        background: var(--shade);
      }
      /* A pencilled box with a tick, as on a crew sheet. */
      input {
        appearance: none;
        width: 24px;
        height: 24px;
        margin: 0;
        border: 2px solid var(--muted);
        background: var(--paper) no-repeat center / 18px;
        cursor: pointer;
      }
      input:checked {
        border-color: var(--ink);
        background: var(--ink);
      }
      .box {
        position: relative;
        height: 24px;
      }
      .box svg {
        position: absolute;
        inset: 2px;
        pointer-events: none;
        fill: none;
        stroke: var(--paper);
        stroke-width: 3;
      }
    `,
  ];
  @property() label = '';
  @property({ type: Boolean }) value = false;
  @property() hint = '';
  @property({ type: Boolean }) patient = false;
  private readonly patience = new Patience(this, () => tell(this, 'cw-change', { value: this.value }));

  protected override render(): TemplateResult {
    return html`<label
        ><span class="box"
          ><input
            type="checkbox"
            .checked=${this.value}
            aria-describedby=${ifDefined(this.hint === '' ? undefined : 'hint')}
            @change=${this.choose}
          />${this.value ? html`<svg viewBox="0 0 20 20" aria-hidden="true"><path d="M3 10l5 5 9-11"></path></svg>` : nothing}</span
        >
        <span>${this.label}</span></label
      >
      ${this.hint === '' ? nothing : html`<p class="hint" id="hint">${this.hint}</p>`}`;
  }

  private readonly choose = (event: Event): void => {
    this.value = (event.target as HTMLInputElement).checked;
    if (!this.patient) return tell(this, 'cw-change', { value: this.value });
    tell(this, 'cw-try', { value: this.value });
    this.patience.begin();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-toggle': CwToggle;
  }
}

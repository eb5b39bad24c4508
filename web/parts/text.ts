import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { tell } from './events.ts';
import { base } from './style.ts';

/**
 * `<cw-text label="Name" .value=${name}>`: words. Properties: label, value, hint, wrong, placeholder, most
 * (letters), tall (several lines). Events: cw-try while typing, cw-change when left or on Enter.
 */
@customElement('cw-text')
export class CwText extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = base;
  @property() label = '';
  @property() value = '';
  @property() hint = '';
  @property() wrong = '';
  @property() placeholder = '';
  @property({ type: Number }) most?: number;
  @property({ type: Boolean }) tall = false;
  /** What stands in the field while it is being written: another tab's change does not write over it. */
  @state() private text: string | null = null;

  protected override render(): TemplateResult {
    const ids = [this.hint && 'hint', this.wrong && 'wrong'].filter(Boolean).join(' ');
    const invalid = this.wrong === '' ? 'false' : 'true';
    return html` <label for="field">${this.label}</label>
      ${
        this.tall
          ? html`<textarea
              id="field"
              rows="4"
              .value=${this.text ?? this.value}
              maxlength=${ifDefined(this.most)}
              placeholder=${this.placeholder}
              aria-invalid=${invalid}
              aria-describedby=${ifDefined(ids || undefined)}
              @input=${this.typing}
              @change=${this.keep}
              @blur=${this.left}
            ></textarea>`
          : html`<input
              id="field"
              type="text"
              autocomplete="off"
              .value=${this.text ?? this.value}
              maxlength=${ifDefined(this.most)}
              placeholder=${this.placeholder}
              aria-invalid=${invalid}
              aria-describedby=${ifDefined(ids || undefined)}
              @input=${this.typing}
              @change=${this.keep}
              @blur=${this.left}
            />`
      }
      ${this.hint === '' ? nothing : html`<p class="hint" id="hint">${this.hint}</p>`}
      <p class="wrong" id="wrong" ?hidden=${this.wrong === ''}>${this.wrong}</p>`;
  }

  private readonly typing = (event: Event): void => {
    this.text = (event.target as HTMLInputElement).value;
    tell(this, 'cw-try', { value: this.text });
  };

  /** Typed back to what it was: the browser tells of no change then. */
  private readonly left = (): void => {
    if (this.text === this.value) this.text = null;
  };

  private readonly keep = (event: Event): void => {
    this.text = null;
    this.value = (event.target as HTMLInputElement).value;
    tell(this, 'cw-change', { value: this.value });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-text': CwText;
  }
}

import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { clockOfMinutes, minutesOfClock } from '../../src/scenario/clock.ts';
import { tell } from './events.ts';
import { readClock, twelveHours, writeClock } from './reading.ts';
import { base } from './style.ts';

/**
 * `<cw-clock label="Shift starts" value="06:00">`: a clock time, "HH:MM" in and out, shown as the reader's
 * language does (or `by="24"`, `by="12"`). Properties: label, value (null: as usual), optional with usual,
 * hint, wrong, typed, step (minutes an arrow key moves by, 5). Events: cw-try, cw-change, cw-wrong.
 */
@customElement('cw-clock')
export class CwClock extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    base,
    css`
      input[type='text'] {
        max-width: 8.5rem;
        font-weight: 600;
        font-size: var(--size-large);
      }
    `,
  ];
  @property() label = '';
  @property() value: string | null = null;
  @property({ type: Boolean }) optional = false;
  @property() usual = '';
  @property() hint = '';
  @property() wrong = '';
  @property() typed: string | null = null;
  @property() by: 'reader' | '24' | '12' = 'reader';
  @property({ type: Number }) step = 5;
  @state() private text: string | null = null;
  @state() private message = '';

  private get twelve(): boolean {
    return this.by === 'reader'
      ? twelveHours(document.documentElement.dataset['locale'] ?? navigator.language)
      : this.by === '12';
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('typed') && this.typed !== null && this.text === null) {
      this.text = this.typed;
      const read = readClock(this.typed, { optional: this.optional });
      this.message = read.kind === 'wrong' ? read.message : '';
    }
  }

  protected override render(): TemplateResult {
    const said = this.message || this.wrong;
    const ids = [this.hint && 'hint', said && 'wrong'].filter(Boolean).join(' ');
    return html` <label for="field">${this.label}</label>
      <input
        id="field"
        type="text"
        autocomplete="off"
        .value=${this.text ?? writeClock(this.value, this.twelve)}
        placeholder=${this.usual}
        aria-invalid=${said === '' ? 'false' : 'true'}
        aria-describedby=${ifDefined(ids || undefined)}
        @input=${this.typing}
        @change=${this.keep}
        @keydown=${this.key}
      />
      ${this.hint === '' ? nothing : html`<p class="hint" id="hint">${this.hint}</p>`}
      <p class="wrong" id="wrong" ?hidden=${said === ''}>${said}</p>`;
  }

  private readonly typing = (event: Event): void => {
    this.text = (event.target as HTMLInputElement).value;
    const read = readClock(this.text, { optional: this.optional });
    if (read.kind === 'wrong') return;
    this.message = '';
    tell(this, 'cw-try', { value: read.value });
  };

  private readonly keep = (): void => {
    if (this.text === null) return;
    const read = readClock(this.text, { optional: this.optional });
    if (read.kind === 'fine') return this.hold(read.value);
    this.message = read.message;
    tell(this, 'cw-wrong', { text: this.text, message: read.message });
  };

  private hold(value: string | null): void {
    this.text = null;
    this.message = '';
    this.value = value;
    tell(this, 'cw-change', { value });
  }

  private readonly key = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const read = readClock(this.text ?? this.value ?? '');
      const now = read.kind === 'fine' && read.value !== null ? minutesOfClock(read.value) : 0;
      this.hold(clockOfMinutes(now + (event.key === 'ArrowUp' ? this.step : -this.step)));
    } else if (event.key === 'Escape' && this.text !== null) {
      event.stopPropagation();
      this.hold(this.value);
    }
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-clock': CwClock;
  }
}

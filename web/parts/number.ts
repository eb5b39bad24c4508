import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { niceTop } from './axis.ts';
import { tell, type PartEvent } from './events.ts';
import { Patience } from './patience.ts';
import { readNumber, writeNumber, type Read } from './reading.ts';
import './ruler.ts';
import { base } from './style.ts';

/**
 * `<cw-number label="Clamp sets" .value=${2} unit="sets" least="0" most="50" whole>`: a number to step, type
 * or drag.
 *
 * Properties: label; value (null: as usual); unit; least, most; step (1); whole; optional with `usual` (what
 * holds when it is empty, in words); hint (one line, a caution for example); wrong (a fault found elsewhere);
 * typed (text kept from before that could not be read); from, to (ends of the rule, by default the limits or
 * twice the value); bare (no rule); inline (label and number on one line, for lists of counts); patient (a
 * step is first only tried, see patience.ts). Events: cw-try, cw-change, cw-wrong (see events.ts). Arrow keys
 * step, Escape takes back what was typed.
 */
@customElement('cw-number')
export class CwNumber extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    base,
    css`
      .row {
        display: grid;
        grid-template-columns: var(--touch) minmax(5ch, 1fr) var(--touch);
        max-width: 19rem;
      }
      .row button {
        padding: 0;
        font-size: 1.375rem;
        font-weight: 400;
      }
      .line {
        position: relative;
      }
      input[type='text'] {
        text-align: center;
        font-weight: 600;
        font-size: var(--size-large);
      }
      .line.measured input[type='text'] {
        padding-right: var(--unit, 3.5ch);
        padding-left: var(--unit, 3.5ch);
      }
      .unit {
        position: absolute;
        right: var(--space-2);
        top: 0;
        line-height: var(--touch);
        color: var(--muted);
        font-size: var(--size-small);
        pointer-events: none;
      }
      cw-ruler {
        max-width: 19rem;
        margin-top: 2px;
      }
      .whole.inline {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        align-items: center;
        column-gap: var(--space-2);
      }
      .inline label {
        font-weight: 400;
        overflow-wrap: anywhere;
      }
      .inline .row {
        grid-template-columns: var(--touch) 3.5rem var(--touch);
      }
      .inline input[type='text'] {
        padding-left: 0;
        padding-right: 0;
      }
    `,
  ];
  @property() label = '';
  @property({ type: Number }) value: number | null = null;
  @property() unit = '';
  @property({ type: Number }) least?: number;
  @property({ type: Number }) most?: number;
  @property({ type: Number }) step = 1;
  @property({ type: Boolean }) whole = false;
  @property({ type: Boolean }) optional = false;
  @property() usual = '';
  @property() hint = '';
  @property() wrong = '';
  @property() typed: string | null = null;
  @property({ type: Number }) from?: number;
  @property({ type: Number }) to?: number;
  @property({ type: Boolean }) bare = false;
  @property({ type: Boolean }) inline = false;
  @property({ type: Boolean }) patient = false;
  /** What stands in the field while it is being changed, or because it cannot be read. */
  @state() private text: string | null = null;
  @state() private message = '';
  private trying: number | null = null;
  private readonly patience = new Patience(this, () => this.keep());

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('typed') && this.typed !== null && this.text === null) {
      this.text = this.typed;
      const read = this.read(this.typed);
      this.message = read.kind === 'wrong' ? read.message : '';
    }
  }

  private read(text: string): Read<number | null> {
    return readNumber(text, {
      least: this.least,
      most: this.most,
      whole: this.whole,
      optional: this.optional,
      unit: this.unit,
    });
  }

  protected override render(): TemplateResult {
    const said = this.message || this.wrong;
    const ids = [this.hint && 'hint', said && 'wrong'].filter(Boolean).join(' ');
    return html`<div class=${this.inline ? 'whole inline' : 'whole'}>
        <label for="field"
          >${this.label}${this.unit === '' ? nothing : html`<span class="unseen">, ${this.unit}</span>`}</label
        >
        <div class="row">
          <button
            type="button"
            class="plain"
            aria-label=${`${this.label}: less`}
            @click=${() => this.stepBy(-1)}
          >
            −
          </button>
          <div class=${this.unit === '' || this.inline ? 'line' : 'line measured'}>
            <input
              id="field"
              type="text"
              inputmode=${this.whole ? 'numeric' : 'decimal'}
              autocomplete="off"
              .value=${this.text ?? writeNumber(this.value)}
              placeholder=${this.usual}
              aria-invalid=${said === '' ? 'false' : 'true'}
              aria-describedby=${ifDefined(ids || undefined)}
              @input=${this.typing}
              @change=${this.keep}
              @keydown=${this.key}
            />
            ${this.unit === '' || this.inline ? nothing : html`<span class="unit" aria-hidden="true">${this.unit}</span>`}
          </div>
          <button
            type="button"
            class="plain"
            aria-label=${`${this.label}: more`}
            @click=${() => this.stepBy(1)}
          >
            +
          </button>
        </div>
      </div>
      ${this.bare || this.inline ? nothing : this.rule()}
      ${this.hint === '' ? nothing : html`<p class="hint" id="hint">${this.hint}</p>`}
      <p class="wrong" id="wrong" ?hidden=${said === ''}>${said}</p>`;
  }

  private rule(): TemplateResult {
    const [from, to] = [
      this.from ?? this.least ?? 0,
      this.to ?? Math.min(this.most ?? Infinity, niceTop(this.value ?? 5)),
    ];
    return html`<cw-ruler
      .value=${this.trying ?? this.value}
      .from=${from}
      .to=${to}
      .step=${this.step}
      @cw-try=${this.dragged}
      @cw-change=${this.dropped}
    ></cw-ruler>`;
  }

  private readonly typing = (event: Event): void => {
    this.patience.end();
    this.text = (event.target as HTMLInputElement).value;
    const read = this.read(this.text);
    if (read.kind === 'wrong') return;
    this.message = '';
    tell(this, 'cw-try', { value: read.value });
  };

  private readonly keep = (): void => {
    if (this.text === null) return;
    const read = this.read(this.text);
    if (read.kind === 'fine') return this.hold(read.value);
    this.message = read.message;
    tell(this, 'cw-wrong', { text: this.text, message: read.message });
  };

  private hold(value: number | null): void {
    this.patience.end();
    this.text = null;
    this.trying = null;
    this.message = '';
    this.value = value;
    tell(this, 'cw-change', { value });
  }

  private readonly key = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      this.stepBy(event.key === 'ArrowUp' ? 1 : -1);
    } else if (event.key === 'Escape' && this.text !== null) {
      event.stopPropagation();
      this.hold(this.value);
    }
  };

  private stepBy(direction: 1 | -1): void {
    const read = this.text === null ? null : this.read(this.text);
    const now = (read?.kind === 'fine' ? read.value : this.value) ?? this.least ?? 0;
    const next = Math.round((now + direction * this.step) * 1000) / 1000;
    const value = Math.min(this.most ?? Infinity, Math.max(this.least ?? -Infinity, next));
    if (!this.patient) return this.hold(value);
    this.text = writeNumber(value);
    this.trying = value;
    this.message = '';
    tell(this, 'cw-try', { value });
    this.patience.begin();
  }

  private readonly dragged = (event: PartEvent<'cw-try', number>): void => {
    event.stopPropagation();
    this.trying = event.detail.value;
    this.text = writeNumber(event.detail.value);
    tell(this, 'cw-try', { value: event.detail.value });
  };

  private readonly dropped = (event: PartEvent<'cw-change', number>): void => {
    event.stopPropagation();
    this.hold(event.detail.value);
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-number': CwNumber;
  }
}

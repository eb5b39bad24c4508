import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { base } from '../../parts/style.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, Place } from '../../store/draft.ts';

/**
 * `<cw-json-text .store=${store} .place=${['nextShifts']} label="Shifts that follow">`: a part of the file as
 * it is written. It is checked as it is typed and kept once it is fine; until then the text itself is kept.
 * An empty text takes the part out.
 */
@customElement('cw-json-text')
export class CwJsonText extends LitElement {
  static override styles = [
    base,
    css`
      textarea {
        font-family: ui-monospace, 'DejaVu Sans Mono', monospace;
        font-size: var(--size-small);
        line-height: 1.45;
        border: 1px solid var(--muted);
        min-height: 12rem;
        white-space: pre;
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) place: Place = [];
  @property() label = '';
  @property() hint = '';
  @state() private text: string | null = null;
  @state() private said = '';

  private get key(): Place {
    return [...this.place, '(as text)'];
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('store') && !changed.has('place')) return;
    this.text = this.store.typedAt(this.key);
    this.said = this.text === null ? '' : this.read(this.text).said;
  }

  protected override render(): TemplateResult {
    return html`<label for="field">${this.label}</label>
      <textarea
        id="field"
        rows="10"
        spellcheck="false"
        .value=${this.text ?? written(this.store.at(this.place))}
        aria-invalid=${this.said === '' ? 'false' : 'true'}
        aria-describedby="hint wrong"
        @input=${this.typing}
        @change=${this.keep}
      ></textarea>
      <p class="hint" id="hint">${this.hint}</p>
      <p class="wrong" id="wrong" role="status" ?hidden=${this.said === ''}>${this.said}</p>
      ${this.text === null ? nothing : html`<button type="button" class="plain small" @click=${this.back}>back to what is in the file</button>`}`;
  }

  private read(text: string): { value: Json | undefined; said: string } {
    if (text.trim() === '' && this.place.length > 0) return { value: undefined, said: '' };
    try {
      const value = JSON.parse(text) as Json;
      const reading = this.store.tried(this.place, value);
      return {
        value,
        said:
          reading.kind === 'fine'
            ? ''
            : reading.faults
                .slice(0, 3)
                .map((fault) => fault.text)
                .join(' '),
      };
    } catch (error) {
      return {
        value: undefined,
        said: `This cannot be read as JSON: ${error instanceof Error ? error.message : String(error)}`,
      };
    }
  }

  private readonly typing = (event: Event): void => {
    this.text = (event.target as HTMLTextAreaElement).value;
    this.said = this.read(this.text).said;
  };

  private readonly keep = (): void => {
    if (this.text === null) return;
    const { value, said } = this.read(this.text);
    this.said = said;
    if (said !== '') return this.store.setTyped(this.key, this.text);
    this.text = null;
    this.store.setTyped(this.key, null);
    this.store.change(`${this.label.toLowerCase()} changed`, this.place, value);
  };

  private readonly back = (): void => {
    this.text = null;
    this.said = '';
    this.store.setTyped(this.key, null);
  };
}

const written = (value: Json | undefined): string =>
  value === undefined ? '' : JSON.stringify(value, null, 2);

declare global {
  interface HTMLElementTagNameMap {
    'cw-json-text': CwJsonText;
  }
}

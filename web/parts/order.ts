import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { tell } from './events.ts';
import { base } from './style.ts';

export interface OrderItem {
  id: string;
  label: string;
}

/**
 * `<cw-order label="Stands at, first choice first" .items=${[{ id, label }]}>`: a list in an order that
 * matters; each row moves up or down. Properties: label, items, hint, removable. Events: cw-change { value:
 * ids }, also after a row was taken out.
 */
@customElement('cw-order')
export class CwOrder extends LitElement {
  static override styles = [
    base,
    css`
      ol {
        list-style: none;
        margin: 0;
        padding: 0;
        counter-reset: place;
      }
      li {
        display: grid;
        grid-template-columns: 2ch minmax(0, 1fr) auto;
        align-items: center;
        column-gap: var(--space-1);
        min-height: var(--touch);
        border-bottom: 1px solid var(--hairline);
        counter-increment: place;
      }
      .name {
        overflow-wrap: anywhere;
        line-height: 1.3;
      }
      .acts {
        display: flex;
      }
      .acts button {
        padding: 0;
        font-weight: 400;
      }
      li::before {
        content: counter(place);
        color: var(--muted);
      }
    `,
  ];
  @property() label = '';
  @property() hint = '';
  @property({ attribute: false }) items: OrderItem[] = [];
  @property({ type: Boolean }) removable = false;
  @state() private said = '';

  protected override render(): TemplateResult {
    return html`<span class="label" id="label">${this.label}</span>
      <ol aria-labelledby="label">
        ${repeat(
          this.items,
          (item) => item.id,
          (item, i) =>
            html`<li>
              <span class="name">${item.label}</span>
              <span class="acts"
                ><button
                  type="button"
                  class="plain"
                  aria-label=${`${item.label}: up`}
                  ?disabled=${i === 0}
                  data-move=${`${item.id} up`}
                  @click=${() => this.move(i, -1)}
                >
                  ↑
                </button>
                <button
                  type="button"
                  class="plain"
                  aria-label=${`${item.label}: down`}
                  ?disabled=${i === this.items.length - 1}
                  data-move=${`${item.id} down`}
                  @click=${() => this.move(i, 1)}
                >
                  ↓
                </button>
                ${this.removable ? html`<button type="button" class="plain" aria-label=${`${item.label}: take out`} title="take out" @click=${() => this.takeOut(i)}>out</button>` : nothing}</span
              >
            </li>`,
        )}
      </ol>
      ${this.hint === '' ? nothing : html`<p class="hint">${this.hint}</p>`}
      <span class="unseen" role="status">${this.said}</span>`;
  }

  private move(from: number, by: 1 | -1): void {
    const items = [...this.items];
    const [item] = items.splice(from, 1);
    items.splice(from + by, 0, item!);
    this.hold(items, `${item!.label} is now number ${from + by + 1} of ${items.length}`);
    // The pressed button goes out at either end of the list; the keyboard must not be left nowhere.
    void this.updateComplete.then(() => {
      const at = (way: string): HTMLButtonElement | undefined =>
        [...this.renderRoot.querySelectorAll<HTMLButtonElement>('[data-move]')].find(
          (button) => button.dataset['move'] === `${item!.id} ${way}`,
        );
      const same = at(by === -1 ? 'up' : 'down');
      (same?.disabled === true ? at(by === -1 ? 'down' : 'up') : same)?.focus();
    });
  }

  private takeOut(at: number): void {
    this.hold(
      this.items.filter((_, i) => i !== at),
      `${this.items[at]!.label} taken out`,
    );
  }

  private hold(items: OrderItem[], said: string): void {
    this.items = items;
    this.said = said;
    tell(this, 'cw-change', { value: items.map((item) => item.id) });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-order': CwOrder;
  }
}

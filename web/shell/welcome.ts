import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { tell } from '../parts/events.ts';
import { base } from '../parts/style.ts';

const KEY = 'clampwright-welcomed';

/**
 * `<cw-welcome ?invented=${true}>`: over the first page, while the shop at hand is an invented one: what this
 * is, that it is invented, and the way to one's own. Event: cw-act { act: 'own' }.
 */
@customElement('cw-welcome')
export class CwWelcome extends LitElement {
  static override styles = [
    base,
    css`
      aside {
        max-width: var(--sheet);
        margin: 0 auto;
        padding: var(--space-3) var(--space-6) 0;
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0 var(--space-4);
      }
      p {
        margin: 0;
        flex: 1 1 22rem;
        max-width: var(--measure);
        font-size: var(--size-small);
        color: var(--muted);
      }
      @media (max-width: 559px) {
        aside {
          padding: var(--space-3) var(--space-4) 0;
        }
      }
      @media print {
        aside {
          display: none;
        }
      }
    `,
  ];
  @property({ type: Boolean }) invented = false;
  @state() private away = putAway();

  protected override render(): TemplateResult | typeof nothing {
    if (!this.invented || this.away) return nothing;
    return html`<aside aria-label="What this is">
      <p>
        Clampwright plays the shift of a fitting and glue-up cell hundreds of times, and says what it makes
        and what holds it back. The shop shown here is invented.
      </p>
      <button type="button" @click=${() => tell(this, 'cw-act', { act: 'own' })}>your own cell</button>
      <button type="button" class="plain small" @click=${this.putAway}>put this away</button>
    </aside>`;
  }

  private readonly putAway = (): void => {
    this.away = true;
    try {
      localStorage.setItem(KEY, 'yes');
    } catch {
      // It is back the next time.
    }
  };
}

function putAway(): boolean {
  try {
    return localStorage.getItem(KEY) !== null;
  } catch {
    return false;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-welcome': CwWelcome;
  }
}

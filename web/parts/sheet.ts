import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { base } from './style.ts';

/** A range in brackets, which stays on one line: "(2.8 to 3.4)". */
const RANGE = /(\([^()]{1,18}\))/;

/**
 * `<cw-sheet answer="A third clamp set adds 3.1 units a shift (2.8 to 3.4).">`: the form of every page. The
 * answer leads as its heading, under it what the picture shows; the controls stand at the side on a desk,
 * below on a tablet or a phone. Properties: answer, question (what the page answers, small above). Slots:
 * default (pictures, text), `controls`, `more` (under the first, and where there is no side under the
 * controls), `after` (full width).
 */
@customElement('cw-sheet')
export class CwSheet extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        max-width: var(--sheet);
        margin: 0 auto;
        padding: var(--space-8) var(--space-6) var(--space-16);
      }
      .question {
        max-width: none;
        color: var(--muted);
        margin: 0 0 var(--space-2);
      }
      h1 {
        font-size: var(--size-answer);
        line-height: 1.18;
        letter-spacing: -0.005em;
        max-width: 26em;
        margin-bottom: var(--space-8);
      }
      .columns > * {
        min-width: 0;
      }
      aside {
        grid-area: aside;
      }
      .main {
        grid-area: main;
      }
      .more {
        grid-area: more;
      }
      h1 span {
        white-space: nowrap;
      }
      h1:focus {
        outline: none;
      }
      .columns {
        display: grid;
        grid-template: 'main' 'aside' 'more' / minmax(0, 1fr);
        gap: 0 var(--space-12);
      }
      .columns.sided {
        grid-template: 'main aside' auto 'more aside' 1fr / minmax(0, 1fr) 300px;
      }
      aside {
        border-top: 1px solid var(--hairline);
        padding-top: var(--space-6);
      }
      aside:not(.has) {
        display: none;
      }
      .sided aside {
        border-top: 0;
        border-left: 1px solid var(--hairline);
        padding: 0 0 0 var(--space-8);
      }
      @media (max-width: 1023px) {
        .columns.sided {
          grid-template: 'main' 'aside' 'more' / minmax(0, 1fr);
        }
        .sided aside {
          border-left: 0;
          border-top: 1px solid var(--hairline);
          margin-top: var(--space-12);
          padding: var(--space-6) 0 0;
        }
      }
      @media (max-width: 559px) {
        :host {
          padding: var(--space-6) var(--space-4) var(--space-12);
        }
      }
      @media print {
        :host {
          padding: 0;
          max-width: none;
        }
        aside {
          display: none;
        }
        .columns.sided {
          grid-template: 'main' 'more' / minmax(0, 1fr);
        }
        h1 {
          margin-bottom: var(--space-4);
        }
        h1,
        .question {
          max-width: none;
        }
      }
    `,
  ];
  @property() question = '';
  @property() answer = '';
  private sided = false;

  protected override render(): TemplateResult {
    const answer = this.answer
      .split(RANGE)
      .map((part, i) => (i % 2 === 0 ? part : html`<span>${part}</span>`));
    return html`<p class="question" ?hidden=${this.question === ''}>${this.question}</p>
      <h1 id="answer" tabindex="-1">${answer}</h1>
      <div class="columns ${this.sided ? 'sided' : ''}">
        <div class="main"><slot></slot></div>
        <aside class=${this.sided ? 'has' : ''} aria-label="What can be changed">
          <slot name="controls" @slotchange=${this.slotted}></slot>
        </aside>
        <div class="more"><slot name="more"></slot></div>
      </div>
      <slot name="after"></slot>`;
  }

  private readonly slotted = (event: Event): void => {
    this.sided = (event.target as HTMLSlotElement).assignedElements().length > 0;
    this.requestUpdate();
  };

  /** Called by the shell when the page was turned: the heading is what a screen reader hears first. */
  override focus(): void {
    this.renderRoot.querySelector('h1')?.focus();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-sheet': CwSheet;
  }
}

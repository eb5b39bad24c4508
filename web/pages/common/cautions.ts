import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { cautionsFor } from '../../../src/scenario/cautions.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { base } from '../../parts/style.ts';

/**
 * `<cw-cautions .scenarios=${[scenario, …]}>`: what the tool owes its users, at the foot of an answer; each
 * caution once.
 */
@customElement('cw-cautions')
export class CwCautions extends LitElement {
  static override styles = [
    base,
    css`
      section {
        border-top: 1px solid var(--hairline);
        margin-top: var(--space-12);
        padding-top: var(--space-6);
      }
      h2 {
        font-size: var(--size-large);
        font-weight: 600;
        margin-bottom: var(--space-3);
      }
      ul {
        columns: 2 24rem;
        column-gap: var(--space-8);
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        break-inside: avoid;
        padding-bottom: var(--space-3);
        font-size: var(--size-small);
        line-height: 1.45;
      }
      @media print {
        section {
          margin-top: var(--space-4);
          padding-top: var(--space-2);
          break-inside: avoid;
        }
        h2 {
          font-size: var(--size);
          margin-bottom: var(--space-1);
        }
        ul {
          columns: 2;
        }
        li {
          font-size: 7.5pt;
          line-height: 1.3;
          padding-bottom: var(--space-1);
        }
      }
    `,
  ];
  @property({ attribute: false }) scenarios: Scenario[] = [];

  protected override render(): TemplateResult {
    const all = this.scenarios.flatMap(cautionsFor);
    const each = all.filter((one, i) => all.findIndex((other) => other.text === one.text) === i);
    return html`<section aria-labelledby="heading">
      <h2 id="heading">Before you act on it</h2>
      <ul>
        ${each.map(({ text, source }) => html`<li>${text}${source === undefined ? nothing : html` <span class="muted">${source}</span>`}</li>`)}
      </ul>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-cautions': CwCautions;
  }
}

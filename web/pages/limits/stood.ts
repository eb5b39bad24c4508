import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { reasonTables } from '../../../src/report/parts/reasons.ts';
import { stoodTable, stoodWords, type StoodTold } from '../../../src/report/parts/stood.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { base, unfolds } from '../../parts/style.ts';
import { Live } from '../../work/live.ts';
import { stoodTask } from '../../work/reasons.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';

/** Of the tables on paper, points. */
const PRINT_SIZE = 9;

/**
 * `<cw-stood .scenario=${…} shifts="400" ?ready=${…}>`: why gear and people stood, and what putting each
 * reason right brings; run once the page is ready for it.
 */
@customElement('cw-stood')
export class CwStood extends LitElement {
  static override styles = [
    base,
    blockStyle,
    css`
      p {
        margin: 0 0 var(--space-2);
      }
      ${unfolds}
      @media print {
        details {
          display: none;
        }
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  /** That the rest of the page rests on. */
  @property({ type: Number }) shifts = 0;
  @property({ type: Boolean }) ready = false;
  private readonly told = new Live<StoodTold>(this);

  protected override willUpdate(changed: PropertyValues<this>): void {
    void changed;
    const { scenario, shifts } = this;
    if (this.ready && shifts > 0)
      this.told.askOf([scenario, shifts], () => stoodTask(shiftsOf(scenario), shifts));
  }

  protected override render(): TemplateResult | typeof nothing {
    const told = this.told.answer;
    if (told === null) return nothing;
    return html`${stoodWords(told).map((words) => html`<p>${words}</p>`)}
      ${blocks(stoodTable(told), PRINT_SIZE)}
      <details>
        <summary>every reason, of each piece of gear and each person</summary>
        ${blocks(reasonTables(told.shifts[0]!, told.sums[0]!), PRINT_SIZE)}
      </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-stood': CwStood;
  }
}

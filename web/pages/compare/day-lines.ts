import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { dayLinesPicture, dayLinesTable, type Size, type Table } from '../../../src/charts/index.ts';
import type { StudyRequest } from '../../../src/study/study.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { aTurn } from '../../work/turn.ts';
import { dayLinesOf, footOf } from '../common/of-study.ts';

interface Drawn {
  name: string;
  draw: (size: Size) => string;
  table: Table;
}

/**
 * `<cw-day-lines .study=${…} .request=${…} .looked=${id}>`: the lines of the cell as it is beside those of
 * one option, to the same heights.
 */
@customElement('cw-day-lines')
export class CwDayLines extends LitElement {
  static override styles = [
    base,
    css`
      section {
        margin-top: var(--space-8);
      }
      h2 {
        margin-bottom: var(--space-3);
      }
      h3 {
        margin-bottom: var(--space-3);
      }
      .two {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 330px), 1fr));
        gap: var(--space-8);
      }
      @media print {
        section {
          break-inside: avoid;
          margin-top: var(--space-4);
        }
        .two {
          grid-template-columns: 1fr 1fr;
        }
      }
    `,
  ];
  @property({ attribute: false }) study: StudySummary | null = null;
  @property({ attribute: false }) request: StudyRequest | null = null;
  @property({ attribute: false }) looked: string | null = null;
  @state() private drawn: Drawn[] = [];

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('study') || changed.has('looked')) void this.make();
  }

  /** Works the pictures out, a case a turn. While an answer sharpens, those of the one before stay. */
  private async make(): Promise<void> {
    const { study, request, looked } = this;
    if (study === null || request === null) return;
    const cases: Parameters<typeof dayLinesOf>[0] = [];
    for (const id of ['base', ...(looked === null ? [] : [looked])]) {
      await aTurn();
      if (study !== this.study || looked !== this.looked) return;
      const one = study.cases.find((other) => other.id === id);
      const asked = request.cases.find((other) => other.id === id);
      if (one === undefined || asked === undefined || one.shifts.length === 0) return;
      cases.push({ one: { ...one, name: asked.name }, shift: asked.shifts[0]! });
    }
    this.drawn = dayLinesOf(cases, 0, footOf(study, 'units in line')).map((data, i) => ({
      name: cases[i]!.one.name,
      draw: (size) => dayLinesPicture(data, size),
      table: dayLinesTable(data),
    }));
  }

  protected override render(): TemplateResult | typeof nothing {
    if (this.drawn.length === 0 || this.drawn[0]!.table.head.length < 2) return nothing;
    return html`<section aria-labelledby="lines">
      <h2 id="lines">Lines through the day</h2>
      <div class="two">
        ${this.drawn.map(
          ({ name, draw, table }) =>
            html`<div>
              <h3>${name}</h3>
              <cw-picture paper="330" .draw=${draw} .table=${table}></cw-picture>
            </div>`,
        )}
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-day-lines': CwDayLines;
  }
}

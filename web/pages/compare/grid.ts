/** Two things that vary, a field each: on Compare, asked for by a press. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { chosenWords, fieldWords } from '../../../src/report/pages/grid-page.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { runGrid, type GridAnswer, type GridCell } from '../../../src/study/grid.ts';
import { makeTogether } from '../../../src/whatif/make.ts';
import { axesOffered, axisOf, choiceOf, gridOf, usualAxes, type Axis } from '../../../src/whatif/grid.ts';
import { chanceCell } from '../../../src/words/study-words.ts';
import { money, rangeText } from '../../../src/words/words.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { base } from '../../parts/style.ts';
import { Live } from '../../work/live.ts';
import { plantOf } from '../common/resolved.ts';
import { workLine } from '../common/work-line.ts';
import type { Option } from './options.ts';

/** Shifts of each field: enough to tell most fields apart, and quickly there. */
const COUNT = 200;

interface Laid {
  down: Axis;
  across: Axis;
  grid: GridAnswer;
}

/**
 * `<cw-grid .scenario=${…}>`: two choices of what varies, and the table of fields. Event: `beside` with an
 * option as its detail, for a field that was pressed.
 */
@customElement('cw-grid')
export class CwGrid extends LitElement {
  static override styles = [
    base,
    css`
      .axes {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-4);
        margin-bottom: var(--space-4);
      }
      .scroll {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font-size: var(--size-small);
        font-variant-numeric: lining-nums tabular-nums;
      }
      th {
        font-weight: 600;
        text-align: left;
        padding: var(--space-2) var(--space-3) var(--space-2) 0;
        max-width: 12rem;
      }
      thead th {
        color: var(--muted);
        font-weight: 400;
        padding-left: var(--space-3);
      }
      td {
        border: 1px solid var(--hairline);
        min-width: 8.5rem;
        padding: var(--space-2) var(--space-3);
        line-height: 1.4;
        vertical-align: top;
      }
      thead td {
        border: 0;
      }
      td button {
        display: block;
        padding: 0;
        font-weight: 400;
      }
      .units {
        font-weight: 600;
      }
      .cheapest {
        outline: 3px solid var(--ink);
        outline-offset: -3px;
      }
      .alike {
        background: var(--shade);
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @state() private down: string | null = null;
  @state() private across: string | null = null;
  private readonly live = new Live<Laid>(this);

  protected override render(): TemplateResult {
    const { scenario } = this;
    const usual = usualAxes(scenario);
    const offered = axesOffered(scenario);
    const [down, across] = [this.down ?? usual.down, this.across ?? usual.across];
    const choices = offered.map(({ typed, name }) => ({ value: typed, label: name }));
    const choice = (label: string, value: string, set: (typed: string) => void): TemplateResult =>
      html`<cw-choice
        list
        label=${label}
        .choices=${choices}
        value=${value}
        @cw-change=${(event: PartEvent<'cw-change', string>) => set(event.detail.value)}
      ></cw-choice>`;
    return html`<div class="axes">
        ${choice('What varies across', across, (typed) => (this.across = typed))}
        ${choice('What varies down', down, (typed) => (this.down = typed))}
      </div>
      <button type="button" @click=${() => this.ask(down, across)}>
        ${this.live.answer === null ? 'lay it out' : 'lay it out again'}
      </button>
      ${workLine(this.live, { again: 'lay it out again' })}
      ${this.live.answer === null ? nothing : this.laid(this.live.answer)}`;
  }

  private ask(typedDown: string, typedAcross: string): void {
    const { scenario } = this;
    const [down, across] = [axisOf(scenario, typedDown), axisOf(scenario, typedAcross)];
    this.live.ask({
      key: JSON.stringify([scenario, typedDown, typedAcross]),
      run: async ({ runner, signal, show }) => {
        const grid = await runGrid(gridOf(scenario, down, across, COUNT), runner, undefined, signal);
        if (grid !== null) show({ down, across, grid });
      },
    });
    this.requestUpdate();
  }

  private laid({ down, across, grid }: Laid): TemplateResult {
    const { currency } = plantOf(this.scenario).money;
    return html`<p role="status">${chosenWords(grid, down, across, currency)}</p>
      <div class="scroll">
        <table>
          <caption class="muted small">
            Good units a shift, ${grid.target === null ? '' : 'the chance of the number, '}and money a shift.
            Outlined: the cheapest that makes it. Fields of one letter, shaded, cannot be told apart.
          </caption>
          <thead>
            <tr>
              <td></td>
              ${across.told.map((told) => html`<th scope="col">${told}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${down.told.map(
              (told, row) =>
                html`<tr>
                  <th scope="row">${told}</th>
                  ${grid.cells.filter((cell) => cell.row === row).map((cell) => this.field(cell, { down, across, grid }, currency))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>`;
  }

  private field(cell: GridCell, { down, across, grid }: Laid, currency: string): TemplateResult {
    const { estimate, range } = rangeText(cell.good);
    const at = cell.row * grid.columns + cell.column;
    const style = [grid.cheapest?.at === at ? 'cheapest' : '', cell.alike === null ? '' : 'alike'].join(' ');
    const made = choiceOf(down, across, cell.row, cell.column);
    const name = fieldWords(cell, down, across);
    return html`<td class=${style}>
      <span class="units">${estimate}</span>
      ${range === '' ? nothing : html`<span class="muted">${range}</span>`}
      ${cell.alike === null ? nothing : String.fromCharCode(97 + (cell.alike % 26))}<br />
      ${cell.chance === null ? nothing : html`${chanceCell(cell.chance)}<br />`}
      ${money(Math.round((cell.net ?? cell.cost).estimate), currency)}${cell.net === null ? ' cost' : ''}
      ${
        made.length === 0
          ? html`<span class="muted">as it is</span>`
          : html`<button
              type="button"
              class="plain"
              aria-label=${`put beside: ${name}`}
              @click=${() => this.beside(made, name)}
            >
              put beside
            </button>`
      }
    </td>`;
  }

  private beside(typed: ReturnType<typeof choiceOf>, name: string): void {
    const { changes, price } = makeTogether(this.scenario, typed);
    const detail: Option & { name: string } = {
      name: name.slice(0, 120),
      changes,
      ...(price === undefined ? {} : { price }),
    };
    this.dispatchEvent(new CustomEvent('beside', { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-grid': CwGrid;
  }
}

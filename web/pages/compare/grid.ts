/** Two things that vary, a field each: on Compare, asked for by a press. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { alikeSentence, chosenWords, fieldWords, lettered } from '../../../src/report/pages/grid-page.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { runGrid, type GridAnswer, type GridCell } from '../../../src/study/grid.ts';
import { makeTogether } from '../../../src/whatif/make.ts';
import {
  axesOffered,
  axisOf,
  choiceOf,
  gridOf,
  usualAxes,
  type Axis,
  type AxisOffer,
} from '../../../src/whatif/grid.ts';
import { chanceWithRange } from '../../../src/words/study-words.ts';
import { money, rangeText } from '../../../src/words/words.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { base } from '../../parts/style.ts';
import { Live } from '../../work/live.ts';
import { lastOf } from '../../work/same.ts';
import { aTurn } from '../../work/turn.ts';
import { plantOf } from '../common/resolved.ts';
import { workLine } from '../common/work-line.ts';
import type { Option } from './options.ts';

/** Shifts of each field: enough to tell most fields apart, and quickly there. */
const COUNT = 200;

/** From so many on the fields are shown while the others are played. */
const SOON = 30;
const SIZES = [
  { value: 'few', label: 'a few' },
  { value: 'six', label: 'six' },
];

interface Laid {
  /** The cell it was laid out for. */
  of: Scenario;
  so: 'far' | 'final';
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
      .axes cw-choice {
        min-width: min(100%, 15rem);
      }
      .scroll {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font-size: var(--size-small);
        font-variant-numeric: lining-nums tabular-nums;
      }
      caption {
        text-align: left;
        padding-bottom: var(--space-2);
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
      /* Who slides the fields along still sees which row it is. */
      tbody th,
      thead td {
        position: sticky;
        left: 0;
        z-index: 1;
        background: var(--paper);
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
        min-width: 0;
        padding: 0;
      }
      td button {
        display: block;
        padding: 0;
        font-weight: 400;
        text-align: left;
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
      .range,
      .of {
        display: block;
      }
      .range {
        color: var(--muted);
        white-space: nowrap;
      }
      .letter {
        float: right;
        font-style: italic;
      }
      .mark {
        display: block;
        font-weight: 600;
      }
      /* On a phone a row of fields is a list of them, each named by its column. */
      @media screen and (max-width: 559px) {
        .scroll {
          overflow-x: visible;
        }
        table,
        caption,
        tbody,
        tr,
        tbody th,
        td {
          display: block;
        }
        thead {
          position: absolute;
          clip-path: inset(50%);
          width: 1px;
          height: 1px;
          overflow: hidden;
        }
        tbody th {
          position: static;
          max-width: none;
          padding: var(--space-4) 0 var(--space-2);
        }
        tr {
          display: grid;
          grid-template-columns: 1fr 1fr;
        }
        tbody th {
          grid-column: 1 / -1;
        }
        td {
          min-width: 0;
          padding: var(--space-2);
        }
        td[data-column]::before {
          content: attr(data-column) / '';
          display: block;
          color: var(--muted);
        }
      }
      @media print {
        .axes {
          display: none;
        }
        td {
          min-width: 0;
          padding: 1mm 2mm;
        }
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @state() private down: string | null = null;
  @state() private across: string | null = null;
  @state() private wide = false;
  private readonly live = new Live<Laid>(this);

  protected override render(): TemplateResult {
    const { scenario } = this;
    const offered = this.offered(scenario);
    const usual = usualAxes(scenario);
    const chosen = (typed: string | null, otherwise: string): AxisOffer =>
      offered.find((one) => one.typed === (typed ?? otherwise)) ?? offered[0]!;
    const [down, across] = [chosen(this.down, usual.down), chosen(this.across, usual.across)];
    const choices = offered.map(({ typed, name }) => ({ value: typed, label: name }));
    const choice = (
      label: string,
      { typed: value }: AxisOffer,
      set: (typed: string) => void,
    ): TemplateResult =>
      html`<cw-choice
        list
        label=${label}
        .choices=${choices}
        value=${value}
        @cw-change=${(event: PartEvent<'cw-change', string>) => set(event.detail.value)}
      ></cw-choice>`;
    const { answer } = this.live;
    return html`<div class="axes">
        ${choice('What varies across', across, (typed) => (this.across = typed))}
        ${choice('What varies down', down, (typed) => (this.down = typed))}
        <cw-choice
          label="Values of each"
          .choices=${SIZES}
          value=${this.wide ? 'six' : 'few'}
          @cw-change=${(event: PartEvent<'cw-change', string>) => (this.wide = event.detail.value === 'six')}
        ></cw-choice>
      </div>
      <button type="button" @click=${() => this.ask(this.typed(down), this.typed(across))}>
        ${answer === null ? 'lay it out' : 'lay it out again'}
      </button>
      ${workLine(this.live, {
        running: html`<p class="muted" role="status">
          ${answer?.so === 'far' && this.live.current ? `So far, from ${answer.grid.count} of ${COUNT} shifts of each field.` : 'Being played.'}
        </p>`,
        stop: true,
        stopped: 'Stopped.',
        again: 'lay it out again',
      })}
      ${answer === null ? nothing : this.laid(answer)}`;
  }

  private readonly offered = lastOf(axesOffered);

  private typed({ typed, wide }: AxisOffer): string {
    return this.wide ? wide : typed;
  }

  private ask(typedDown: string, typedAcross: string): void {
    const { scenario } = this;
    this.live.ask({
      key: JSON.stringify([scenario, typedDown, typedAcross]),
      run: async ({ runner, signal, show }) => {
        const [down, across] = [axisOf(scenario, typedDown), axisOf(scenario, typedAcross)];
        await aTurn();
        const question = gridOf(scenario, down, across, COUNT);
        await aTurn();
        const grid = await runGrid(
          question,
          runner,
          (look, answer) => {
            if (!look.look.enough && look.stopping.done >= SOON)
              void aTurn().then(
                () =>
                  look.look.enough ||
                  signal.aborted ||
                  show({ of: scenario, down, across, grid: answer(), so: 'far' }),
              );
          },
          signal,
        );
        if (grid !== null) show({ of: scenario, down, across, grid, so: 'final' });
      },
    });
    this.requestUpdate();
  }

  private laid(laid: Laid): TemplateResult {
    const { of, down, across, grid } = laid;
    const { currency } = plantOf(of).money;
    const left = [...down.left, ...across.left];
    return html`${of === this.scenario ? nothing : html`<p class="wrong">This is from before the last change of the cell.</p>`}
      <p role="status">${chosenWords(grid, down, across, currency)}</p>
      <div class="scroll" tabindex="0" role="region" aria-label="Two things at once, a field each">
        <table>
          <caption class="muted small">
            ${captionOf(grid)}
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
                  ${grid.cells.filter((cell) => cell.row === row).map((cell) => this.field(cell, laid, currency))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="muted small">${alikeSentence(grid)}</p>
      ${left.map(({ told, why }) => html`<p class="muted small">Left out, since the cell does not take it: ${told} (${why}).</p>`)}`;
  }

  private field(cell: GridCell, { of, down, across, grid }: Laid, currency: string): TemplateResult {
    const { estimate, range } = rangeText(cell.good);
    const at = cell.row * grid.columns + cell.column;
    const cheapest = grid.cheapest?.at === at;
    const made = choiceOf(down, across, cell.row, cell.column);
    const name = fieldWords(cell, down, across);
    return html`<td
      class=${[cheapest ? 'cheapest' : '', cell.alike === null ? '' : 'alike'].join(' ')}
      data-column=${across.told[cell.column]!}
    >
      ${cell.alike === null ? nothing : html`<span class="letter">${lettered(cell.alike)}</span>`}
      <span class="units">${estimate}</span>
      ${range === '' ? nothing : html`<span class="range">${range}</span>`}
      ${cell.chance === null ? nothing : html`<span class="of">${chanceWithRange(cell.chance)}</span>`}
      ${money(Math.round((cell.net ?? cell.cost).estimate), currency)}${cell.net === null ? ' cost' : ''}
      ${cheapest ? html`<span class="mark">${grid.cheapest?.sure === true ? 'cheapest that makes it' : 'cheapest that may make it'}</span>` : nothing}
      ${
        made.length === 0
          ? html`<span class="muted">as it is</span>`
          : html`<button
              type="button"
              class="plain"
              aria-label=${`put beside: ${name}`}
              @click=${() => this.beside(of, made, name)}
            >
              put beside
            </button>`
      }
    </td>`;
  }

  private beside(of: Scenario, typed: ReturnType<typeof choiceOf>, name: string): void {
    const { changes, price } = makeTogether(of, typed);
    const detail: Option & { name: string } = {
      name: name.slice(0, 120),
      changes,
      ...(price === undefined ? {} : { price }),
    };
    this.dispatchEvent(new CustomEvent('beside', { detail }));
  }
}

/** What stands in a field, from the top. */
const captionOf = ({ target, mostNet }: GridAnswer): string =>
  `In each field: good units a shift with their range, ${target === null ? '' : 'the chance of the number, '}${mostNet === null ? 'what a shift costs' : 'net money a shift'}. ${target === null ? '' : 'Outlined: the cheapest that makes it. '}Shaded, with a letter: not to be told from a field beside it.`;

declare global {
  interface HTMLElementTagNameMap {
    'cw-grid': CwGrid;
  }
}

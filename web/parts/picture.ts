import { css, html, LitElement, nothing, unsafeCSS, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Size, Table } from '../../src/charts/index.ts';
import { LIGHT } from '../../src/charts/palette.ts';
import { aTurn } from '../work/turn.ts';
import { copyTable, savePicture } from './hand-on.ts';
import { base } from './style.ts';

/** The page's theme in place of the colours that a picture carries for itself. */
const themed = Object.keys(LIGHT)
  .map((ink) => `.fill-${ink}{fill:var(--${ink})}.stroke-${ink}{stroke:var(--${ink})}`)
  .join('');

/**
 * `<cw-picture .draw=${(size) => comparisonPicture(data, size)} .table=${comparisonTable(data)}>`: a picture
 * drawn to the width there is, with its figures as a table behind "as a table", from where both can be taken
 * along. Events go through: blocks of lanes carry data-lane and data-block, rows of choices data-row.
 * Properties besides: `paper`, `copied` (figures for a spreadsheet, where they are more than the table).
 *
 * The text of the picture is parsed as an SVG image and its nodes taken over; it is never read as HTML.
 */
@customElement('cw-picture')
export class CwPicture extends LitElement {
  static override styles = [
    base,
    unsafeCSS(themed),
    css`
      .canvas {
        min-height: 120px;
      }
      svg {
        display: block;
        max-width: 100%;
        height: auto;
        overflow: visible;
      }
      text {
        font-family: var(--text);
        font-variant-numeric: tabular-nums;
      }
      /**
       * On a screen the colours lead and the hatches stay quiet; in print and where contrast is asked for
       * they speak up.
       */
      .hatch {
        opacity: 0.45;
      }
      @media print {
        .hatch {
          opacity: 1;
        }
      }
      @media (prefers-contrast: more) {
        .hatch {
          opacity: 1;
        }
      }
      [data-block],
      [data-row] {
        cursor: pointer;
      }
      .along {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--space-4);
      }
      summary {
        display: inline-flex;
        align-items: center;
        min-height: var(--touch);
        cursor: pointer;
        color: var(--muted);
        font-size: var(--size-small);
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
      }
      summary::-webkit-details-marker {
        display: none;
      }
      .scroll {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font-size: var(--size-small);
        margin-bottom: var(--space-4);
      }
      th,
      td {
        text-align: left;
        vertical-align: top;
        padding: var(--space-2) var(--space-4) var(--space-2) 0;
        border-bottom: 1px solid var(--hairline);
        font-weight: 400;
      }
      thead th {
        color: var(--muted);
        border-bottom-color: var(--muted);
      }
      tbody th {
        font-weight: 600;
      }
      @media print {
        details:not([open]) {
          display: none;
        }
        /* No picture is higher than what is left of a sheet under a heading. */
        svg {
          break-inside: avoid;
          max-height: 195mm;
        }
      }
    `,
  ];
  private static count = 0;
  private readonly pictureId = `picture-${(CwPicture.count += 1)}`;
  /** Called with the width there is, again whenever it or this function changes. */
  @property({ attribute: false }) draw: ((size: Size) => string) | null = null;
  @property({ attribute: false }) table: Table | null = null;
  @property({ attribute: false }) copied: Table | null = null;
  /**
   * Most px on paper: a picture drawn for a wide screen and shrunk would be too small to read. Default: the
   * text's width on A4.
   */
  @property({ type: Number }) paper = 680;
  @state() private width = 0;
  private drawing: Promise<void> | null = null;
  private readonly observer = new ResizeObserver(
    ([entry]) => (this.width = Math.floor(entry!.contentRect.width)),
  );

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
    addEventListener('beforeprint', this.forPaper);
    addEventListener('afterprint', this.forScreen);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
    removeEventListener('beforeprint', this.forPaper);
    removeEventListener('afterprint', this.forScreen);
  }

  private readonly forPaper = (): void => this.drawn(Math.min(this.width, this.paper));
  private readonly forScreen = (): void => this.drawn();

  protected override async getUpdateComplete(): Promise<boolean> {
    const whole = await super.getUpdateComplete();
    await this.drawing;
    return whole;
  }

  protected override render(): TemplateResult {
    return html`<div class="canvas"></div>
      ${this.table === null ? nothing : this.asTable(this.table)}`;
  }

  private asTable({ head, rows }: Table): TemplateResult {
    return html`<details>
      <summary>as a table</summary>
      <div class="along">
        <button type="button" class="plain small" @click=${() => void copyTable(this.copied ?? this.table!)}>
          copy the figures
        </button>
        <button type="button" class="plain small" @click=${() => void this.save('svg')}>
          picture as SVG
        </button>
        <button type="button" class="plain small" @click=${() => void this.save('png')}>
          picture as PNG
        </button>
      </div>
      <div class="scroll" tabindex="0" role="region" aria-label="The figures of the picture">
        <table>
          <thead>
            <tr>
              ${head.map((cell) => html`<th scope="col">${cell}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${rows.map(
              (row) =>
                html`<tr>
                  ${row.map((cell, i) => (i === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
    </details>`;
  }

  /** As on paper, in the colors of paper, whatever the screen has. */
  private async save(kind: 'svg' | 'png'): Promise<void> {
    if (this.draw === null) return;
    const svg = this.draw({ width: this.paper, id: this.pictureId });
    const title = this.renderRoot.querySelector('svg')?.getAttribute('aria-label') ?? '';
    await savePicture(svg, title, kind);
  }

  protected override updated(changed: PropertyValues): void {
    if (this.draw === null || this.width === 0 || !(changed.has('draw') || changed.has('width'))) return;
    this.drawing ??= aTurn().then(() => this.drawn());
  }

  /** Each picture in a turn of its own: a page of them is not one long task. */
  private drawn(width = this.width): void {
    this.drawing = null;
    if (this.draw === null || this.width === 0) return;
    const canvas = this.renderRoot.querySelector('.canvas')!;
    const read = new DOMParser().parseFromString(
      this.draw({ width: Math.max(300, width), id: this.pictureId }),
      'image/svg+xml',
    );
    if (read.querySelector('parsererror') !== null) throw new Error('the picture is not well-formed');
    const svg = document.importNode(read.documentElement, true);
    // On a page a title of the whole picture would hang at the pointer everywhere over it; it is said to
    // those who listen all the same.
    const title = svg.querySelector(':scope > title');
    svg.setAttribute('aria-label', title?.textContent ?? '');
    svg.removeAttribute('aria-labelledby');
    svg.setAttribute('aria-describedby', `${this.pictureId}-desc`);
    title?.remove();
    canvas.replaceChildren(svg);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-picture': CwPicture;
  }
}

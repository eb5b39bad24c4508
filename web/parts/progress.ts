import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { tell } from './events.ts';
import { base } from './style.ts';
import { placed } from './placed.ts';

/**
 * `<cw-progress .half=${0.8} .wanted=${0.25} .shifts=${120} running>`: the interval drawing together towards
 * the width wanted is the progress. Properties: half (half-width reached, NaN before any), wanted, shifts,
 * unit, running, ended (a sentence when it stopped for another reason). Event: cw-stop.
 */
@customElement('cw-progress')
export class CwProgress extends LitElement {
  static override styles = [
    base,
    css`
      .row {
        display: grid;
        grid-template-columns: minmax(120px, 240px) 1fr auto;
        gap: var(--space-4);
        align-items: center;
        min-height: var(--touch);
      }
      .line {
        position: relative;
        height: 20px;
        border-bottom: 1px solid var(--hairline);
      }
      .line div {
        position: absolute;
        left: 50%;
        translate: -50% 0;
      }
      .now {
        bottom: -3px;
        height: 6px;
        background: var(--ink);
        transition: width 0.2s ease-out;
      }
      .wanted {
        bottom: -9px;
        height: 17px;
        border: solid var(--muted);
        border-width: 0 2px;
      }
      p {
        margin: 0;
      }
      @media (max-width: 560px) {
        .row {
          grid-template-columns: 1fr auto;
        }
        p {
          grid-row: 2;
          grid-column: 1 / -1;
        }
      }
      @media print {
        .line {
          display: none;
        }
        .row {
          display: block;
          min-height: 0;
        }
      }
    `,
  ];
  @property({ type: Number }) half = NaN;
  @property({ type: Number }) wanted = 0.25;
  @property({ type: Number }) shifts = 0;
  @property() unit = 'units a shift';
  @property({ type: Boolean }) running = false;
  @property() ended = '';

  protected override render(): TemplateResult {
    // Width by the root: equal halvings of the interval, each four times the work, move the ends by like
    // amounts.
    const wide = (half: number): string => `${Math.min(100, 24 * Math.sqrt(half / this.wanted))}%`;
    const known = Number.isFinite(this.half);
    const words = known
      ? `sure to ± ${this.half.toFixed(2)} ${this.unit} after ${this.shifts.toLocaleString('en-US')} shifts; ± ${this.wanted} is wanted`
      : 'first shifts running';
    return html`<div class="row">
      <div class="line" aria-hidden="true">
        <div class="wanted" style=${placed({ width: wide(this.wanted) })}></div>
        <div class="now" style=${placed({ width: known ? wide(this.half) : '100%' })}></div>
      </div>
      <p class="muted small">
        ${this.running ? words : this.ended || (known ? `Sure to ± ${this.half.toFixed(2)} ${this.unit}, ${this.shifts.toLocaleString('en-US')} shifts.` : nothing)}
      </p>
      <button type="button" ?hidden=${!this.running} @click=${() => tell(this, 'cw-stop', null)}>stop</button>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-progress': CwProgress;
  }
}

import { css, html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { hourMarks } from '../../../src/charts/axis.ts';
import type { Size } from '../../../src/charts/index.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { dayPicture, dayTable, geometryOf, scaleOf, type Span } from './day-picture.ts';
import { blockAt, blockWords, clockAt, type Told, whyWords } from './told.ts';
import { placed } from '../../parts/placed.ts';

export interface Looked {
  lane: number;
  block: number;
}

/**
 * `<cw-day .told=${told} .span=${{ from: 0, to: 510 }} now="120" .looked=${{ lane, block }}>`: the shift
 * drawn, a line at the minute, and over each lane a button that arrow keys walk along. Events: look (detail
 * Looked), now (detail minutes).
 */
@customElement('cw-day')
export class CwDay extends LitElement {
  static override styles = [
    base,
    css`
      .stage {
        position: relative;
      }
      /* The hours stay in sight, however far down the lanes go. */
      .hours {
        position: sticky;
        top: 0;
        z-index: 2;
        background: var(--paper);
        border-bottom: 1px solid var(--hairline);
      }
      .marks {
        position: relative;
        height: 1.5em;
        font-size: var(--size-small);
        line-height: 1.4;
        color: var(--muted);
        font-variant-numeric: lining-nums tabular-nums;
      }
      .marks span {
        position: absolute;
        transform: translateX(-50%);
      }
      .now,
      .mark,
      .lane {
        position: absolute;
        pointer-events: none;
      }
      .now {
        width: 2px;
        margin-left: -1px;
        background: var(--ink);
      }
      .mark {
        border: 2px solid var(--ink);
        outline: 2px solid var(--paper);
      }
      .lane {
        pointer-events: auto;
        padding: 0;
        min-height: 0;
        border: 0;
        cursor: pointer;
      }
      .lane:hover:not([disabled]) {
        background: none;
      }
      input[type='range'] {
        display: block;
        position: relative;
        width: auto;
        height: var(--touch);
        margin: 0;
        accent-color: var(--ink);
        cursor: pointer;
      }
      @media print {
        input[type='range'],
        .mark,
        .now,
        .marks {
          display: none;
        }
      }
    `,
  ];
  @property({ attribute: false }) told!: Told;
  @property({ attribute: false }) span: Span = { from: 0, to: 510 };
  @property({ type: Number }) now = 0;
  @property({ attribute: false }) looked: Looked | null = null;
  @property() heading = '';
  @state() private width = 0;
  /** Fingers come down on the lanes: they are drawn higher. */
  private touch = false;
  private drawing: (size: Size) => string = () => '';
  private readonly observer = new ResizeObserver(
    ([entry]) => (this.width = Math.max(300, Math.floor(entry!.contentRect.width))),
  );

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const touch = matchMedia('(pointer: coarse), (max-width: 1023px)').matches;
    if (touch === this.touch && !changed.has('told') && !changed.has('span')) return;
    this.touch = touch;
    const { told, span } = this;
    this.drawing = (size) =>
      dayPicture(
        told,
        span,
        { ...size, touch },
        { title: 'One shift, minute by minute', description: this.heading, seed: told.shift.seed },
      );
  }

  protected override render(): TemplateResult {
    const { told, span, now } = this;
    if (this.width === 0) return html`<div class="stage"></div>`;
    const at = geometryOf(told, this.width, this.touch);
    const x = scaleOf(at, span);
    const [left, wide] = [at.left, at.right - at.left];
    return html` <div class="hours">
        <input
          type="range"
          aria-label="The minute shown"
          aria-valuetext=${clockAt(told.shift, now)}
          min=${Math.floor(span.from)}
          max=${Math.ceil(span.to)}
          step="1"
          .value=${String(Math.round(now))}
          style=${placed({ left: `${left - 8}px`, width: `${wide + 16}px` })}
          @input=${(event: Event) => this.tell('now', Number((event.target as HTMLInputElement).value))}
        />
        <div class="marks" aria-hidden="true">${this.marks(x)}</div>
      </div>
      <div class="stage">
        <cw-picture .draw=${this.drawing} .table=${dayTable(told)}></cw-picture>
        ${told.lanes.map(
          (lane, i) =>
            html`<button
              type="button"
              class="lane"
              data-at=${i}
              aria-label=${`${this.laneWords(i)} Arrow keys go through the day.`}
              style=${placed({ left: `${left}px`, width: `${wide}px`, top: `${at.lanes[i]! + at.laneHeight + 4 - at.pitch}px`, height: `${at.pitch}px` })}
              @click=${(event: MouseEvent) => this.touched(event, i, x.invert)}
              @keydown=${(event: KeyboardEvent) => this.key(event, i)}
            ></button>`,
        )}
        ${this.mark(x, at.lanes, at.laneHeight)}
        ${now < span.from || now > span.to ? '' : html`<div class="now" style=${placed({ left: `${x(now)}px`, top: `${at.top - 4}px`, height: `${at.bottom - at.top + 4}px` })}></div>`}
      </div>`;
  }

  private marks(x: (minutes: number) => number): TemplateResult[] {
    const { told, span } = this;
    const start = clockAt(told.shift, span.from);
    const length = span.to - span.from;
    return hourMarks({ start, length, breaks: [] }, x(span.to) - x(span.from)).map(
      (minute) =>
        html`<span style=${placed({ left: `${x(span.from + minute)}px` })}
          >${clockAt(told.shift, span.from + minute)}</span
        >`,
    );
  }

  private mark(x: (minutes: number) => number, tops: number[], high: number): TemplateResult | string {
    const { looked, told, span } = this;
    const block = looked === null ? undefined : told.lanes[looked.lane]?.blocks[looked.block];
    if (looked === null || block === undefined || block.to < span.from || block.from > span.to) return '';
    const [from, to] = [Math.max(span.from, block.from), Math.min(span.to, block.to)];
    return html`<div
      class="mark"
      style=${placed({ left: `${x(from) - 2}px`, width: `${Math.max(4, x(to) - x(from)) + 4}px`, top: `${tops[looked.lane]! - 2}px`, height: `${high + 4}px` })}
    ></div>`;
  }

  private laneWords(lane: number): string {
    const { looked, told } = this;
    const one = told.lanes[lane]!;
    const block = looked?.lane === lane ? one.blocks[looked.block] : blockAt(one, this.now);
    return block === undefined
      ? one.name
      : `${blockWords(told, one, block)} ${whyWords(told, one, block)}`.trim();
  }

  private touched(event: MouseEvent, lane: number, invert: (px: number) => number): void {
    if (event.detail === 0) return this.look(lane, this.indexAt(lane, this.now));
    const box = this.renderRoot.querySelector('.stage')!.getBoundingClientRect();
    this.look(lane, this.indexAt(lane, invert(event.clientX - box.left)));
  }

  private indexAt(lane: number, at: number): number {
    const { blocks } = this.told.lanes[lane]!;
    return Math.max(
      0,
      blocks.findIndex(({ from, to }) => at >= from && at < to),
    );
  }

  private key(event: KeyboardEvent, lane: number): void {
    const { blocks } = this.told.lanes[lane]!;
    const here = this.looked?.lane === lane ? this.looked.block : this.indexAt(lane, this.now);
    if (event.altKey) return;
    const to = { ArrowRight: here + 1, ArrowLeft: here - 1, Home: 0, End: blocks.length - 1 }[event.key];
    if (to !== undefined) {
      event.preventDefault();
      this.look(lane, Math.min(blocks.length - 1, Math.max(0, to)));
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const next = Math.min(
        this.told.lanes.length - 1,
        Math.max(0, lane + (event.key === 'ArrowDown' ? 1 : -1)),
      );
      this.renderRoot.querySelector<HTMLElement>(`.lane[data-at="${next}"]`)?.focus();
      this.look(next, this.indexAt(next, this.now));
    }
  }

  private look(lane: number, block: number): void {
    this.dispatchEvent(new CustomEvent<Looked>('look', { detail: { lane, block } }));
  }

  private tell(name: string, detail: number): void {
    this.dispatchEvent(new CustomEvent<number>(name, { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-day': CwDay;
  }
}

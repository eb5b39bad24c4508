import { css, html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { scaleLinear, type ScaleLinear } from 'd3';
import { tell } from './events.ts';

const HEIGHT = 44;

/**
 * `<cw-ruler>`: a rule to drag along, for pointers only; the field beside it serves the keyboard and says the
 * value. Properties: value, from, to, step. Events: cw-try while dragging, cw-change on letting go.
 */
@customElement('cw-ruler')
export class CwRuler extends LitElement {
  static override styles = css`
    :host {
      display: block;
      height: ${HEIGHT}px;
      touch-action: pan-y;
      cursor: ew-resize;
      user-select: none;
    }
    svg {
      display: block;
      overflow: visible;
    }
    line {
      stroke: var(--muted);
      stroke-width: 1;
    }
    text {
      fill: var(--muted);
      font: 400 12px var(--text);
      text-anchor: middle;
    }
    .mark {
      fill: var(--ink);
      stroke: var(--paper);
      stroke-width: 2;
    }
    .reach {
      stroke: var(--ink);
      stroke-width: 3;
    }
    @media print {
      :host {
        display: none;
      }
    }
  `;
  @property({ type: Number }) value: number | null = null;
  @property({ type: Number }) from = 0;
  @property({ type: Number }) to = 10;
  @property({ type: Number }) step = 1;
  @state() private width = 0;
  private dragging = false;
  private last: number | null = null;
  private readonly observer = new ResizeObserver(
    ([entry]) => (this.width = Math.round(entry!.contentRect.width)),
  );

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
    this.setAttribute('aria-hidden', 'true');
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
  }

  private get scale(): ScaleLinear<number, number> {
    return scaleLinear()
      .domain([this.from, this.to])
      .range([8, Math.max(9, this.width - 8)])
      .clamp(true);
  }

  protected override render(): TemplateResult | typeof nothing {
    if (this.width === 0) return nothing;
    const scale = this.scale;
    const numbered = scale.ticks(Math.max(2, Math.min(6, Math.floor(this.width / 48))));
    const between = scale.ticks(numbered.length * 5).filter((tick) => !numbered.includes(tick));
    const at = this.value === null ? null : scale(this.value);
    return html`<svg
      width=${this.width}
      height=${HEIGHT}
      @pointerdown=${this.begin}
      @pointermove=${this.move}
      @pointerup=${this.end}
      @pointercancel=${this.end}
    >
      <rect width=${this.width} height=${HEIGHT} fill="transparent"></rect>
      <line x1="8" x2=${this.width - 8} y1="14" y2="14"></line>
      ${between.map((tick) => svg`<line x1=${scale(tick)} x2=${scale(tick)} y1="14" y2="18"></line>`)}
      ${numbered.map((tick) => svg`<line x1=${scale(tick)} x2=${scale(tick)} y1="14" y2="23"></line><text x=${scale(tick)} y="38">${tick}</text>`)}
      ${at === null ? nothing : svg`<line class="reach" x1="8" x2=${at} y1="14" y2="14"></line><path class="mark" d=${`M${at} 15l-8 -9v-5h16v5z`}></path>`}
    </svg>`;
  }

  private read(event: PointerEvent): number {
    const raw = this.scale.invert(event.clientX - this.getBoundingClientRect().left);
    const stepped = Math.round(raw / this.step) * this.step;
    return Math.min(this.to, Math.max(this.from, Math.round(stepped * 1000) / 1000));
  }

  private readonly begin = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    this.dragging = true;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    this.move(event);
  };

  private readonly move = (event: PointerEvent): void => {
    if (!this.dragging) return;
    const value = this.read(event);
    if (value === this.last) return;
    this.last = value;
    tell(this, 'cw-try', { value });
  };

  private readonly end = (): void => {
    if (!this.dragging) return;
    this.dragging = false;
    if (this.last !== null) tell(this, 'cw-change', { value: this.last });
    this.last = null;
  };
}

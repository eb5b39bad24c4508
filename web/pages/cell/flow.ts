import { css, html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Size } from '../../../src/charts/index.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { spotKey, type Spot } from './cell-data.ts';
import { flowPicture, flowTable, flowTargets, type Target } from './flow-picture.ts';
import { placed } from '../../parts/placed.ts';

/**
 * `<cw-flow .scenario=${scenario} chosen="steps/fit">`: the cell drawn; each step, clamp set and end of it is
 * a button over the picture. Event: pick { kind, id }.
 */
@customElement('cw-flow')
export class CwFlow extends LitElement {
  static override styles = [
    base,
    css`
      .stage {
        position: relative;
      }
      .hit {
        position: absolute;
        left: calc(-1 * var(--space-2));
        right: calc(-1 * var(--space-2));
        padding: 0;
        min-height: 0;
        border: 0;
        justify-content: flex-start;
      }
      .hit:hover:not([disabled]) {
        background: none;
        box-shadow: inset 3px 0 0 var(--muted);
      }
      .hit[aria-current='true'] {
        box-shadow: inset 4px 0 0 var(--ink);
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @property() chosen = '';
  @state() private width = 0;
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
    if (!changed.has('scenario')) return;
    const { scenario } = this;
    this.drawing = (size) => flowPicture(scenario, size);
  }

  protected override render(): TemplateResult {
    const targets = this.width === 0 ? [] : flowTargets(this.scenario, this.width);
    return html`<div class="stage">
      <cw-picture .draw=${this.drawing} .table=${flowTable(this.scenario)}></cw-picture> ${repeat(
        targets,
        (target, i) => `${spotKey(target)} ${i}`,
        (target) =>
          html`<button
            type="button"
            class="hit"
            data-spot=${spotKey(target)}
            aria-label=${`${target.words}. Change it`}
            aria-current=${spotKey(target) === this.chosen ? 'true' : 'false'}
            style=${placed({ top: `${target.top}px`, height: `${target.height}px` })}
            @click=${() => this.pick(target)}
          ></button>`,
      )}
    </div>`;
  }

  private pick({ kind, id }: Target): void {
    this.dispatchEvent(
      new CustomEvent<Spot>('pick', { detail: { kind, id }, bubbles: true, composed: true }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-flow': CwFlow;
  }
}

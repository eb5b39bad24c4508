import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { shortDay, type Order } from '../../../src/scenario/calendar.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { counted } from '../../../src/words/words.ts';
import '../../parts/choice.ts';
import '../../parts/clock.ts';
import '../../parts/date.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import '../../parts/toggle.ts';
import { shiftOf } from '../common/resolved.ts';
import { nameFor } from './asked-order.ts';

/**
 * `<cw-order-asked .filed=${…} .orders=${[…]} from="2027-03-08">`: what if this order came? Events: asked
 * (detail: all orders asked about), taken (detail: one that is promised).
 */
@customElement('cw-order-asked')
export class CwOrderAsked extends LitElement {
  static override styles = [
    base,
    css`
      .fields {
        display: grid;
        gap: var(--space-3);
      }
      ul {
        list-style: none;
        padding: 0;
        margin: 0;
      }
      li {
        border-bottom: 1px solid var(--hairline);
        padding: var(--space-2) 0;
      }
      summary {
        min-height: var(--touch);
        display: flex;
        align-items: center;
        font-weight: 600;
        cursor: pointer;
      }
    `,
  ];
  @property({ attribute: false }) filed!: Scenario;
  @property({ attribute: false }) orders: Order[] = [];
  @property() from = '';
  @state() private draft: Partial<Order> = {};

  private get order(): Order {
    const { filed, orders, from, draft } = this;
    return {
      name: nameFor(filed, orders),
      units: 2,
      day: from,
      due: draft.day === undefined ? from : draft.day,
      rush: true,
      ...draft,
    };
  }

  protected override render(): TemplateResult {
    const { order, orders } = this;
    const { products, start } = shiftOf(this.filed);
    return html`${
        orders.length === 0
          ? nothing
          : html`<ul aria-label="Asked about">
              ${orders.map((one) => this.askedRow(one))}
            </ul>`
      }
      <details>
        <summary>what if an order came?</summary>
        <div class="fields">
          <cw-text
            label="Its name"
            most="60"
            .value=${order.name}
            @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ name: event.detail.value })}
          ></cw-text>
          <cw-number
            label="Pieces"
            .value=${order.units}
            least="1"
            most="1000"
            whole
            bare
            @cw-change=${(event: PartEvent<'cw-change', number>) => this.set({ units: event.detail.value })}
          ></cw-number>
          ${
            products.length < 2
              ? nothing
              : html`<cw-choice
                  list
                  label="Product"
                  .choices=${products.map(({ id, name }) => ({ value: id, label: name }))}
                  value=${order.product === undefined ? products[0]!.id : order.product}
                  @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ product: event.detail.value })}
                ></cw-choice>`
          }
          <cw-date
            label="Its pieces come on"
            .value=${order.day}
            @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ day: event.detail.value })}
          ></cw-date>
          <cw-clock
            label="at"
            .value=${order.at === undefined ? start : order.at}
            @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ at: event.detail.value })}
          ></cw-clock>
          <cw-date
            label="Due on"
            .value=${order.due}
            @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ due: event.detail.value })}
          ></cw-date>
          <cw-toggle
            label="First in every line"
            .value=${order.rush === true}
            @cw-change=${(event: PartEvent<'cw-change', boolean>) => this.set({ rush: event.detail.value })}
          ></cw-toggle>
          <button type="button" @click=${this.add}>see what it does to the week</button>
        </div>
      </details>`;
  }

  private askedRow(order: Order): TemplateResult {
    return html`<li>
      ${order.name}: ${counted(order.units, 'piece')}, due
      ${shortDay(order.due)}${order.rush === true ? ', rush' : ''}
      <button
        type="button"
        class="plain small"
        @click=${() => this.dispatchEvent(new CustomEvent('taken', { detail: order }))}
      >
        promise it: into the calendar
      </button>
      <button
        type="button"
        class="plain small"
        @click=${() => this.tell(this.orders.filter((one) => one !== order))}
      >
        leave ${order.name}
      </button>
    </li>`;
  }

  private set(change: Partial<Order>): void {
    this.draft = { ...this.draft, ...change };
  }

  private readonly add = (): void => {
    const { order } = this;
    const { products } = shiftOf(this.filed);
    const whole = products.length > 1 ? { product: products[0]!.id, ...order } : order;
    this.draft = {};
    this.tell([...this.orders, whole]);
  };

  private tell(orders: Order[]): void {
    this.dispatchEvent(new CustomEvent('asked', { detail: orders }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-order-asked': CwOrderAsked;
  }
}

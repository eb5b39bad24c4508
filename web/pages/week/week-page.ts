import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { weekPage } from '../../../src/report/week-page.ts';
import { ordersOf, type Order } from '../../../src/scenario/calendar.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { daysOfWeek, planWeek, WEEK, type WeekAnswer } from '../../../src/today/week.ts';
import { counted } from '../../../src/words/words.ts';
import '../../parts/date.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import { base } from '../../parts/style.ts';
import '../../parts/toggle.ts';
import { dayAbout, dayValues } from '../../shell/day.ts';
import { addressOf } from '../../shell/route.ts';
import { entriesOf } from '../../store/book.ts';
import { lastOf } from '../../work/same.ts';
import { runOrders } from '../../work/orders.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { withOrders, type WithOrders } from './asked-order.ts';
import { columnStyle, dayColumns } from './columns.ts';
import './order-form.ts';

/** The answer with the cell it is of: the calendar may be another by the time it is drawn. */
interface Answered {
  scenario: Scenario;
  week: WeekAnswer;
}

/** How does the week go? Its days as one run, each with its crew. */
@customElement('cw-week')
export class CwWeek extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    columnStyle,
    css`
      .room {
        min-height: 360px;
      }
      .asked {
        display: grid;
        gap: var(--space-4);
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: () => {
      this.turned = null;
      this.orders = [];
    },
    ask: (filed) => this.ask(filed),
    watched: (store) => [store.scenario, store.reading, ...dayValues(store)],
  });
  /** The day to begin with, where it is not the one the pages are about. */
  @state() private turned: string | null = null;
  @state() private planned = true;
  /** Orders that are only asked about. */
  @state() private orders: Order[] = [];
  private readonly live = this.page.live<Answered>();
  private readonly asked = lastOf((filed: Scenario, orders: Order[]): WithOrders =>
    withOrders(filed, orders),
  );

  private get from(): string {
    return this.turned ?? dayAbout(this.page.store);
  }

  private ask(filed: Scenario): void {
    const asked = this.asked(filed, this.orders);
    if (asked.kind === 'wrong') return;
    const { scenario } = asked;
    const { from, planned } = this;
    const entries = entriesOf(this.page.store);
    this.live.askOf([scenario, entries, from, planned], () => ({
      key: JSON.stringify([scenario, entries.map(({ id }) => id), from, planned]),
      run: async ({ runner, signal, show }) => {
        const days = daysOfWeek(scenario, from);
        const week = (crew: boolean): Promise<WeekAnswer> =>
          planWeek(scenario, entries, days, { runner, runOrders }, { ...WEEK, crew }, signal);
        // The file's posts are told at once; planning the crews takes longer.
        show({ scenario, week: await week(false) });
        if (planned) show({ scenario, week: await week(true) });
      },
    }));
  }

  protected override render(): TemplateResult {
    return this.page.sheet('No week can be run until the cell is put right.', (filed) => this.said(filed));
  }

  private said(filed: Scenario): Said {
    const { answer } = this.live;
    const page = answer === null ? null : weekPage(answer);
    const [heading, opening, , ...rest] = page?.blocks ?? [];
    const cautions = rest.findIndex((block) => block.kind === 'heading' && block.text === 'Cautions');
    return {
      answer: heading?.kind === 'heading' ? `${heading.text}.` : 'The week is being run.',
      body: html`${this.running(answer)}
        ${
          answer === null
            ? html`<div class="room"></div>`
            : html`<p class="muted">${filed.name}. ${opening?.kind === 'paragraph' ? opening.text : ''}</p>
                ${dayColumns(answer.scenario, answer.week)}
                ${blocks(cautions < 0 ? rest : rest.slice(0, cautions), 10)}`
        }
        <div slot="controls" class="asked">${this.controls(filed)}</div>`,
    };
  }

  private running(answer: Answered | null): TemplateResult | typeof nothing {
    const planning = answer !== null && this.live.current;
    return workLine(this.live, {
      running: html`<p class="muted" role="status">
        ${planning ? 'Here are the posts of the file; the crews of days without a plan are being planned.' : answer === null ? 'Running the days one after the other.' : 'Running the days again; below stands the week from before the last change.'}
      </p>`,
      stop: true,
      stopped: 'Stopped. What stands here may be from before the last change.',
      on: 'go on',
      again: 'run it again',
    });
  }

  private controls(filed: Scenario): TemplateResult {
    const asked = this.asked(filed, this.orders);
    const known = ordersOf(filed).length;
    return html`<cw-date
        label="The rest of the week from"
        .value=${this.from}
        @cw-change=${(event: PartEvent<'cw-change', string>) => (this.turned = event.detail.value)}
      ></cw-date>
      <cw-toggle
        label="Plan the crews of days that have no plan"
        .value=${this.planned}
        @cw-change=${(event: PartEvent<'cw-change', boolean>) => (this.planned = event.detail.value)}
      ></cw-toggle>
      <p class="muted small">
        ${known === 0 ? 'The calendar of the cell has no orders.' : `The calendar of the cell has ${counted(known, 'order')}.`}
        <a href=${addressOf('cell', 'calendar')}>To the calendar.</a>
      </p>
      ${
        asked.kind === 'fine'
          ? nothing
          : html`<ul class="wrong" role="alert">
              ${asked.faults.map(({ text }) => html`<li>${text}</li>`)}
            </ul>`
      }
      <cw-order-asked
        .filed=${filed}
        .orders=${this.orders}
        from=${daysOfWeek(filed, this.from)[0]!}
        @asked=${(event: CustomEvent<Order[]>) => (this.orders = event.detail)}
        @taken=${(event: CustomEvent<Order>) => this.take(filed, event.detail)}
      ></cw-order-asked>`;
  }

  /** The order is promised: into the calendar of the cell. */
  private take(filed: Scenario, order: Order): void {
    const all = [...ordersOf(filed), order];
    this.page.store.change(`the order “${order.name}”`, ['calendar', 'orders'], all as never);
    this.orders = this.orders.filter((one) => one !== order);
    say(`“${order.name}” is in the calendar of the cell. One step back takes it out.`);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-week': CwWeek;
  }
}

import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { gearStrips, peopleStrips } from '../../../src/report/minutes-of.ts';
import {
  limitsPicture,
  limitsTable,
  minutesPicture,
  minutesTable,
  type Limits,
  type Minutes,
  type Size,
  type Table,
} from '../../../src/charts/index.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import { plantOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { gainCell } from '../../../src/words/alike.ts';
import { differenceThatMatters } from '../../../src/study/from-scenario.ts';
import { limitsOf } from '../../../src/study/loosened.ts';
import { extrasOf, type Extra, type OneMoreOfEach } from '../../../src/study/one-more.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { oneMoreTask } from '../../work/live-study.ts';
import { lastOf } from '../../work/same.ts';
import { footOf } from '../common/of-study.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { progressLine } from '../common/progress-line.ts';
import { besideList, besideStyle, extraRow } from '../compare/beside-list.ts';
import type { PageElement } from '../page.ts';
import { ceilingsTable } from './ceilings.ts';
import './loss.ts';
import './stood.ts';
import { afterWords, answerWords } from './words.ts';

interface Drawn {
  draw: (size: Size) => string;
  table: Table;
}

/** Rows drawn; the rest gain less and stand in the table. */
const MOST_ROWS = 8;

/**
 * What holds us back? One more of each thing, what else can be loosened, the ceilings, and where the minutes
 * went.
 */
@customElement('cw-limits')
export class CwLimits extends LitElement implements PageElement {
  static override styles = [
    base,
    besideStyle,
    css`
      section {
        margin-top: var(--space-12);
      }
      h2 {
        margin-bottom: var(--space-3);
      }
      .room {
        min-height: 420px;
      }
      .next {
        font: 500 var(--size-large) / 1.4 var(--serif);
        font-variant-numeric: lining-nums tabular-nums;
        margin-top: var(--space-4);
      }
      .note {
        color: var(--muted);
        font-size: var(--size-small);
        margin-top: var(--space-3);
      }
      .scroll {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font-size: var(--size-small);
      }
      th,
      td {
        text-align: right;
        vertical-align: baseline;
        font-weight: 400;
        padding: var(--space-2) 0 var(--space-2) var(--space-6);
        border-bottom: 1px solid var(--hairline);
      }
      th:first-child {
        text-align: left;
        padding-left: 0;
        font-weight: 600;
      }
      thead th,
      thead th:first-child {
        color: var(--muted);
        font-weight: 400;
        border-bottom-color: var(--muted);
      }
      @media print {
        section {
          margin-top: var(--space-4);
          break-inside: avoid;
        }
        th,
        td {
          padding: 1mm 0 1mm 5mm;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    ask: (scenario) => {
      this.each.askOf([scenario], () => oneMoreTask(scenario, limitsOf(scenario)));
      this.askAfter(scenario);
    },
  });
  @state() private all = false;
  private readonly each = this.page.live<OneMoreOfEach>();
  private readonly later = this.page.live<OneMoreOfEach>();
  /** The thing that one more of gains most, of the cell it was found in. */
  private best: { of: Scenario; extra: Extra | null } | null = null;

  /** One more of each thing once the best one is there. */
  private askAfter(scenario: Scenario): void {
    const each = this.each.answer;
    if (each === null || this.each.state.kind !== 'done' || !this.each.current || each.study.kind !== 'final')
      return;
    this.later.askOf([scenario, each], () => {
      const things = new Map(extrasOf(scenario).map((extra) => [extra.id, extra]));
      const extra = each.rows.map(({ id }) => things.get(id)).find((one) => one !== undefined) ?? null;
      this.best = { of: scenario, extra };
      return extra === null ? null : oneMoreTask(extra.scenario);
    });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be said until the cell is put right.', (scenario) =>
      this.said(scenario),
    );
  }

  private said(scenario: Scenario): Said {
    const each = this.each.answer;
    const matters = differenceThatMatters(scenario);
    const best = this.best?.of === scenario && this.each.current ? this.best.extra : null;
    return {
      answer: answerWords(each, matters),
      body: html`${each === null || each.study.count < 2 ? html`<div class="room"></div>` : this.pictures(scenario, each, matters)}
        ${progressLine({ live: this.each, store: this.page.store, study: each?.study ?? null, wanted: plantOf(scenario).study.precision, then: this.later.running ? 'Now one more of each thing is tried once the best one is there.' : '' })}
        ${best !== null ? html`<p class="next">${afterWords(best, this.later.current ? this.later.answer : null, matters)}</p>` : nothing}
        ${this.minutes(scenario)}
        ${each === null || each.study.count < 2 ? nothing : ceilingsTable(scenario, each.study.cases[0]!.good)}
        <cw-loss
          .scenario=${scenario}
          ?ready=${this.each.state.kind === 'done' && !this.later.running}
        ></cw-loss>`,
    };
  }

  private pictures(scenario: Scenario, each: OneMoreOfEach, matters: number): TemplateResult {
    const rows = this.draw(each, matters, this.all);
    this.strips = this.minutesOf(scenario, each) ?? this.strips;
    const left = each.rows.length - MOST_ROWS;
    return html`<cw-picture .draw=${rows.draw} .table=${rows.table}></cw-picture>
      ${this.beside(scenario, each)}
      ${left > 0 ? html`<button type="button" aria-expanded=${this.all ? 'true' : 'false'} @click=${() => (this.all = !this.all)}>${this.all ? 'only the first ones' : `${left} more that gain less`}</button>` : nothing}`;
  }

  /** Every row drawn, one press from Compare. */
  private beside(scenario: Scenario, each: OneMoreOfEach): TemplateResult | typeof nothing {
    const extras = new Map(this.extras(scenario).map((extra) => [extra.id, extra]));
    const rows = this.all ? each.rows : each.rows.slice(0, MOST_ROWS);
    return besideList(
      rows.flatMap(({ id }) => {
        const extra = extras.get(id);
        return extra === undefined ? [] : [extraRow(this.page.store, scenario, extra)];
      }),
    );
  }

  private readonly extras = lastOf(limitsOf);

  private readonly draw = lastOf((each: OneMoreOfEach, matters: number, all: boolean): Drawn => {
    const rows = each.rows.map((row) => ({
      name: row.name,
      gain: row.gain.estimate,
      low: row.gain.low,
      high: row.gain.high,
      words: gainCell(row.gain, matters),
    }));
    const data: Limits = {
      title: 'What one more of each thing buys, and one thing loosened',
      description: rows
        .slice(0, 3)
        .map(({ name, words }) => `${name}: ${words}`)
        .join(' '),
      rows,
      matters,
      foot: footOf(each.study, 'good units a shift more'),
    };
    const shown = all ? data : { ...data, rows: rows.slice(0, MOST_ROWS) };
    return { draw: (size) => limitsPicture(shown, size), table: limitsTable(data) };
  });

  /** Where the minutes went, as last told: it stays while something new is run. */
  private strips: Drawn | null = null;

  private readonly minutesOf = lastOf((scenario: Scenario, each: OneMoreOfEach): Drawn | null => {
    const minutes = minutesOf(scenario, each);
    return minutes === null
      ? null
      : { draw: (size) => minutesPicture(minutes, size), table: minutesTable(minutes) };
  });

  private minutes(scenario: Scenario): TemplateResult | typeof nothing {
    const minutes = this.strips;
    const each = this.each.answer;
    return minutes === null
      ? nothing
      : html`<section aria-labelledby="minutes">
          <h2 id="minutes">Where the minutes went, and why</h2>
          <cw-picture .draw=${minutes.draw} .table=${minutes.table}></cw-picture>
          <cw-stood
            .scenario=${scenario}
            shifts=${each?.study.count ?? 0}
            ?ready=${this.each.state.kind === 'done' && this.each.current && !this.later.running}
          ></cw-stood>
          <p class="note">This describes the plan, not the people.</p>
        </section>`;
  }
}

/** Of the first shift of the cell as it is; null while it is not told in full. */
function minutesOf(scenario: Scenario, each: OneMoreOfEach): Minutes | null {
  const shift = each.study.cases[0]?.shifts[0];
  const resolved = shiftsOf(scenario)[0]!;
  if (shift === undefined || shift.people.length !== resolved.people.length) return null;
  return {
    title: 'Where the minutes of every person and every clamp set went',
    description: 'One strip each; waiting for hands in its own colour. The table has every figure.',
    strips: [...gearStrips(shift, resolved), ...peopleStrips(shift, resolved)],
    foot: footOf(each.study, 'share of the minutes of a shift'),
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-limits': CwLimits;
  }
}

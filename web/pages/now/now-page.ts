import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { capitalized } from '../../../src/words/words.ts';
import {
  helpfulMoves,
  missingSentence,
  moveSentence,
  nowPage,
  nowSentences,
  nowSure,
} from '../../../src/report/now-page.ts';
import { fanPicture, fanTable, type Fan } from '../../../src/charts/index.ts';
import { checkNow } from '../../../src/today/check-now.ts';
import { forecastNow, type Forecast } from '../../../src/today/forecast.ts';
import { countedBefore } from '../../../src/today/kept-counts.ts';
import { possibleMoves, tryMoves, type MoveGain } from '../../../src/today/moves.ts';
import { stateAt, type NowState } from '../../../src/today/state.ts';
import { sumOf } from '../../../src/today/told-count.ts';
import { minutesAfter } from '../../../src/scenario/clock.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { addressOf } from '../../shell/route.ts';
import { blockStyle } from '../brief/blocks.ts';
import { knownSwitch } from '../common/known-switch.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { countForm, countStyle } from './count-form.ts';
import { begunWith } from './counts.ts';
import { CountDraft, isEmpty } from './draft.ts';
import { faultsOf, keepCounted, keptCounts, keptStyle } from './kept-counts.ts';

interface Answer {
  forecast: Forecast;
  moves: MoveGain[] | null;
}

/** The most moves that stand on the page. */
const MOST_MOVES = 6;

/** It is 10:40 and this is in the cell: do we still make it, and what should I move? */
@customElement('cw-now')
export class CwNow extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    countStyle,
    keptStyle,
    css`
      .room {
        min-height: 280px;
      }
      section {
        margin-top: var(--space-8);
      }
      h2 {
        margin-bottom: var(--space-2);
      }
      .to-count {
        display: none;
      }
      @media (max-width: 1023px) {
        .to-count {
          display: inline-flex;
        }
      }
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
        margin-top: var(--space-4);
      }
      li {
        padding-bottom: var(--space-2);
      }
      @media print {
        .count,
        .do {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    ofDay: true,
    ask: (scenario) => this.ask(scenario),
  });
  @state() private beginning = false;
  private readonly draft = new CountDraft(this);
  private readonly live = this.page.live<Answer>();
  private faults: string[] = [];
  /** The count as it was checked; null where it cannot be, or nothing is counted. */
  private counted: NowState | null = null;

  private ask(scenario: Scenario): void {
    const now = this.draft.open(scenario);
    const checked = checkNow(scenario, now);
    this.faults = checked.kind === 'wrong' ? checked.faults : [];
    this.counted = checked.kind === 'wrong' || isEmpty(now) ? null : checked.now;
    if (checked.kind === 'wrong' || isEmpty(now)) return this.live.ask(null);
    const { day } = this.page;
    const elapsed = minutesAfter(shiftOf(scenario).start, now.at);
    // A count of this very minute, or a later one, changes nothing here.
    const earlier = day === null ? [] : countedBefore(scenario, day).filter(({ at }) => at < elapsed);
    this.live.ask({
      key: JSON.stringify([scenario, now, earlier]),
      run: async ({ runner, signal, show }) => {
        const forecast = await forecastNow(scenario, checked.now, runner, signal, undefined, earlier);
        show({ forecast, moves: null });
        show({
          forecast,
          moves: await tryMoves(checked.rest, possibleMoves(checked.rest, checked.now), runner, signal),
        });
      },
    });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be said until the cell is put right.', (scenario) =>
      this.said(scenario, this.draft.now!),
    );
  }

  private said(scenario: Scenario, now: NowState): Said {
    const { answer } = this.live;
    return {
      answer: headingOf(scenario, answer, now),
      body: html`${faultsOf(this.faults)} ${this.answered(scenario, answer)}
        <div class="do">${this.acts(scenario, now)}</div>
        ${keptCounts(this.page.store, (counted) => this.draft.set(counted))}
        <div slot="controls" class="count">
          ${countForm(scenario, { now, note: this.draft.note }, (counted, note) => this.draft.set(counted, note))}
        </div>`,
    };
  }

  private acts(scenario: Scenario, now: NowState): TemplateResult {
    const { counted } = this;
    const at = this.draft.clockOf(scenario);
    const later = at !== null && at !== now.at;
    if (isEmpty(now))
      return html`<button
        type="button"
        class="firm"
        ?disabled=${this.beginning}
        @click=${() => void this.begin(scenario, now.at)}
      >
        begin with what a shift like planned has by ${now.at}
      </button>`;
    return html`<button
        type="button"
        class="firm"
        ?disabled=${counted === null}
        @click=${() => void keepCounted(this.page.store, counted!)}
      >
        keep the count of ${now.at}
      </button>
      ${later ? html`<button type="button" @click=${() => this.again(now, at)}>count again: it is ${at}</button>` : html`<button type="button" class="to-count" @click=${this.toCount}>count again</button>`}
      <a class="button" href=${addressOf('handover')}>hand over</a>
      <button type="button" @click=${() => this.draft.wipe(scenario)}>wipe the count</button>`;
  }

  /** From what stood there last, to be put right by what stands there now. */
  private again(now: NowState, at: string): void {
    this.draft.set({ ...now, at });
    this.toCount();
  }

  private answered(scenario: Scenario, answer: Answer | null): TemplateResult {
    if (isEmpty(this.draft.now!)) {
      return html`<p>
          Walk through the cell and write down what you see: how many are good so far, how many wait before
          each step, what is in the clamps, and what everybody has in hand. Where the shift ends, and what to
          move, stands here as soon as something is counted.
        </p>
        <p>
          Quicker: begin with the count of a shift that goes as planned, and put right what is different.
        </p>`;
    }
    if (answer === null)
      return html`<div class="room">
        ${workLine(this.live, {
          running: html`<p class="muted" role="status">Running the rest of the shift.</p>`,
          again: 'run it again',
        })}
      </div>`;
    const { forecast, moves } = answer;
    const fan = fanOf(scenario, forecast);
    const help = moves === null ? [] : helpfulMoves(moves);
    const missing = missingSentence(sumOf(scenario, forecast.now));
    return html`<p>${nowSentences(forecast).join(' ')}</p>
      ${missing === null ? nothing : html`<p>${missing}</p>`}
      <p class="muted small">${nowSure(forecast)}</p>
      <cw-picture
        .draw=${(size: Parameters<typeof fanPicture>[1]) => fanPicture(fan, size)}
        .table=${fanTable(fan)}
      ></cw-picture>
      ${knownSwitch(this.page.store)}
      <section aria-labelledby="moves">
        <h2 id="moves">What to move</h2>
        ${workLine(this.live, {
          running:
            moves !== null
              ? nothing
              : html`<p class="muted" role="status">Trying every move on the same luck.</p>`,
          again: 'try them again',
        })}
        ${moves !== null && help.length === 0 ? html`<p>Of ${moves.length} moves tried none surely helps.</p>` : nothing}
        <ul>
          ${help.slice(0, MOST_MOVES).map((gain) => html`<li>${capitalized(moveSentence(gain))}</li>`)}
        </ul>
        ${help.length === 0 ? nothing : html`<p class="muted small">Breaks and overtime only as local law and agreements allow.</p>`}
      </section>`;
  }

  private async begin(scenario: Scenario, at: string): Promise<void> {
    const { id } = this.page.store;
    this.beginning = true;
    try {
      const typical = await typicalAt(scenario, at);
      const { now } = this.draft;
      if (now === null || id !== this.page.store.id) return;
      // Set to another time of day meanwhile: begun with what a shift has by then.
      if (now.at !== at) await this.begin(scenario, now.at);
      else this.draft.set(begunWith(now, typical));
    } finally {
      this.beginning = false;
    }
  }

  /** Where the count stands below the answer: down to it. */
  private readonly toCount = (): void => {
    const heading = this.renderRoot.querySelector<HTMLElement>('#count');
    heading?.scrollIntoView({ block: 'start' });
    heading?.focus({ preventScroll: true });
  };
}

const headingOf = (scenario: Scenario, answer: Answer | null, now: NowState): string => {
  if (isEmpty(now)) return 'Count in what is in the cell.';
  const heading =
    answer === null
      ? undefined
      : nowPage({ scenario, forecast: answer.forecast, moves: answer.moves }).blocks[0];
  return heading?.kind === 'heading'
    ? `${heading.text.replace(/\.$/, '')}.`
    : 'The rest of the shift is being run.';
};

/**
 * What one shift as planned has in the cell by then: a start to be put right by what really stands there. The
 * engine is fetched for it: everything else of the page is run by workers, which have their own.
 */
async function typicalAt(scenario: Scenario, at: string): Promise<NowState> {
  const { recordEvents } = await import('../../../src/record/event-record.ts');
  const { start } = shiftOf(scenario);
  const now = stateAt(scenario, recordEvents(shiftsOf(scenario).slice(0, 1), 0)[0]!, minutesAfter(start, at));
  const inside = now.inside.map(({ name: _name, arrived: _arrived, visits: _visits, ...piece }) =>
    piece.minutes === undefined ? piece : { ...piece, minutes: Math.round(piece.minutes) },
  );
  return { ...now, inside };
}

function fanOf(scenario: Scenario, forecast: Forecast): Fan {
  const shift = shiftsOf(scenario)[0]!;
  return {
    title: 'Plan, fact, and where the shift may end',
    description: nowSentences(forecast).join(' '),
    hours: { start: shift.start, length: shift.length, breaks: shift.breaks },
    plan: forecast.plan.map(({ at, middle }) => ({ at, good: middle })),
    fact: forecast.fact,
    ahead: forecast.ahead.map(({ at, low, middle, high }) => ({ at, low, median: middle, high })),
    target: shift.target,
    foot: { unit: 'good units so far', shifts: forecast.count, seed: forecast.seed },
  };
}

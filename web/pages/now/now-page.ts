import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { handoverPage } from '../../../src/report/handover.ts';
import { capitalized } from '../../../src/words/words.ts';
import { helpfulMoves, moveSentence, nowPage, nowSentences, nowSure } from '../../../src/report/now-page.ts';
import { fanPicture, fanTable, type Fan } from '../../../src/charts/index.ts';
import { checkNow } from '../../../src/today/check-now.ts';
import { forecastNow, type Forecast } from '../../../src/today/forecast.ts';
import { possibleMoves, tryMoves, type MoveGain } from '../../../src/today/moves.ts';
import { goodSoFar, stateAt, type NowState } from '../../../src/today/state.ts';
import { minutesToNextStart, tomorrow } from '../../../src/today/tomorrow.ts';
import { clockAfter, minutesAfter } from '../../../src/scenario/clock.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { countForm, countStyle } from './count-form.ts';
import { begunWith } from './counts.ts';
import { countFor, keepCount, watchCount } from './kept.ts';

interface Answer {
  forecast: Forecast;
  moves: MoveGain[] | null;
}

/** The most moves that stand on the page. */
const MOST_MOVES = 6;

/**
 * It is 10:40 and this is in the cell: do we still make it, and what should I move? At the end the handover.
 */
@customElement('cw-now')
export class CwNow extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    countStyle,
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
      .wrong > p {
        display: inline;
      }
      .wrong ul {
        margin: var(--space-1) 0 var(--space-4);
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
    opened: () => {
      this.now = null;
      this.listen();
    },
    ask: (scenario) => this.ask(scenario),
  });
  @state() private now: NowState | null = null;
  @state() private note = '';
  @state() private handing = false;
  @state() private beginning = false;
  private readonly live = this.page.live<Answer>();
  private faults: string[] = [];
  private unwatch: () => void = () => {};

  private ask(scenario: Scenario): void {
    if (this.now === null) {
      const kept = countFor(this.page.store.id, middleOf(scenario));
      this.now = kept.now;
      this.note = kept.note;
    }
    const { now } = this;
    const checked = checkNow(scenario, now);
    this.faults = checked.kind === 'wrong' ? checked.faults : [];
    if (checked.kind === 'wrong') {
      this.live.ask(null);
      return;
    }
    if (isEmpty(now)) {
      this.live.ask(null);
      return;
    }
    this.live.ask({
      key: JSON.stringify([scenario, now]),
      run: async ({ runner, signal, show }) => {
        const forecast = await forecastNow(scenario, checked.now, runner, signal);
        show({ forecast, moves: null });
        show({
          forecast,
          moves: await tryMoves(checked.rest, possibleMoves(checked.rest, checked.now), runner, signal),
        });
      },
    });
  }

  /** Counted on in another tab: this one goes on from there. */
  private listen(): void {
    this.unwatch();
    this.unwatch = watchCount(this.page.store.id, ({ now, note }) => {
      this.now = now;
      this.note = note;
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.listen();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unwatch();
  }

  private set(now: NowState, note = this.note): void {
    this.now = now;
    this.note = note;
    if (!keepCount(this.page.store.id, { now, note: this.note }))
      say('This browser keeps nothing: the count is lost when the page is closed.', { kind: 'wrong' });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be said until the cell is put right.', (scenario) =>
      this.said(scenario, this.now!),
    );
  }

  private said(scenario: Scenario, now: NowState): Said {
    const { answer } = this.live;
    const handover = this.handing ? this.handover(scenario, now) : null;
    return {
      ...(handover === null ? {} : { question: 'What do I hand over?' }),
      answer: handover === null ? headingOf(scenario, answer, now) : handing(handover),
      body: html`${
          this.faults.length === 0
            ? nothing
            : html`<div class="wrong" role="alert">
                <p>This count cannot be:</p>
                <ul>
                  ${this.faults.map((fault) => html`<li>${fault}</li>`)}
                </ul>
              </div>`
        }
        ${handover !== null ? blocks(handover.blocks.slice(1), 11) : this.answered(scenario, answer)}
        <div class="do">
          ${isEmpty(now) && !this.handing ? html`<button type="button" class="firm" ?disabled=${this.beginning} @click=${() => void this.begin(scenario, now.at)}>begin with what a shift like planned has by ${now.at}</button>` : html`<button type="button" class="to-count" @click=${this.toCount}>count again</button>`}
          <button type="button" @click=${() => (this.handing = !this.handing)}>
            ${this.handing ? 'back to the forecast' : 'hand over'}
          </button>
          ${
            this.handing
              ? html`<button type="button" @click=${() => window.print()}>print</button>
                  <button type="button" @click=${() => this.asTomorrow(scenario)}>
                    make it tomorrow’s start
                  </button>`
              : nothing
          }
          ${isEmpty(now) ? nothing : html`<button type="button" @click=${() => this.set({ at: now.at, goodByHour: [], inside: [], holds: [], out: [], broken: [] })}>wipe the count</button>`}
        </div>
        <div slot="controls" class="count">
          ${countForm(scenario, { now, note: this.note }, (counted, note) => this.set(counted, note))}
        </div>`,
    };
  }

  private answered(scenario: Scenario, answer: Answer | null): TemplateResult {
    if (isEmpty(this.now!)) {
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
    return html`<p>${nowSentences(forecast).join(' ')}</p>
      <p class="muted small">${nowSure(forecast)}</p>
      <cw-picture
        .draw=${(size: Parameters<typeof fanPicture>[1]) => fanPicture(fan, size)}
        .table=${fanTable(fan)}
      ></cw-picture>
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
      const { now } = this;
      if (now === null || id !== this.page.store.id) return;
      // Set to another time of day meanwhile: begun with what a shift has by then.
      if (now.at !== at) await this.begin(scenario, now.at);
      else this.set(begunWith(now, typical));
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

  private handover(scenario: Scenario, now: NowState): ReturnType<typeof handoverPage> {
    const promised =
      this.live.answer === null ? null : nowSentences(this.live.answer.forecast).slice(1).join(' ');
    return handoverPage({ scenario, now, promised, events: null, note: this.note });
  }

  private asTomorrow(scenario: Scenario): void {
    const next = tomorrow(scenario, this.now!, minutesToNextStart(scenario, this.now!));
    this.page.store.change(
      'tomorrow’s opening stock',
      ['carryOver'],
      JSON.parse(JSON.stringify(next.carryOver)) as never,
    );
    say('What stands in the cell now is the opening stock of the cell. One step back undoes it.');
  }
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

/** Nothing counted in yet: there is nothing to forecast from. */
const isEmpty = (now: NowState): boolean => now.inside.length === 0 && goodSoFar(now) === 0;

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

const handing = (page: ReturnType<typeof handoverPage>): string =>
  page.blocks[0]?.kind === 'heading' ? page.blocks[0].text : page.title;

/** The middle of the shift, where nothing is counted yet. */
function middleOf(scenario: Scenario): string {
  const { start, length } = shiftOf(scenario);
  return clockAfter(start, Math.round(length / 2 / 5) * 5);
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

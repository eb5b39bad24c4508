import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { ReplayShift } from '../../../src/record/replay.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { base } from '../../parts/style.ts';
import { apartWords } from '../../../src/report/replay/apart-words.ts';
import { besideOthers, whatSetApart } from '../../../src/study/apart.ts';
import type { Ranked } from '../../../src/study/ranked.ts';
import { cameOf } from '../../../src/report/replay/came.ts';
import type { ReasonSums } from '../../../src/record/why/sums.ts';
import { stoodWords, tellStood } from '../../../src/report/parts/stood.ts';
import { sumsTask } from '../../work/reasons.ts';
import { LOOKED_THROUGH, rankTask, replayTask } from '../../work/replay.ts';
import { lastOf } from '../../work/same.ts';
import { plantOf } from '../common/resolved.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { answerWords, atMinute, longest, nextCause, why } from './around.ts';
import { chosen, KINDS, kindsWords, type Chosen } from '../../../src/report/replay/chosen.ts';
import { type Looked } from './day.ts';
import { CLOSEST, Player, SPEEDS } from './player.ts';
import { pageStyle } from './style.ts';
import { clockAt, eventWords, newsOf, tellOf, type Told } from './told.ts';

/** Show me: one shift, minute by minute. */
@customElement('cw-replay')
export class CwReplay extends LitElement implements PageElement {
  static override styles = [base, pageStyle];
  readonly page: PageController = new PageController(this, {
    ofDay: true,
    ask: (scenario) => this.ask(scenario),
  });
  @state() private looked: Looked | null = null;
  /** Which of the shifts that follow each other. */
  @state() private which = 0;
  /** Whether everything that happened is listed. */
  @state() private listing = false;
  private readonly ranks = this.page.live<Ranked>();
  private readonly day = this.page.live<ReplayShift[]>();
  private readonly sums = this.page.live<ReasonSums[]>();
  private readonly player = new Player(this);
  private readonly shifts = lastOf((scenario: Scenario) => shiftsOf(scenario));
  private readonly tellOf = lastOf((shift: ResolvedShift, replay: ReplayShift) => tellOf(shift, replay));
  private told: Told | null = null;

  private ask(scenario: Scenario): void {
    const shifts = this.shifts(scenario);
    this.which = Math.min(this.which, shifts.length - 1);
    this.ranks.askOf([shifts], () => rankTask(shifts));
    const ranked = this.ranks.answer;
    if (ranked !== null && this.ranks.current) {
      const { replication } = this.chosen(ranked);
      this.day.askOf([shifts, replication], () => replayTask(shifts, replication));
    }
    if (this.told !== null) this.sums.askOf([shifts], () => sumsTask(shifts));
    this.tell(shifts[this.which]!);
  }

  private chosen(ranked: Ranked): Chosen {
    return chosen(ranked, this.page.rest[0]);
  }

  /** Another day is opened at its start, or at the same minute as the one before. */
  private tell(shift: ResolvedShift): void {
    const replay = this.day.answer?.[this.which];
    if (replay === undefined || !this.day.current) return;
    const told = this.tellOf(shift, replay);
    if (told === this.told) return;
    this.told = told;
    this.looked = null;
    this.player.open(replay.ends, shift.length);
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be shown until the cell is put right.', (scenario) =>
      this.told === null ? this.waiting() : this.said(scenario, this.told),
    );
  }

  private waiting(): Said {
    const failed = this.failed();
    return {
      answer: failed === nothing ? 'A shift is being run.' : 'This shift could not be run.',
      cautions: [],
      body: failed === nothing ? html`<div class="room"></div>` : failed,
    };
  }

  private failed(): TemplateResult | typeof nothing {
    const lost = [this.ranks, this.day].find(({ state: { kind } }) => kind === 'failed');
    return lost === undefined ? nothing : workLine(lost, { again: 'run it again' });
  }

  private said(scenario: Scenario, told: Told): Said {
    const which = this.chosen(this.ranks.answer!);
    const answer = `${answerWords(told, which, this.inARow())} ${this.apart(told, which)}`.trim();
    const { now, span } = this.player;
    return {
      answer,
      cautions: [],
      body: html`${this.failed()} ${this.bar(told)}
        <cw-day
          .told=${told}
          .span=${span}
          now=${now}
          .looked=${this.looked}
          heading=${answer}
          @look=${(event: CustomEvent<Looked>) => this.look(event.detail)}
          @now=${(event: CustomEvent<number>) => this.toMinute(event.detail)}
        ></cw-day>
        <div class="why" role="status" tabindex="0">${why(told, this.looked)}</div>
        <div slot="controls" class="stack">${this.choose(scenario)}${atMinute(told, now)}</div>
        <div slot="more">
          ${longest(told, plantOf(scenario).money, this.looked, (looked) => this.look(looked))}${this.asARule(scenario)}${this.everything(told)}
        </div>`,
    };
  }

  /** What set a bad or a good shift apart from the others that were run. */
  private apart({ shift, replay }: Told, which: Chosen): string {
    const rows = this.ranks.answer?.rows[this.which];
    if (rows === undefined || which.replication >= LOOKED_THROUGH) return '';
    const sums = this.sums.current ? this.sums.answer?.[this.which] : undefined;
    const came = sums === undefined ? null : cameOf(replay.why, sums);
    const beside = this.ranks.answer!.rows.length > 1 ? besideOthers(shift, rows, which.replication) : null;
    return apartWords(whatSetApart(shift, rows, which.replication, came), which, shift, beside);
  }

  private inARow(): { shifts: number; good: number } {
    const days = this.day.answer!;
    return { shifts: days.length, good: days.reduce((sum, { goods }) => sum + goods.length, 0) };
  }

  /** Where the minutes go as a rule: the same sentence as under Limits and on the brief. */
  private asARule(scenario: Scenario): TemplateResult | typeof nothing {
    const sums = this.sums.answer;
    const told = sums === null || !this.sums.current ? null : tellStood(this.shifts(scenario), sums);
    if (told === null) return nothing;
    return html`<section>
      <h2>Where the minutes go as a rule</h2>
      ${stoodWords(told).map((words) => html`<p>${words}</p>`)}
      <p class="small muted">
        Means of ${told.sums[0]!.count} shifts. Limits says what putting it right brings.
      </p>
    </section>`;
  }

  private bar(told: Told): TemplateResult {
    const { player } = this;
    const { from, to } = player.span;
    const whole = player.zoom === null;
    return html`<div class="row">
      <span class="clock" aria-hidden="true">${clockAt(told.shift, player.now)}</span>
      <button
        type="button"
        class="firm"
        aria-pressed=${player.playing ? 'true' : 'false'}
        @click=${this.play}
      >
        ${player.playing ? 'stop' : 'play'}
      </button>
      <button type="button" @click=${() => this.step(-1)}>← before</button
      ><button type="button" @click=${() => this.step(1)}>next →</button>
      <button
        type="button"
        class="plain"
        ?disabled=${to - from <= CLOSEST}
        @click=${() => player.zoomBy(0.5)}
      >
        closer
      </button>
      <button type="button" class="plain" ?disabled=${whole} @click=${() => player.zoomBy(2)}>
        further off
      </button>
      <button type="button" class="plain" ?disabled=${whole} @click=${() => player.zoomOut()}>
        the whole shift
      </button>
    </div>`;
  }

  private choose(scenario: Scenario): TemplateResult {
    const ranked = this.ranks.answer!;
    const shifts = this.shifts(scenario);
    return html`<cw-choice
        label="A shift that is"
        .choices=${[...KINDS]}
        value=${this.chosen(ranked).kind}
        hint=${`Of ${LOOKED_THROUGH} shifts: ${kindsWords(ranked, shifts.length)}. One in ten is worse than the bad one, one in ten better than the good one.`}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.turnTo(event.detail.value)}
      ></cw-choice>
      ${
        shifts.length < 2
          ? nothing
          : html`<cw-choice
              list
              label="Of the shifts that follow each other"
              .choices=${shifts.map((shift, i) => ({ value: String(i), label: shift.name }))}
              value=${String(this.which)}
              @cw-change=${(event: PartEvent<'cw-change', string>) => (this.which = Number(event.detail.value))}
            ></cw-choice>`
      }
      <cw-choice
        label="A day is played in"
        .choices=${SPEEDS}
        value=${this.player.speed}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.player.playIn(event.detail.value)}
      ></cw-choice>`;
  }

  private everything(told: Told): TemplateResult {
    const row = (news: ReturnType<typeof newsOf>[number]): TemplateResult =>
      html`<li>
        <span class="muted">${clockAt(told.shift, news.time / 60_000)}</span
        ><span>${eventWords(news, told.shift)}</span>
      </li>`;
    return html`<section>
      <details @toggle=${(event: Event) => (this.listing = (event.target as HTMLDetailsElement).open)}>
        <summary>everything that happened, as a list</summary>
        ${
          this.listing
            ? html`<ol class="events">
                ${newsOf(told.replay).map(row)}
              </ol>`
            : nothing
        }
      </details>
    </section>`;
  }

  private turnTo(kind: string): void {
    this.player.stop();
    this.page.turnTo(kind);
  }

  private look(looked: Looked): void {
    const block = this.told!.lanes[looked.lane]?.blocks[looked.block];
    if (block === undefined) return this.player.stop();
    this.looked = looked;
    this.player.to(Math.max(0, block.from));
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.key);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.key);
  }

  /** From cause to cause, wherever on the page one is. */
  private readonly key = (event: KeyboardEvent): void => {
    if (!event.altKey || (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') || this.told === null) return;
    const next = nextCause(this.told, this.looked, event.key === 'ArrowDown' ? 1 : -1);
    if (next === null) return;
    event.preventDefault();
    this.look(next);
  };

  private toMinute(minutes: number): void {
    this.looked = null;
    this.player.to(minutes);
  }

  /** To the next thing that happens, or the one before. */
  private step(by: 1 | -1): void {
    const { now } = this.player;
    const times = newsOf(this.told!.replay).map(({ time }) => time / 60_000);
    const to =
      by === 1 ? times.find((time) => time > now + 1e-6) : times.filter((time) => time < now - 1e-6).at(-1);
    if (to === undefined) this.player.stop();
    else this.toMinute(to);
  }

  private readonly play = (): void => {
    this.looked = this.player.playing ? this.looked : null;
    this.player.play();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-replay': CwReplay;
  }
}

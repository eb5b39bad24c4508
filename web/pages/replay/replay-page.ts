import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { capitalized, counted, inSentence, plain } from '../../../src/words/words.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { ReplayShift } from '../../../src/record/replay.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/sheet.ts';
import { base } from '../../parts/style.ts';
import { addressOf, route } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { Watch } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { LOOKED_THROUGH, rankTask, replayTask, type Ranked } from '../../work/replay.ts';
import { faultsLine } from '../common/faults.ts';
import { type Looked } from './day.ts';
import type { Span } from './day-picture.ts';
import {
  blockAt,
  blockWords,
  clockAt,
  eventWords,
  lengthAt,
  longestWaits,
  newsOf,
  tellOf,
  waitedForHands,
  whyWords,
  type Told,
} from './told.ts';

const KINDS = [
  { value: 'bad', label: 'bad', share: 0.1 },
  { value: 'typical', label: 'typical', share: 0.5 },
  { value: 'good', label: 'good', share: 0.9 },
] as const;
const SPEEDS = [
  { value: '4', label: '2 minutes' },
  { value: '9', label: '1 minute' },
  { value: '30', label: '20 s' },
];
/** Milliseconds between two steps where the system asks for less motion, and minutes of each. */
const CALM = { every: 700, minutes: 5 };

/** Show me: one shift, minute by minute. */
@customElement('cw-replay')
export class CwReplay extends LitElement {
  static override styles = [
    base,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--space-1) var(--space-3);
        margin-bottom: var(--space-2);
      }
      .clock {
        font: 500 var(--size-heading) / 1 var(--serif);
        font-variant-numeric: lining-nums tabular-nums;
        min-width: 4.5ch;
      }
      .why {
        border-top: 2px solid var(--ink);
        border-bottom: 1px solid var(--hairline);
        padding: var(--space-3) 0;
        min-height: 6.5em;
        margin: var(--space-4) 0;
      }
      .why p,
      dd {
        margin: 0;
      }
      section {
        margin-top: var(--space-8);
      }
      h2 {
        margin-bottom: var(--space-3);
      }
      h2.at {
        font-size: var(--size-large);
        font-weight: 600;
        margin-bottom: 0;
      }
      dl {
        margin: 0;
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 14rem), 1fr));
        column-gap: var(--space-8);
      }
      /* Whatever lane is touched, what is said of it stays in sight. */
      @media screen and (max-width: 1023px) {
        .why {
          position: sticky;
          bottom: 0;
          background: var(--paper);
          z-index: 1;
        }
      }
      dl div {
        padding: var(--space-2) 0;
        border-bottom: 1px solid var(--hairline);
        font-size: var(--size-small);
        line-height: 1.4;
      }
      dt {
        font-weight: 600;
      }
      ol {
        list-style: none;
        margin: 0;
        padding: 0;
      }
      ol.waits button {
        width: 100%;
        display: block;
        text-align: left;
        font-weight: 400;
        padding: var(--space-2) 0;
        border-bottom-width: 1px;
      }
      .stack {
        display: grid;
        gap: var(--space-6);
      }
      summary {
        display: inline-flex;
        align-items: center;
        min-height: var(--touch);
        cursor: pointer;
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
      }
      .events li {
        font-size: var(--size-small);
        padding: 2px 0;
        display: grid;
        grid-template-columns: 4rem 1fr;
      }
      .room {
        min-height: 480px;
      }
      @media print {
        ol.waits button {
          display: block;
          padding: 1mm 0;
        }
        .row,
        details {
          display: none;
        }
        ol.waits li {
          break-inside: avoid;
        }
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) rest: string[] = [];
  @state() private now = 0;
  @state() private playing = false;
  @state() private speed = '9';
  @state() private zoom: Span | null = null;
  @state() private looked: Looked | null = null;
  @state() private which = 0;
  private readonly ranks = new Live<Ranked>(this);
  private readonly day = new Live<ReplayShift[]>(this);
  private watch: Watch | null = null;
  private shifts: ResolvedShift[] = [];
  private scenario: Scenario | null = null;
  private told: { of: unknown[]; told: Told } | null = null;
  private frame = 0;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('store')) {
      if (this.watch !== null) {
        this.watch.hostDisconnected();
        this.removeController(this.watch);
      }
      this.watch = new Watch(this, this.store.scenario, this.store.reading);
    }
    const scenario = this.store.scenario.get();
    if (scenario === null) return;
    if (scenario !== this.scenario) {
      this.scenario = scenario;
      this.shifts = shiftsOf(scenario);
      this.which = Math.min(this.which, this.shifts.length - 1);
      this.ranks.ask(rankTask(this.shifts));
    }
    if (this.ranks.answer !== null && this.ranks.current)
      this.day.ask(replayTask(this.shifts, this.chosen(this.ranks.answer).replication));
    this.tell();
  }

  /** The shift in the address: bad, typical, good, or its number among those looked through (from 1). */
  private chosen({ order }: Ranked): { replication: number; kind: string } {
    const wanted = this.rest[0] ?? 'typical';
    const kind = KINDS.find(({ value }) => value === wanted);
    const number = Number(wanted);
    if (kind === undefined && Number.isInteger(number) && number >= 1 && number <= 1e9)
      return { replication: number - 1, kind: '' };
    const { value, share } = kind ?? KINDS[1];
    return { replication: order[Math.floor(share * (order.length - 1))]!, kind: value };
  }

  private tell(): void {
    const { answer } = this.day;
    const [replay, shift] = [answer?.[this.which], this.shifts[this.which]];
    if (replay === undefined || shift === undefined || !this.day.current) return;
    const of = [replay, shift];
    if (this.told !== null && of.every((one, i) => one === this.told!.of[i])) return;
    this.told = { of, told: tellOf(shift, replay) };
    this.looked = null;
    this.zoom = null;
    this.now = Math.min(this.now, replay.ends);
    const first = longestWaits(this.told.told)[0];
    if (this.now !== 0 || first === undefined) return;
    this.now = Math.max(0, this.told.told.lanes[first.lane]!.blocks[first.block]!.from);
    this.looked = first;
  }

  private get span(): Span {
    return (
      this.zoom ?? {
        from: 0,
        to: Math.max(this.told!.told.shift.length, Math.ceil(this.told!.told.replay.ends)),
      }
    );
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stop();
  }

  protected override render(): TemplateResult {
    const told = this.told?.told;
    if (this.store.scenario.get() === null)
      return html`<cw-sheet question="Show me" answer="Nothing can be shown until the cell is put right."
        >${faultsLine(this.store)}</cw-sheet
      >`;
    const lost = [this.ranks, this.day].find(({ state: { kind } }) => kind === 'failed');
    const failed = lost?.state;
    if (told === undefined) {
      return html`<cw-sheet
        question="Show me"
        answer=${failed?.kind === 'failed' ? 'This shift could not be run.' : 'A shift is being run.'}
        >${
          failed?.kind === 'failed'
            ? html`<p class="wrong" role="alert">${failed.message}</p>
                <button type="button" @click=${() => lost!.again()}>run it again</button>`
            : html`<div class="room"></div>`
        }</cw-sheet
      >`;
    }
    return html`<cw-sheet question="Show me" answer=${this.answer(told)}>
      ${faultsLine(this.store)} ${this.bar(told)}
      <cw-day
        .told=${told}
        .span=${this.span}
        now=${this.now}
        .looked=${this.looked}
        heading=${this.answer(told)}
        @look=${(event: CustomEvent<Looked>) => this.look(event.detail)}
        @now=${(event: CustomEvent<number>) => this.scrub(event.detail)}
      ></cw-day>
      <div class="why" role="status">${this.why(told)}</div>
      <div slot="controls" class="stack">${this.choose()}${this.atMinute(told)}</div>
      <div slot="more">${this.waits(told)}${this.everything(told)}</div>
    </cw-sheet>`;
  }

  /** "A typical shift: 20 good pieces by 14:30, of 22 due. Clamp sets waited 48 minutes for hands." */
  private answer(told: Told): string {
    const { replay, shift } = told;
    const { kind, replication } = this.chosen(this.ranks.answer!);
    const name = kind === '' ? `Shift number ${plain(replication + 1)}` : `A ${kind} shift`;
    const due = shift.target === null ? '' : `, of ${shift.target} due`;
    const waited = Math.round(waitedForHands(told));
    const first = told.lanes.find((lane) => lane.kind === 'gear');
    const gear =
      first === undefined
        ? ''
        : waited === 0
          ? ' Nothing in clamps waited for hands.'
          : ` ${capitalized(told.lanes.filter(({ kind: of }) => of === 'gear').length === 1 ? 'The clamps' : 'The clamps, together,')} waited ${counted(waited, 'minute')} for hands.`;
    return `${name}: ${counted(replay.goods.length, 'good piece')} by ${clockAt(shift, replay.ends)}${due}.${gear}`;
  }

  private bar(told: Told): TemplateResult {
    return html`<div class="row">
      <span class="clock" aria-hidden="true">${clockAt(told.shift, this.now)}</span>
      <button type="button" class="firm" aria-pressed=${this.playing ? 'true' : 'false'} @click=${this.play}>
        ${this.playing ? 'stop' : 'play'}
      </button>
      <button type="button" @click=${() => this.step(-1)}>← before</button
      ><button type="button" @click=${() => this.step(1)}>next →</button>
      <button
        type="button"
        class="plain"
        ?disabled=${this.span.to - this.span.from <= 30}
        @click=${() => this.zoomBy(0.5)}
      >
        closer
      </button>
      <button type="button" class="plain" ?disabled=${this.zoom === null} @click=${() => this.zoomBy(2)}>
        further off
      </button>
      <button type="button" class="plain" ?disabled=${this.zoom === null} @click=${() => (this.zoom = null)}>
        the whole shift
      </button>
    </div>`;
  }

  private choose(): TemplateResult {
    const { answer } = this.ranks;
    const kind = answer === null ? 'typical' : this.chosen(answer).kind;
    const words =
      answer === null
        ? ''
        : KINDS.map(
            ({ label, share }) =>
              `a ${label} one makes ${answer.good[answer.order[Math.floor(share * (answer.order.length - 1))]!]}`,
          ).join(', ');
    return html`<cw-choice
        label="A shift that is"
        .choices=${[...KINDS]}
        value=${kind}
        hint=${`Of ${LOOKED_THROUGH} shifts: ${words}. One in ten is worse than the bad one, one in ten better than the good one.`}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.turnTo(event.detail.value)}
      ></cw-choice>
      ${
        this.shifts.length < 2
          ? nothing
          : html`<cw-choice
              list
              label="Of the shifts that follow each other"
              .choices=${this.shifts.map((shift, i) => ({ value: String(i), label: shift.name }))}
              value=${String(this.which)}
              @cw-change=${(event: PartEvent<'cw-change', string>) => (this.which = Number(event.detail.value))}
            ></cw-choice>`
      }
      <cw-choice
        label="A day is played in"
        .choices=${SPEEDS}
        value=${this.speed}
        @cw-change=${(event: PartEvent<'cw-change', string>) => (this.speed = event.detail.value)}
      ></cw-choice>`;
  }

  /** What stands where at the minute, in words. */
  private atMinute(told: Told): TemplateResult {
    const at = this.now;
    const good = told.replay.goods.filter((one) => one <= at).length;
    return html`<div>
      <h2 class="at">At ${clockAt(told.shift, at)}</h2>
      <p class="small">${counted(good, 'good piece')} so far.</p>
      <dl>
        ${told.lanes.map(
          (lane) =>
            html`<div>
              <dt>${lane.name}</dt>
              <dd>${blockAt(lane, at)?.words ?? ''}</dd>
            </div>`,
        )}
        ${told.lines.map(
          (line) =>
            html`<div>
              <dt>before ${inSentence(line.name)}</dt>
              <dd>${lengthAt(line, at)}${line.rack === null ? '' : ` of ${line.rack}`}</dd>
            </div>`,
        )}
      </dl>
    </div>`;
  }

  private why(told: Told): TemplateResult {
    const { looked } = this;
    const lane = looked === null ? undefined : told.lanes[looked.lane];
    const block = looked === null ? undefined : lane?.blocks[looked.block];
    if (lane === undefined || block === undefined)
      return html`<p class="muted">
        Touch a stretch of a lane, or go through it with the arrow keys: what it was, and why somebody was
        waiting, is said here.
      </p>`;
    return html`<p><b>${blockWords(told, lane, block)}</b></p>
      <p>${whyWords(told, lane, block)}</p>`;
  }

  private waits(told: Told): TemplateResult | typeof nothing {
    const waits = longestWaits(told);
    return waits.length === 0
      ? nothing
      : html`<section>
          <h2>Who waited longest, and why</h2>
          <ol class="waits">
            ${waits.map(
              ({ lane, block }) =>
                html`<li>
                  <button type="button" @click=${() => this.look({ lane, block })}>
                    ${blockWords(told, told.lanes[lane]!, told.lanes[lane]!.blocks[block]!)}
                    <span class="muted"
                      >${whyWords(told, told.lanes[lane]!, told.lanes[lane]!.blocks[block]!)}</span
                    >
                  </button>
                </li>`,
            )}
          </ol>
        </section>`;
  }

  @state() private listing = false;

  private everything(told: Told): TemplateResult {
    return html`<section>
      <details @toggle=${(event: Event) => (this.listing = (event.target as HTMLDetailsElement).open)}>
        <summary>everything that happened, as a list</summary>
        ${
          this.listing
            ? html`<ol class="events">
                ${newsOf(told.replay).map((row) => html`<li><span class="muted">${clockAt(told.shift, row.time / 60_000)}</span><span>${eventWords(row, told.shift)}</span></li>`)}
              </ol>`
            : nothing
        }
      </details>
    </section>`;
  }

  private turnTo(kind: string): void {
    this.stop();
    history.replaceState(null, '', addressOf('replay', kind));
    route.set({ page: 'replay', rest: [kind] });
    this.rest = [kind];
  }

  private look(looked: Looked): void {
    this.stop();
    const block = this.told!.told.lanes[looked.lane]?.blocks[looked.block];
    if (block === undefined) return;
    this.looked = looked;
    this.now = Math.max(0, block.from);
    this.follow();
  }

  private scrub(minutes: number): void {
    this.stop();
    this.looked = null;
    this.now = minutes;
  }

  private step(by: 1 | -1): void {
    this.stop();
    const times = newsOf(this.told!.told.replay).map(({ time }) => time / 60_000);
    const to =
      by === 1
        ? times.find((time) => time > this.now + 1e-6)
        : times.filter((time) => time < this.now - 1e-6).at(-1);
    if (to === undefined) return;
    this.now = to;
    this.looked = null;
    this.follow();
  }

  private zoomBy(by: number): void {
    const { from, to } = this.span;
    const whole = Math.max(this.told!.told.shift.length, Math.ceil(this.told!.told.replay.ends));
    const wide = Math.min(whole, (to - from) * by);
    const start = Math.min(whole - wide, Math.max(0, this.now - wide / 2));
    this.zoom = wide >= whole ? null : { from: start, to: start + wide };
  }

  /** Keeps the minute in the stretch that is shown. */
  private follow(): void {
    if (this.zoom === null || (this.now >= this.zoom.from && this.now <= this.zoom.to)) return;
    this.zoomBy(1);
  }

  private readonly play = (): void => {
    if (this.playing) return this.stop();
    const ends = this.told!.told.replay.ends;
    if (this.now >= ends - 1) this.now = 0;
    this.looked = null;
    this.playing = true;
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.frame = window.setInterval(() => this.forward(CALM.minutes), CALM.every);
      return;
    }
    let last = performance.now();
    this.frame = window.setInterval(() => {
      const time = performance.now();
      this.forward(((time - last) / 1000) * Number(this.speed));
      last = time;
    }, 50);
  };

  private forward(minutes: number): void {
    const ends = this.told?.told.replay.ends ?? 0;
    this.now = Math.min(ends, this.now + minutes);
    this.follow();
    if (this.now >= ends) this.stop();
  }

  private stop(): void {
    clearInterval(this.frame);
    this.playing = false;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-replay': CwReplay;
  }
}

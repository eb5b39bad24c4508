import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { writeCsv } from '../../../src/document/csv.ts';
import { nameOf } from '../../../src/scenario/resolve.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import { tell, type PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import { base } from '../../parts/style.ts';
import { saveFile } from '../../store/files.ts';
import { newId } from '../../store/shelf.ts';
import {
  keepTaken,
  takenFor,
  timedMs,
  turned,
  watchTaken,
  type Kept,
  type Running,
  type Taken,
} from './stopwatch-store.ts';

const clock = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, '0')}`;

/**
 * `<cw-stopwatch .scenario cell>`: one big button that stays where it is, to begin a piece, to end it and to
 * begin the next like it; pause and strike below; several pieces at once. Event: cw-change { value: Kept }.
 */
@customElement('cw-stopwatch')
export class CwStopwatch extends LitElement {
  static override styles = [
    base,
    css`
      .what {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(10rem, 1fr));
        gap: var(--space-3);
      }
      /* Under one thumb: the big button is the same one, at the same place, for begin, done and again. */
      .big {
        min-height: 88px;
        width: 100%;
        font-size: var(--size-large);
        margin-top: var(--space-3);
      }
      .with-big {
        display: grid;
        grid-template-columns: repeat(3, minmax(0, 1fr));
        gap: var(--space-2);
        margin-top: var(--space-2);
      }
      .with-big button {
        min-height: 56px;
      }
      .struck {
        text-decoration: line-through;
      }
      .piece {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: var(--space-2);
        align-items: center;
        border-bottom: 1px solid var(--hairline);
        padding: var(--space-2) 0;
      }
      ul {
        list-style: none;
        padding: 0;
        margin: var(--space-3) 0;
      }
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
      }
      .figure {
        font-variant-numeric: tabular-nums;
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @property() cell = '';
  @state() private kept: Kept = { running: [], taken: [] };
  @state() private step = '';
  @state() private product = '';
  @state() private person = '';
  /** The running piece that was brought under the big button. */
  @state() private chosen = '';
  /** When the last one was ended here; without that a time taken up again has not been stopped. */
  private ended = 0;
  @state() private now = Date.now();
  private tick: ReturnType<typeof setInterval> | undefined;
  private unwatch: () => void = () => {};

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.listen();
    this.tick = setInterval(() => {
      if (this.kept.running.length > 0) this.now = Date.now();
    }, 1000);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearInterval(this.tick);
    this.unwatch();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('cell')) return;
    this.kept = takenFor(this.cell);
    this.listen();
  }

  private listen(): void {
    this.unwatch();
    this.unwatch = watchTaken(this.cell, (kept) => {
      this.kept = kept;
      tell(this, 'cw-change', { value: kept });
    });
  }

  private keep(kept: Kept): void {
    const all = keepTaken(this.cell, kept);
    this.kept = all ?? kept;
    this.now = Date.now();
    if (all === null)
      say('This browser keeps nothing: save the times before you close the page.', { kind: 'wrong' });
    tell(this, 'cw-change', { value: this.kept });
  }

  /** The piece under the big button: the one brought there, otherwise the one begun last. */
  private get front(): Running | null {
    const { running } = this.kept;
    return running.find(({ id }) => id === this.chosen) ?? running.at(-1) ?? null;
  }

  private begin(): void {
    const step = this.step === '' ? this.steps()[0]!.value : this.step;
    const piece: Running = {
      id: newId(),
      step,
      product: this.product || null,
      person: this.person || null,
      began: Date.now(),
      stopped: 0,
      stoppedAt: null,
    };
    this.chosen = piece.id;
    this.keep({ ...this.kept, running: [...this.kept.running, piece] });
  }

  private end(piece: Running): void {
    const minutes = Math.max(1 / 600, timedMs(piece, Date.now()) / 60_000);
    const { stopped: _stopped, stoppedAt: _at, ...rest } = piece;
    this.chosen = '';
    this.ended = Date.now();
    this.keep({
      running: this.kept.running.filter((one) => one.id !== piece.id),
      taken: [...this.kept.taken, { ...rest, minutes, struck: false }],
    });
  }

  private pause(piece: Running): void {
    const running = this.kept.running.map((one) => (one.id === piece.id ? turned(one, Date.now()) : one));
    this.keep({ ...this.kept, running });
  }

  private drop(piece: Running): void {
    this.keep({ ...this.kept, running: this.kept.running.filter((one) => one.id !== piece.id) });
  }

  /** Struck out it is in no figure; nothing typed or measured goes away. */
  private strike(one: Taken): void {
    const taken = this.kept.taken.map((each) =>
      each.id === one.id ? { ...each, struck: !each.struck } : each,
    );
    this.keep({ ...this.kept, taken });
  }

  /** The last time taken goes on running, as if it had not been ended. */
  private undo(): void {
    const last = this.kept.taken.at(-1);
    if (last === undefined) return;
    const { minutes, struck: _struck, ...piece } = last;
    // What it was stopped for in between is known by its minutes.
    const stopped = Math.max(0, this.ended - last.began - minutes * 60_000);
    this.chosen = last.id;
    this.keep({
      running: [...this.kept.running, { ...piece, stopped, stoppedAt: null }],
      taken: this.kept.taken.slice(0, -1),
    });
  }

  private save(): void {
    const rows = this.kept.taken
      .filter(({ struck }) => !struck)
      .map((one) => [
        new Date(one.began).toISOString(),
        one.step,
        one.product ?? '',
        one.person ?? '',
        Math.round(one.minutes * 1000) / 1000,
      ]);
    saveFile('times.csv', writeCsv([['start', 'step', 'product', 'person', 'minutes'], ...rows]), 'text/csv');
  }

  private steps(): { value: string; label: string }[] {
    return shiftOf(this.scenario)
      .steps.filter((step) => step.kind === 'hands')
      .map(({ id, name }) => ({ value: id, label: name }));
  }

  private name(piece: { step: string; person: string | null }): string {
    const { people, steps } = shiftOf(this.scenario);
    const who = piece.person === null ? '' : `, ${nameOf(people, piece.person)}`;
    return `${nameOf(steps, piece.step)}${who}`;
  }

  protected override render(): TemplateResult {
    const none = { value: '', label: 'not told' };
    const shift = shiftOf(this.scenario);
    // A file that names no products has one, and nothing to choose.
    const named = this.scenario.products === undefined ? [] : shift.products;
    const products = named.map(({ id, name }) => ({ value: id, label: name }));
    const people = shift.people.map(({ id, name }) => ({ value: id, label: name }));
    return html`<div class="what">
        <cw-choice
          list
          label="Step"
          .choices=${this.steps()}
          .value=${this.step || this.steps()[0]!.value}
          @cw-change=${(event: PartEvent<'cw-change', string>) => (this.step = event.detail.value)}
        ></cw-choice>
        ${products.length < 2 ? nothing : html`<cw-choice list label="Product" .choices=${[none, ...products]} .value=${this.product} @cw-change=${(event: PartEvent<'cw-change', string>) => (this.product = event.detail.value)}></cw-choice>`}
        <cw-choice
          list
          label="Who"
          .choices=${[none, ...people]}
          .value=${this.person}
          @cw-change=${(event: PartEvent<'cw-change', string>) => (this.person = event.detail.value)}
        ></cw-choice>
      </div>
      ${this.buttons()}
      <ul>
        ${this.kept.running
          .filter((piece) => piece !== this.front)
          .map(
            (piece) =>
              html`<li class="piece">
                <button type="button" @click=${() => (this.chosen = piece.id)}>
                  to the big button: ${this.name(piece)}
                  <span class="figure">${clock(timedMs(piece, this.now) / 1000)}</span>
                </button>
              </li>`,
          )}
      </ul>
      ${this.taken()}`;
  }

  /** Begin, done, again: one place. What else there is to do with the piece lies below it. */
  private buttons(): TemplateResult {
    const { front } = this;
    if (front === null)
      return html`<button type="button" class="firm big" @click=${() => this.begin()}>
          ${this.kept.taken.length === 0 ? 'begin a piece' : 'begin the next piece'}
        </button>
        <div class="with-big">
          ${
            this.kept.taken.length === 0
              ? nothing
              : html`<button type="button" @click=${() => this.undo()}>not yet done</button>`
          }
        </div>`;
    const stopped = front.stoppedAt !== null;
    return html`<button type="button" class="firm big" @click=${() => this.end(front)}>
        done: ${this.name(front)}
        <span class="figure">${clock(timedMs(front, this.now) / 1000)}${stopped ? ', stopped' : ''}</span>
      </button>
      <div class="with-big">
        <button type="button" @click=${() => this.pause(front)}>${stopped ? 'go on' : 'pause'}</button>
        <button type="button" @click=${() => this.begin()}>one more beside it</button>
        <button
          type="button"
          class="plain"
          aria-label="drop ${this.name(front)}"
          @click=${() => this.drop(front)}
        >
          drop
        </button>
      </div>`;
  }

  private taken(): TemplateResult {
    const { taken } = this.kept;
    const last = taken.at(-1);
    if (last === undefined) return html`<div class="do" role="status"><span>No times taken yet.</span></div>`;
    const struck = taken.filter((one) => one.struck).length;
    const out = struck === 0 ? '' : `, ${struck} struck out`;
    return html`<div class="do" role="status">
        <span>${taken.length} taken${out}; the last: ${this.name(last)}, ${clock(last.minutes * 60)}.</span>
      </div>
      <ul>
        ${taken
          .slice(-SHOWN)
          .reverse()
          .map(
            (one) =>
              html`<li class="piece">
                <span class=${one.struck ? 'struck' : ''}
                  >${this.name(one)} <span class="figure">${clock(one.minutes * 60)}</span></span
                >
                <button
                  type="button"
                  class="plain"
                  aria-label=${`${one.struck ? 'take back the stroke' : 'strike'}: ${this.name(one)}, ${clock(one.minutes * 60)}`}
                  @click=${() => this.strike(one)}
                >
                  ${one.struck ? 'take it back' : 'strike'}
                </button>
              </li>`,
          )}
      </ul>
      <div class="do"><button type="button" @click=${() => this.save()}>save them (CSV)</button></div>`;
  }
}

/** So many of the last times are at hand to be struck. */
const SHOWN = 5;

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
import { keepTaken, takenFor, watchTaken, type Kept, type Running } from './stopwatch-store.ts';

const clock = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, '0')}`;

/**
 * `<cw-stopwatch .scenario cell>`: several pieces timed at once, one touch to begin and one to end. Event:
 * cw-change { value: Kept }.
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
      .begin,
      .piece button:first-of-type {
        min-height: 72px;
        width: 100%;
        font-size: var(--size-large);
        margin-top: var(--space-3);
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

  private begin(): void {
    const step = this.step === '' ? this.steps()[0]!.value : this.step;
    const piece: Running = {
      id: newId(),
      step,
      product: this.product || null,
      person: this.person || null,
      began: Date.now(),
    };
    this.keep({ ...this.kept, running: [...this.kept.running, piece] });
  }

  private end(piece: Running): void {
    const minutes = Math.max(1 / 600, (Date.now() - piece.began) / 60_000);
    this.keep({
      running: this.kept.running.filter((one) => one.id !== piece.id),
      taken: [...this.kept.taken, { ...piece, minutes }],
    });
  }

  /** The last time taken goes on running, as if it had not been ended. */
  private undo(): void {
    const last = this.kept.taken.at(-1);
    if (last === undefined) return;
    const { minutes: _minutes, ...piece } = last;
    this.keep({ running: [...this.kept.running, piece], taken: this.kept.taken.slice(0, -1) });
  }

  private save(): void {
    const rows = this.kept.taken.map((one) => [
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
      <button type="button" class="firm begin" @click=${() => this.begin()}>begin a piece</button>
      <ul>
        ${this.kept.running.map(
          (piece) =>
            html`<li class="piece">
              <button type="button" @click=${() => this.end(piece)}>
                done: ${this.name(piece)}
                <span class="figure">${clock((this.now - piece.began) / 1000)}</span>
              </button>
              <button
                type="button"
                class="plain"
                aria-label="drop ${this.name(piece)}"
                @click=${() => this.keep({ ...this.kept, running: this.kept.running.filter((one) => one.id !== piece.id) })}
              >
                drop
              </button>
            </li>`,
        )}
      </ul>
      <div class="do" role="status">
        <span
          >${this.kept.taken.length === 0 ? 'No times taken yet.' : `${this.kept.taken.length} taken; the last: ${this.name(this.kept.taken.at(-1)!)}, ${clock(this.kept.taken.at(-1)!.minutes * 60)}.`}</span
        >
      </div>
      ${this.kept.taken.length === 0 ? nothing : html`<div class="do"><button type="button" @click=${() => this.undo()}>not yet done</button><button type="button" @click=${() => this.save()}>save them (CSV)</button></div>`}`;
  }
}

import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import '../../parts/sheet.ts';
import { addressOf, route } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { Watch } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { studyTask } from '../../work/live-study.ts';
import '../common/cautions.ts';
import { beginning, isPutAway, isYoung, putAway } from './begin.ts';
import { asScenario, spotKey, spotOf, type Spot } from './cell-data.ts';
import { add } from './edits.ts';
import { beforeLast, differenceWords, effectRequest, makesWords, type Effect } from './effect.ts';
import './flow.ts';
import './json-text.ts';
import { ledger } from './ledger.ts';
import { type Tried } from './panel.ts';
import type { Kind } from './references.ts';
import { pageStyle } from './style.ts';
import { answerWords } from './words.ts';

const NAMED = ['steps', 'people', 'gear', 'products'];
const PLAIN = [
  'shift',
  'intake',
  'carryOver',
  'holds',
  'outRack',
  'nextShifts',
  'about',
  'money',
  'limits',
  'skillLevels',
  'study',
  'options',
  'file',
];
const MOST_FAULTS = 6;

/** What does our cell look like? Everything a file can say, to be touched and changed. */
@customElement('cw-cell')
export class CwCell extends LitElement {
  static override styles = pageStyle;
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) rest: string[] = [];
  /** The cell with a value that is on its way; what is wrong with it, where it is. */
  @state() private trial: { scenario: Scenario | null; said: string; draft: unknown } | null = null;
  private readonly study = new Live<StudySummary>(this);
  private watch: Watch | null = null;
  private effect: Effect | null = null;
  private asked: unknown[] = [];
  private last: { of: unknown; found: ReturnType<typeof beforeLast> } = { of: null, found: null };

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('store')) {
      if (this.watch !== null) {
        this.watch.hostDisconnected();
        this.removeController(this.watch);
      }
      this.watch = new Watch(this, this.store.draft, this.store.reading, this.store.typed);
      this.trial = null;
    }
    if (this.trial !== null && this.trial.draft !== this.store.draft.get()) this.trial = null;
    this.ask();
  }

  private ask(): void {
    const kept = this.store.scenario.get();
    const trial = this.trial?.scenario ?? null;
    const asked = [kept, trial, this.store.draft.get()];
    if (kept === null || asked.every((one, i) => one === this.asked[i])) return;
    this.asked = asked;
    if (this.last.of !== kept) this.last = { of: kept, found: beforeLast(this.store) };
    const { found } = this.last;
    this.effect =
      trial !== null
        ? { kind: 'try', say: '', before: kept, after: trial }
        : found === null
          ? { kind: 'none', say: '', before: null, after: kept }
          : { kind: 'last', say: found.say, before: found.scenario, after: kept };
    this.study.ask(studyTask(effectRequest(this.effect)));
  }

  protected override render(): TemplateResult {
    const draft = asScenario(this.store.draft.get());
    if (draft === null) {
      return html`<cw-sheet
        question="What does our cell look like?"
        answer="This file has lost its shape: put it right as text, or undo."
      >
        <cw-json-text
          .store=${this.store}
          .place=${[]}
          label="The whole file"
          hint="It needs at least “steps” and “people”, each by name."
        ></cw-json-text
      ></cw-sheet>`;
    }
    const chosen = this.chosen(draft);
    const key = spotKey(chosen);
    return html`<cw-sheet
      question="What does our cell look like?"
      answer=${answerWords(draft)}
      @pick=${(event: CustomEvent<Spot>) => this.pick(event.detail)}
    >
      ${this.makes()}${this.faults()}${this.beginning(draft)}
      <cw-flow .scenario=${draft} chosen=${key}></cw-flow>
      <button type="button" class="add" @click=${() => this.add('steps')}>+ one more step</button>
      ${ledger(
        draft,
        key,
        (spot) => this.pick(spot),
        (kind) => this.add(kind),
      )}
      <div slot="controls" class="panel">
        <cw-cell-panel
          .store=${this.store}
          .scenario=${draft}
          .spot=${chosen}
          .turn=${[this.store.draft.get(), this.store.typed.get(), this.store.reading.get()]}
          effect=${this.effectWords()}
          @tried=${(event: CustomEvent<Tried>) => this.tried(event.detail)}
          @pick=${(event: CustomEvent<Spot>) => this.pick(event.detail)}
          @back=${this.back}
        ></cw-cell-panel>
      </div>
      ${this.store.scenario.get() === null ? nothing : html`<cw-cautions slot="after" .scenarios=${[this.store.scenario.get()!]}></cw-cautions>`}
    </cw-sheet>`;
  }

  /** The thing the address names, where there is one; else the first clamp set, else the first step. */
  private chosen(draft: Scenario): Spot {
    const [kind = '', id = ''] = this.rest;
    if (PLAIN.includes(kind)) return { kind, id: '' };
    if (NAMED.includes(kind) && Object.hasOwn(draft[kind as Kind] ?? {}, id)) return { kind, id };
    const gear = Object.keys(draft.gear ?? {})[0];
    const step = Object.keys(draft.steps)[0];
    if (gear !== undefined) return { kind: 'gear', id: gear };
    return step === undefined ? { kind: 'about', id: '' } : { kind: 'steps', id: step };
  }

  private makes(): TemplateResult {
    const { answer, state: live, running } = this.study;
    const words =
      live.kind === 'failed'
        ? `These shifts could not be run: ${live.message}`
        : answer === null || answer.count < 2
          ? this.store.scenario.get() === null
            ? 'What it makes is said once it is put right.'
            : 'The first shifts are being run.'
          : this.effect?.kind === 'try'
            ? `With the value on its way: ${makesWords(answer)}`
            : makesWords(answer);
    return html`<p class="makes">
      ${words}${running && answer !== null && answer.count > 1 ? html` <span class="muted small">So far, ${answer.count.toLocaleString('en-US')} shifts.</span><button type="button" class="plain small" @click=${() => this.study.stop()}>stop</button>` : nothing}
    </p>`;
  }

  private effectWords(): string {
    if (this.trial !== null && this.trial.scenario === null)
      return `Not kept yet, and it would not run: ${this.trial.said}`;
    const { effect } = this;
    const { answer } = this.study;
    if (effect === null || effect.kind === 'none') return '';
    const name = effect.kind === 'try' ? 'Not kept yet' : `Last change, ${effect.say}`;
    if (answer === null || answer.count < 2 || !this.study.current) return `${name}: being tried.`;
    return `${name}: ${differenceWords(answer, effect)}`;
  }

  private faults(): TemplateResult | typeof nothing {
    const { faults } = this.store;
    if (faults.length === 0) return nothing;
    return html`<ul class="faults" role="status">
      ${faults.slice(0, MOST_FAULTS).map(
        (fault) =>
          html`<li>
            <p>${fault.text}</p>
            <button type="button" class="plain small" @click=${() => this.pick(spotOf(fault.place))}>
              go there
            </button>
          </li>`,
      )}
      ${faults.length > MOST_FAULTS ? html`<li><p>And ${faults.length - MOST_FAULTS} more.</p></li>` : nothing}
    </ul>`;
  }

  private beginning(draft: Scenario): TemplateResult | typeof nothing {
    if (!isYoung(draft) || isPutAway(this.store.id)) return nothing;
    return beginning(draft, {
      pick: (spot) => this.pick(spot),
      add: (kind) => this.add(kind),
      putAway: () => {
        putAway(this.store.id);
        this.requestUpdate();
      },
    });
  }

  private add(kind: Kind): void {
    this.pick({ kind, id: add(this.store, kind) });
  }

  private tried({ place, value }: Tried): void {
    const reading = this.store.tried(place, value);
    this.trial = {
      scenario: reading.kind === 'fine' ? reading.scenario : null,
      said: reading.kind === 'fine' ? '' : reading.faults[0]!.text,
      draft: this.store.draft.get(),
    };
  }

  /** In the address, so that it can be come back to; not a step back for each. */
  private pick({ kind, id }: Spot): void {
    const rest = id === '' ? [kind] : [kind, id];
    history.replaceState(null, '', addressOf('cell', ...rest));
    route.set({ page: 'cell', rest });
    this.rest = rest;
    this.trial = null;
    void this.updateComplete.then(async () => {
      const panel = this.renderRoot.querySelector('cw-cell-panel');
      await panel?.updateComplete;
      const below = matchMedia('(max-width: 1023px)').matches;
      if (below)
        panel?.scrollIntoView({
          block: 'start',
          behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth',
        });
      else this.renderRoot.querySelector('.panel')?.scrollTo({ top: 0 });
      panel?.focus({ preventScroll: true });
    });
  }

  /** From the panel back to what was touched. */
  private readonly back = (): void => {
    const key = spotKey(this.chosen(asScenario(this.store.draft.get())!));
    const inFlow = this.renderRoot
      .querySelector('cw-flow')!
      .renderRoot.querySelector<HTMLElement>(`[data-spot="${CSS.escape(key)}"]`);
    (inFlow ?? this.renderRoot.querySelector<HTMLElement>(`[data-spot="${CSS.escape(key)}"]`))?.focus();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-cell': CwCell;
  }
}

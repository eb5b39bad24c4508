import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { missingIn } from '../../../src/scenario/own/own-cell.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import { capitalized, ordinal, singular, withArticle } from '../../../src/words/words.ts';
import '../../parts/sheet.ts';
import { addressOf } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { studyTask } from '../../work/live-study.ts';
import { lastOf } from '../../work/same.ts';
import '../common/cautions.ts';
import { PageController } from '../common/page-controller.ts';
import type { PageElement } from '../page.ts';
import { beginning, isPutAway, putAway } from './begin.ts';
import { asScenario, spotKey, spotOf, type Spot } from './cell-data.ts';
import './crew-sheet.ts';
import { add } from './edits.ts';
import { beforeLast, differenceWords, effectRequest, makesWords, type Effect } from './effect.ts';
import './flow.ts';
import './json-text.ts';
import { ledger } from './ledger.ts';
import { type Tried } from './panel.ts';
import type { Kind } from './references.ts';
import { pageStyle } from './style.ts';
import { answerWords } from './words.ts';
import { isYoung, missingWords } from './young.ts';

const NAMED = ['steps', 'people', 'gear', 'products'];
const PLAIN = [
  'shift',
  'intake',
  'carryOver',
  'holds',
  'outRack',
  'nextShifts',
  'calendar',
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
export class CwCell extends LitElement implements PageElement {
  static override styles = pageStyle;
  readonly page: PageController = new PageController(this, {
    watched: (store) => [store.draft, store.reading, store.typed],
    opened: () => (this.trial = null),
    ask: (scenario) => this.ask(scenario),
  });
  /** The cell with a value that is on its way; what is wrong with it, where it is. */
  @state() private trial: { scenario: Scenario | null; said: string; draft: unknown } | null = null;
  private readonly study = this.page.live<StudySummary>();
  @state() private unread: string[] = [];
  private effect: Effect | null = null;
  private readonly last = lastOf((_kept: Scenario, store: CellStore) => beforeLast(store));

  protected override willUpdate(): void {
    if (this.trial !== null && this.trial.draft !== this.page.store.draft.get()) this.trial = null;
  }

  private ask(kept: Scenario): void {
    const trial = this.trial?.scenario ?? null;
    const { store } = this.page;
    this.study.askOf([kept, trial, store.draft.get()], () => {
      const found = this.last(kept, store);
      this.effect =
        trial !== null
          ? { kind: 'try', say: '', before: kept, after: trial }
          : found === null
            ? { kind: 'none', say: '', before: null, after: kept }
            : { kind: 'last', say: found.say, before: found.scenario, after: kept };
      return studyTask(effectRequest(this.effect));
    });
  }

  /** The cell is drawn, and mended, while it cannot be run too: so not by the controller's sheet. */
  protected override render(): TemplateResult {
    const draft = asScenario(this.page.store.draft.get());
    if (draft === null) {
      return html`<cw-sheet
        question=${this.page.question}
        answer="This file has lost its shape: put it right as text, or undo."
      >
        <cw-json-text
          .store=${this.page.store}
          .place=${[]}
          label="The whole file"
          hint="It needs at least “steps” and “people”, each by name."
        ></cw-json-text
      ></cw-sheet>`;
    }
    const chosen = this.chosen(draft);
    const key = spotKey(chosen);
    return html`<cw-sheet
      question=${this.page.question}
      answer=${answerWords(draft)}
      @pick=${(event: CustomEvent<Spot>) => this.pick(event.detail)}
    >
      ${this.makes(draft)}${this.faults(draft)}${this.beginning(draft)}
      <cw-flow .scenario=${draft} chosen=${key}></cw-flow>
      <button type="button" class="add" @click=${() => this.add('steps')}>+ one more step</button>
      ${
        this.begun.has(this.page.store.id) && !isPutAway(this.page.store.id)
          ? nothing
          : html`<section class="part" aria-labelledby="sheet">
              <h2 id="sheet">Who stands where</h2>
              <cw-crew-sheet .store=${this.page.store} .scenario=${draft} .turn=${draft}></cw-crew-sheet>
            </section>`
      }
      ${ledger(
        draft,
        key,
        (spot) => this.pick(spot),
        (kind) => this.add(kind),
      )}
      <div slot="controls" class="panel">
        <cw-cell-panel
          .store=${this.page.store}
          .scenario=${draft}
          .spot=${chosen}
          .turn=${[this.page.store.draft.get(), this.page.store.typed.get(), this.page.store.reading.get()]}
          effect=${this.effectWords()}
          @tried=${(event: CustomEvent<Tried>) => this.tried(event.detail)}
          @pick=${(event: CustomEvent<Spot>) => this.pick(event.detail)}
          @back=${this.back}
        ></cw-cell-panel>
      </div>
      ${this.page.scenario === null ? nothing : html`<cw-cautions slot="after" .scenarios=${[this.page.scenario!]}></cw-cautions>`}
    </cw-sheet>`;
  }

  /** The thing the address names, where there is one; else the first clamp set, else the first step. */
  private chosen(draft: Scenario): Spot {
    const [kind = '', id = ''] = this.page.rest;
    if (PLAIN.includes(kind)) return { kind, id: '' };
    if (NAMED.includes(kind) && Object.hasOwn(draft[kind as Kind] ?? {}, id)) return { kind, id };
    const gear = Object.keys(draft.gear ?? {})[0];
    const step = Object.keys(draft.steps)[0];
    if (gear !== undefined) return { kind: 'gear', id: gear };
    return step === undefined ? { kind: 'about', id: '' } : { kind: 'steps', id: step };
  }

  private makes(draft: Scenario): TemplateResult {
    // No number before the cell is whole: it would be nobody's.
    if (missingIn(draft).length > 0)
      return html`<p class="makes">What it makes is said once the cell is whole. ${missingWords(draft)}</p>`;
    const { answer, state: live, running } = this.study;
    const words =
      live.kind === 'failed'
        ? `These shifts could not be run: ${live.message}`
        : answer === null || answer.count < 2
          ? this.page.scenario === null
            ? 'What it makes is said once it is put right.'
            : 'The first shifts are being run.'
          : this.effect?.kind === 'try'
            ? `With the value on its way: ${makesWords(answer, this.effect.after)}`
            : makesWords(answer, this.page.scenario);
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

  private faults(draft: Scenario): TemplateResult | typeof nothing {
    const { faults } = this.page.store;
    // What is still to come is no mistake, and is said in its own words.
    if (faults.length === 0 || missingIn(draft).length > 0) return nothing;
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
    const { store } = this.page;
    if (isPutAway(store.id)) return nothing;
    if (isYoung(draft)) this.begun.add(store.id);
    // It stays until it is put away: nothing goes from under the fingers with the last answer.
    if (!this.begun.has(store.id)) return nothing;
    return beginning({
      store,
      draft,
      unread: this.unread,
      setUnread: (lines) => (this.unread = lines),
      putAway: () => {
        putAway(store.id);
        this.requestUpdate();
      },
      askOneMore: () => this.askOneMore(draft),
    });
  }

  private readonly begun = new Set<string>();

  /** The first question people ask, as an option of the cell, and its answer. */
  private askOneMore(draft: Scenario): void {
    const [id, gear] = Object.entries(draft.gear ?? {})[0] ?? [];
    if (id === undefined || gear === undefined) return;
    const option = {
      name: `${capitalized(withArticle(ordinal(gear.count + 1)))} ${singular(gear.name ?? id)}`,
      changes: { gear: { [id]: { count: gear.count + 1 } } },
    };
    this.page.store.change(`“${option.name}” added`, ['options', 'one-more'], option);
    location.hash = addressOf('compare', 'one-more');
  }

  private add(kind: Kind): void {
    this.pick({ kind, id: add(this.page.store, kind) });
  }

  private tried({ place, value }: Tried): void {
    const reading = this.page.store.tried(place, value);
    this.trial = {
      scenario: reading.kind === 'fine' ? reading.scenario : null,
      said: reading.kind === 'fine' ? '' : reading.faults[0]!.text,
      draft: this.page.store.draft.get(),
    };
  }

  private pick({ kind, id }: Spot): void {
    this.page.turnTo(...(id === '' ? [kind] : [kind, id]));
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
    const key = spotKey(this.chosen(asScenario(this.page.store.draft.get())!));
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

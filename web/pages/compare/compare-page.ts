import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import { paybackWords } from '../../../src/words/option-words.ts';
import { comparisonPicture, comparisonTable, type Comparison, type Size } from '../../../src/charts/index.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { comparison } from '../../../src/study/from-scenario.ts';
import type { OneMoreOfEach } from '../../../src/study/one-more.ts';
import type { StudyRequest } from '../../../src/study/study.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/number.ts';
import '../../parts/picture.ts';
import '../../parts/sheet.ts';
import { addressOf, route } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json } from '../../store/draft.ts';
import { Watch } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { oneMoreTask, studyTask } from '../../work/live-study.ts';
import { faultsLine } from '../common/faults.ts';
import '../common/cautions.ts';
import { footOf, valuesOf } from '../common/of-study.ts';
import { progressLine } from '../common/progress-line.ts';
import './day-lines.ts';
import { ledger, type LedgerRow } from './ledger.ts';
import './option-editor.ts';
import './option-list.ts';
import {
  asOptioned,
  doubled,
  freeId,
  moved,
  without,
  type Edited,
  type ListAct,
  type Option,
} from './options.ts';
import { keepShown, shownOf, withShown } from './shown.ts';
import { pageStyle } from './style.ts';
import { answerWords, baseWords, pairOf, rowWords, thenWords } from './words.ts';

/** What if? Options of the cell side by side, on the same luck. */
@customElement('cw-compare')
export class CwCompare extends LitElement {
  static override styles = pageStyle;
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) rest: string[] = [];
  @state() private shown: string[] = [];
  /** An option as it would be with the value just being typed or dragged. */
  @state() private trial: Scenario | null = null;
  private readonly study = new Live<StudySummary>(this);
  private readonly each = new Live<OneMoreOfEach>(this);
  private watch: Watch | null = null;
  private scenario: Scenario | null = null;
  private request: StudyRequest | null = null;
  private asked: unknown[] = [];
  /** Every cell the answer is about, for the cautions that apply to any of them. */
  private cautioned: Scenario[] = [];
  private drawn: { of: unknown[]; draw: (size: Size) => string; data: Comparison } | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('store')) {
      if (this.watch !== null) {
        this.watch.hostDisconnected();
        this.removeController(this.watch);
      }
      this.watch = new Watch(this, this.store.scenario, this.store.reading);
      this.trial = null;
    }
    this.scenario = this.trial ?? this.store.scenario.get();
    if (this.scenario === null) return;
    this.shown = shownOf(this.store.id, this.scenario.options ?? {});
    this.askStudy(this.scenario);
    this.askThen(this.scenario);
  }

  private askStudy(scenario: Scenario): void {
    const asked = [scenario, this.shown.join(' ')];
    if (asked.every((one, i) => one === this.asked[i])) return;
    this.asked = asked;
    this.request = comparison(scenario, this.shown);
    this.cautioned = [scenario, ...this.shown.map((id) => asOptioned(scenario, scenario.options![id]!))];
    // What holds the cell back then is asked again afterwards; until then the workers are the study's.
    this.each.ask(null);
    this.thenOf = [];
    this.study.ask(studyTask(this.request));
  }

  private thenOf: unknown[] = [];

  /**
   * What holds the cell back with the option in the heading: asked when the comparison itself is answered.
   */
  private askThen(scenario: Scenario): void {
    const { looked } = this;
    if (looked === null || this.study.state.kind !== 'done' || !this.study.current || this.trial !== null)
      return;
    const of = [scenario, looked];
    if (of.every((one, i) => one === this.thenOf[i])) return;
    this.thenOf = of;
    this.each.ask(oneMoreTask(asOptioned(scenario, scenario.options![looked]!)));
  }

  /** The option in the heading: the one the address names, else the first. */
  private get looked(): string | null {
    const wanted = this.rest[0];
    return wanted !== undefined && this.shown.includes(wanted) ? wanted : (this.shown[0] ?? null);
  }

  protected override render(): TemplateResult {
    const { scenario, looked } = this;
    if (scenario === null) {
      return html`<cw-sheet question="What if?" answer="Nothing can be compared until the cell is put right."
        >${faultsLine(this.store)}</cw-sheet
      >`;
    }
    const study = this.study.answer;
    const option = looked === null ? null : scenario.options![looked]!;
    return html`<cw-sheet question="What if?" answer=${this.answer(scenario, study)} @cw-stop=${this.stop}>
      ${faultsLine(this.store)}
      ${study === null || study.count < 2 ? html`<div class="room"></div>` : this.picture(scenario, study)}
      ${progressLine({ live: this.study, study, wanted: scenario.study?.precision ?? 0.25, then: this.each.running ? 'Now one more of each thing is tried, to see what holds you back then.' : '' })}
      ${study === null || option === null ? nothing : this.pays(scenario, option, study)}
      <div slot="controls">
        <cw-option-list
          .scenario=${scenario}
          .shown=${this.shown}
          looked=${looked ?? ''}
          @act=${(event: CustomEvent<ListAct>) => this.act(event.detail)}
        ></cw-option-list>
        ${
          option === null
            ? nothing
            : html`<section aria-label="The option in the heading" class="edit">
                ${keyed(looked, html`<cw-option-editor .scenario=${this.store.scenario.get()!} optionId=${looked!} effect=${this.trialWords(scenario, looked!, study)} .option=${this.kept(looked!) ?? option} @edited=${(event: CustomEvent<Edited>) => this.edited(looked!, event.detail)}></cw-option-editor>`)}
                <p class="wrong" ?hidden=${this.store.wrongAt(['options', looked!]) === ''}>
                  ${this.store.wrongAt(['options', looked!])}
                </p>
              </section>`
        }
        ${this.sureness(scenario)}
      </div>
      ${
        study === null
          ? nothing
          : html`<div slot="after">
              <section aria-labelledby="figures">
                <h2 id="figures">In figures</h2>
                ${ledger(this.rows(scenario, study), scenario.money?.currency ?? '$')}
              </section>
              <cw-day-lines .study=${study} .request=${this.request} .looked=${looked}></cw-day-lines>
            </div>`
      }
      <cw-cautions slot="after" .scenarios=${this.cautioned}></cw-cautions>
    </cw-sheet>`;
  }

  /** What the value on its way does, said where it is set; empty where there is none. */
  private trialWords(scenario: Scenario, id: string, study: StudySummary | null): string {
    if (this.trial === null) return '';
    return study === null || !this.study.current
      ? 'being tried.'
      : answerWords(scenario, id, scenario.options![id]!, study);
  }

  private kept(id: string): Option | undefined {
    return this.store.scenario.get()?.options?.[id];
  }

  private answer(scenario: Scenario, study: StudySummary | null): string {
    const { looked } = this;
    if (study === null || study.count < 2)
      return this.study.state.kind === 'failed'
        ? 'These shifts could not be run.'
        : 'The first shifts are being run.';
    if (looked === null) return baseWords(study);
    const then = this.each.answer;
    const known =
      then !== null &&
      this.each.current &&
      this.each.state.kind === 'done' &&
      this.study.current &&
      this.thenOf[0] === scenario &&
      this.thenOf[1] === looked;
    const words = answerWords(scenario, looked, scenario.options![looked]!, study);
    return known ? `${words} ${thenWords(scenario, pairOf(study, looked), then)}` : words;
  }

  private rows(scenario: Scenario, study: StudySummary): LedgerRow[] {
    const row = (id: string, name: string): LedgerRow => ({
      id,
      name,
      one: study.cases.find((one) => one.id === id) ?? null,
      pair: pairOf(study, id),
    });
    return [row('base', 'As it is'), ...this.shown.map((id) => row(id, scenario.options![id]!.name ?? id))];
  }

  private picture(scenario: Scenario, study: StudySummary): TemplateResult {
    const of = [scenario, study, this.shown.join(' ')];
    if (this.drawn === null || of.some((one, i) => one !== this.drawn!.of[i])) {
      const rows = this.rows(scenario, study);
      const data: Comparison = {
        title: 'Good units a shift, option by option',
        description: rows
          .map(({ name, one, pair }) =>
            one === null ? `${name}: being run.` : `${name}: ${rowWords(scenario, one, pair)}`,
          )
          .join(' '),
        target: study.cases[0]!.target?.units ?? null,
        rows: rows.map(({ name, one, pair }) => ({
          name,
          values: one === null ? [] : valuesOf(one.spread),
          mean: one?.good.estimate ?? NaN,
          low: one?.good.low ?? NaN,
          high: one?.good.high ?? NaN,
          words: one === null ? 'being run' : rowWords(scenario, one, pair),
        })),
        foot: footOf(study, 'good units a shift'),
      };
      this.drawn = { of, data, draw: (size) => comparisonPicture(data, size) };
    }
    return html`<cw-picture
      paper="720"
      .draw=${this.drawn.draw}
      .table=${comparisonTable(this.drawn.data)}
    ></cw-picture>`;
  }

  private pays(scenario: Scenario, option: Option, study: StudySummary): TemplateResult | typeof nothing {
    const pair = this.looked === null ? undefined : pairOf(study, this.looked);
    const words =
      pair === undefined || study.kind !== 'final' ? '' : paybackWords(scenario, option.price, pair);
    return words === ''
      ? nothing
      : html`<p class="pays">“${option.name ?? this.looked}”: ${words.replace(/^It /, 'it ')}</p>`;
  }

  private sureness(scenario: Scenario): TemplateResult {
    return html`<section class="edit">
      <cw-number
        label="Sure to within"
        unit="units"
        .value=${scenario.study?.precision ?? 0.25}
        least="0.01"
        most="100"
        step="0.05"
        bare
        hint="Good units a shift. Half of this takes about four times as many shifts."
        @cw-change=${(event: PartEvent<'cw-change', number>) =>
          this.store.change(
            `sure to within ${event.detail.value}`,
            ['study', 'precision'],
            event.detail.value,
          )}
      ></cw-number>
    </section>`;
  }

  private readonly stop = (): void => {
    this.study.stop();
    this.each.stop();
  };

  private edited(id: string, { option, kept, say: what }: Edited): void {
    const value = option as unknown as Json;
    if (kept) {
      this.trial = null;
      this.store.change(`${option.name ?? id}: ${what}`, ['options', id], value);
      return;
    }
    const reading = this.store.tried(['options', id], value);
    this.trial = reading.kind === 'fine' ? reading.scenario : null;
  }

  private act(act: ListAct): void {
    const options = this.store.scenario.get()!.options ?? {};
    const put = (what: string, value: typeof options): void =>
      this.store.change(what, ['options'], value as unknown as Json);
    if (act.kind === 'add')
      return this.add(act.maker.option, freeId(options, act.maker.option.name), { ...options });
    const { id } = act;
    const name = options[id]?.name ?? id;
    switch (act.kind) {
      case 'look at':
        return this.lookAt(id);
      case 'show':
        return this.show(withShown(this.shown, id), id);
      case 'hide':
        return this.show(this.shown.filter((one) => one !== id));
      case 'up':
        return put(`“${name}” moved up`, moved(options, id, -1));
      case 'down':
        return put(`“${name}” moved down`, moved(options, id, 1));
      case 'duplicate': {
        const copy = doubled(options, id);
        put(`“${name}” copied`, copy.options);
        return this.show(withShown(this.shown, copy.id), copy.id);
      }
      case 'remove':
        put(`“${name}” removed`, without(options, id));
        say(`“${name}” removed.`, { act: { label: 'undo', run: () => void this.store.undo() } });
        return this.show(this.shown.filter((one) => one !== id));
    }
  }

  private add(option: Option, id: string, options: Record<string, Option>): void {
    this.store.change(`“${option.name ?? id}” added`, ['options'], {
      ...options,
      [id]: option,
    } as unknown as Json);
    this.show(withShown(this.shown, id), id);
  }

  private show(ids: string[], looked?: string): void {
    keepShown(this.store.id, ids);
    if (looked !== undefined) this.lookAt(looked);
    this.requestUpdate();
  }

  /** In the address, so that it can be come back to; not a step back for each. */
  private lookAt(id: string): void {
    history.replaceState(null, '', addressOf('compare', id));
    route.set({ page: 'compare', rest: [id] });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-compare': CwCompare;
  }
}

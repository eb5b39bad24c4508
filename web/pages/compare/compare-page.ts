import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import { optionSubject, paybackWords } from '../../../src/words/option-words.ts';
import { differenceSentence } from '../../../src/words/sentences.ts';
import { stockWords, tonightWords, usualDaysWords } from '../../../src/words/usual-words.ts';
import { sideBySidePicture, type Size } from '../../../src/charts/index.ts';
import { sideBySide } from '../../../src/report/parts/side-by-side.ts';
import { sideBySideTable } from '../../../src/report/parts/side-by-side-table.ts';
import { inSentence } from '../../../src/words/words.ts';
import { nameOf, resolveOption } from '../../../src/scenario/resolve.ts';
import { plantOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { isPriced } from '../../../src/study/clamp-question.ts';
import { comparison } from '../../../src/study/from-scenario.ts';
import type { OneMoreOfEach } from '../../../src/study/one-more.ts';
import type { StudyRequest } from '../../../src/study/study.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import { usualPair, type OnUsualDays } from '../../../src/study/usual-days.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/number.ts';
import '../../parts/picture.ts';
import type { Json } from '../../store/draft.ts';
import { oneMoreTask, studyTask, usualTask } from '../../work/live-study.ts';
import { lastOf } from '../../work/same.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { progressLine } from '../common/progress-line.ts';
import type { PageElement } from '../page.ts';
import './day-lines.ts';
import { ledger, type LedgerRow } from './ledger.ts';
import './grid.ts';
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
import { putBeside } from './put-beside.ts';
import './staff.ts';
import { keepShown, shownOf, withShown } from './shown.ts';
import { pageStyle } from './style.ts';
import { answerWords, baseWords, pairOf, rowWords, thenWords } from './words.ts';

/** What if? Options of the cell side by side, on the same luck. */
@customElement('cw-compare')
export class CwCompare extends LitElement implements PageElement {
  static override styles = pageStyle;
  readonly page: PageController = new PageController(this, {
    opened: () => (this.trial = null),
    ask: (scenario) => this.ask(this.trial ?? scenario),
  });
  @state() private shown: string[] = [];
  /** An option as it would be with the value just being typed or dragged. */
  @state() private trial: Scenario | null = null;
  private readonly study = this.page.live<StudySummary>();
  private readonly each = this.page.live<OneMoreOfEach>();
  private readonly usual = this.page.live<OnUsualDays>();
  private request: StudyRequest | null = null;
  /** Every cell the answer is about, for the cautions that apply to any of them. */
  private cautioned: Scenario[] = [];

  private ask(scenario: Scenario): void {
    this.shown = shownOf(this.page.store.id, plantOf(scenario).options);
    this.study.askOf([scenario, this.shown.join(' ')], () => {
      this.request = comparison(scenario, this.shown);
      this.cautioned = [scenario, ...this.shown.map((id) => asOptioned(scenario, scenario.options![id]!))];
      // What holds the cell back then is asked again afterwards; until then the workers are the study's.
      this.each.ask(null);
      return studyTask(this.request);
    });
    this.askThen(scenario);
  }

  /**
   * What holds the cell back with the option in the heading: asked when the comparison itself is answered.
   */
  private askThen(scenario: Scenario): void {
    const { looked } = this;
    if (looked === null || this.study.state.kind !== 'done' || !this.study.current || this.trial !== null)
      return;
    const option = scenario.options![looked]!;
    this.each.askOf([scenario, looked], () => oneMoreTask(asOptioned(scenario, option)));
    if (this.each.state.kind !== 'done' || !this.each.current) return;
    // What is bought is bought for usual days.
    const { price } = resolveOption(looked, option);
    if (!isPriced(scenario) || price === null || price === 0) this.usual.ask(null);
    else
      this.usual.askOf([scenario, looked], () =>
        usualTask(scenario, {
          id: looked,
          name: resolveOption(looked, option).name,
          scenario: asOptioned(scenario, option),
        }),
      );
  }

  /** The option in the heading: the one the address names, else the first. */
  private get looked(): string | null {
    const wanted = this.page.rest[0];
    return wanted !== undefined && this.shown.includes(wanted) ? wanted : (this.shown[0] ?? null);
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be compared until the cell is put right.', (scenario) =>
      this.said(this.trial ?? scenario),
    );
  }

  private said(scenario: Scenario): Said {
    const { looked } = this;
    const study = this.study.answer;
    const option = looked === null ? null : scenario.options![looked]!;
    return {
      answer: this.answer(scenario, study),
      cautions: this.cautioned,
      body: html`${study === null || study.count < 2 ? html`<div class="room"></div>` : this.picture(scenario, study)}
        ${progressLine({ live: this.study, study, store: this.page.store, wanted: plantOf(scenario).study.precision, then: this.each.running ? 'Now one more of each thing is tried, to see what holds you back then.' : '' })}
        ${study === null || option === null ? nothing : this.pays(scenario, option, study)}
        ${study === null ? nothing : html`<cw-day-lines slot="more" .study=${study} .request=${this.request} .looked=${looked}></cw-day-lines>`}
        <div slot="controls">
          <cw-option-list
            .scenario=${scenario}
            .shown=${this.shown}
            looked=${looked ?? ''}
            @act=${(event: CustomEvent<ListAct>) => this.act(event.detail)}
          ></cw-option-list>
          <section aria-label="People" class="edit">
            <cw-staff .scenario=${this.page.scenario!} @beside=${this.beside}></cw-staff>
          </section>
          ${
            option === null
              ? nothing
              : html`<section aria-label="The option in the heading" class="edit">
                  ${keyed(looked, html`<cw-option-editor .scenario=${this.page.scenario!} optionId=${looked!} effect=${this.trialWords(scenario, looked!, study)} .option=${this.kept(looked!) ?? option} @edited=${(event: CustomEvent<Edited>) => this.edited(looked!, event.detail)}></cw-option-editor>`)}
                  <p class="wrong" ?hidden=${this.page.store.wrongAt(['options', looked!]) === ''}>
                    ${this.page.store.wrongAt(['options', looked!])}
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
                  ${ledger(this.rows(scenario, study), plantOf(scenario).money.currency)}
                </section>
                <section aria-labelledby="grid">
                  <h2 id="grid">Two things at once</h2>
                  <cw-grid .scenario=${scenario} @beside=${this.beside}></cw-grid>
                </section>
              </div>`
        } `,
    };
  }

  /** What the value on its way does, said where it is set; empty where there is none. */
  private trialWords(scenario: Scenario, id: string, study: StudySummary | null): string {
    if (this.trial === null) return '';
    return study === null || !this.study.current
      ? 'being tried.'
      : answerWords(scenario, id, scenario.options![id]!, study);
  }

  private kept(id: string): Option | undefined {
    return this.page.scenario?.options?.[id];
  }

  private answer(scenario: Scenario, study: StudySummary | null): string {
    const { looked } = this;
    if (study === null || study.count < 2)
      return this.study.state.kind === 'failed'
        ? 'These shifts could not be run.'
        : 'The first shifts are being run.';
    if (looked === null) return baseWords(scenario, study);
    const then = this.each.answer;
    const known =
      then !== null &&
      this.each.answersTo([scenario, looked]) &&
      this.each.state.kind === 'done' &&
      this.study.current;
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
    return [
      row('base', 'As it is'),
      ...this.shown.map((id) => row(id, nameOf(plantOf(scenario).options, id))),
    ];
  }

  private picture(scenario: Scenario, study: StudySummary): TemplateResult {
    const { draw, table } = this.drawn(scenario, study, this.shown.join(' '), this.looked);
    return html`<cw-picture
      paper="720"
      .draw=${draw}
      .table=${table}
      @click=${(event: MouseEvent) => this.touched(event)}
    ></cw-picture>`;
  }

  /** A row of the picture was touched: its option goes into the heading, its lines beside today's. */
  private touched(event: MouseEvent): void {
    const [first] = event.composedPath();
    const id = first instanceof Element ? first.getAttribute('data-row') : null;
    if (id !== null && this.shown.includes(id)) this.page.turnTo(id);
  }

  /** `_shown`: the rows' options, as a text, since the list of them is a new one on every drawing. */
  private readonly drawn = lastOf(
    (scenario: Scenario, study: StudySummary, _shown: string, looked: string | null) => {
      const rows = this.rows(scenario, study);
      const cases = this.request?.cases ?? [];
      const data = sideBySide(study, cases, {
        ids: rows.map(({ id }) => id),
        names: rows.map(({ name }) => name),
        words: rows.map(({ one, pair }) => (one === null ? 'being run.' : rowWords(scenario, one, pair))),
        looked,
      });
      const table = sideBySideTable(
        study,
        cases,
        study.cases.map(({ id, name }) => rows.find((row) => row.id === id)?.name ?? name),
      );
      return { draw: (size: Size) => sideBySidePicture(data, size), table };
    },
  );

  private pays(scenario: Scenario, option: Option, study: StudySummary): TemplateResult | typeof nothing {
    const { looked } = this;
    const usual = this.usual.current ? this.usual.answer : null;
    const pair = looked === null ? undefined : usualPair(usual, looked);
    if (looked === null || usual === null || pair === undefined || study.kind !== 'final') return nothing;
    const { difference } = plantOf(scenario).study;
    const tomorrow = pairOf(study, looked)?.good;
    const texts = [
      `On ${usualDaysWords(usual)}: ${inSentence(differenceSentence(optionSubject(scenario, looked, option), pair.good, { kind: 'units' }, difference))}`,
      paybackWords(scenario, option.price, pair),
      (tomorrow === undefined ? null : tonightWords(pair.good, tomorrow, difference)) ?? '',
      ...stockWords(usual, difference),
    ];
    return html`<p class="pays">${texts.filter((one) => one !== '').join(' ')}</p>`;
  }

  private sureness(scenario: Scenario): TemplateResult {
    return html`<section class="edit">
      <cw-number
        label="Sure to within"
        unit="units"
        .value=${plantOf(scenario).study.precision}
        least="0.01"
        most="100"
        step="0.05"
        bare
        hint="Good units a shift. Half of this takes about four times as many shifts."
        @cw-change=${(event: PartEvent<'cw-change', number>) =>
          this.page.store.change(
            `sure to within ${event.detail.value}`,
            ['study', 'precision'],
            event.detail.value,
          )}
      ></cw-number>
    </section>`;
  }

  private edited(id: string, { option, kept, say: what }: Edited): void {
    const value = option as unknown as Json;
    if (kept) {
      this.trial = null;
      this.page.store.change(`${resolveOption(id, option).name}: ${what}`, ['options', id], value);
      return;
    }
    const reading = this.page.store.tried(['options', id], value);
    this.trial = reading.kind === 'fine' ? reading.scenario : null;
  }

  private act(act: ListAct): void {
    const options = { ...this.page.scenario!.options };
    const put = (what: string, value: typeof options): void =>
      this.page.store.change(what, ['options'], value as unknown as Json);
    if (act.kind === 'add')
      return this.add(act.maker.option, freeId(options, act.maker.option.name), { ...options });
    const { id } = act;
    const name = nameOf(plantOf(this.page.scenario!).options, id);
    switch (act.kind) {
      case 'look at':
        return this.page.turnTo(id);
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
        say(`“${name}” removed.`, { act: { label: 'undo', run: () => void this.page.store.undo() } });
        return this.show(this.shown.filter((one) => one !== id));
    }
  }

  private add(option: Option, id: string, options: Record<string, Option>): void {
    this.page.store.change(`“${resolveOption(id, option).name}” added`, ['options'], {
      ...options,
      [id]: option,
    } as unknown as Json);
    this.show(withShown(this.shown, id), id);
  }

  private readonly beside = (event: CustomEvent<Option & { name: string }>): void =>
    putBeside(this.page.store, this.page.scenario!, event.detail);

  private show(ids: string[], looked?: string): void {
    keepShown(this.page.store.id, ids);
    if (looked !== undefined) this.page.turnTo(looked);
    this.requestUpdate();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-compare': CwCompare;
  }
}

import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { histogramPicture, histogramTable, type Histogram, type Size } from '../../../src/charts/index.ts';
import type { Page } from '../../../src/document/document.ts';
import { timesPage } from '../../../src/report/times-page.ts';
import { placeName } from '../../../src/words/times-words.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { applyFits } from '../../../src/timing/apply-fits.ts';
import { curveLine, histogramOf } from '../../../src/timing/chart.ts';
import { forecastWithTimes, type TimesForecast } from '../../../src/timing/forecast-times.ts';
import { placeKey } from '../../../src/timing/groups.ts';
import type { ReadAccount } from '../../../src/timing/read-observations.ts';
import type { StepFit } from '../../../src/timing/step-fit.ts';
import { studyTimes, type TimesStudy } from '../../../src/timing/study-times.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import '../../parts/toggle.ts';
import { pickFile } from '../../store/files.ts';
import { Lists, stageWords, type ListSource, type ListStage, type TimesAnswer } from '../../work/lists.ts';
import { lastOf } from '../../work/same.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { listColumns, listWords } from './list-columns.ts';
import { keepList, listOf, NO_LIST, type ListKept } from './list-kept.ts';
import { ownTimes } from './own-times.ts';
import { placesUsed, singleTimes } from './places-used.ts';
import './stopwatch.ts';
import { observationsOf, takenFor, type Kept } from './stopwatch-store.ts';

/** A million rows are about forty million bytes. */
const MOST_LIST = 200_000_000;

/** What are our times? A stopwatch, a list pasted or opened, the fit, and the times into the cell. */
@customElement('cw-times')
export class CwTimes extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    css`
      section {
        margin-top: var(--space-8);
      }
      h2 {
        margin-bottom: var(--space-3);
      }
      .side {
        display: grid;
        gap: var(--space-6);
      }
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
        margin: var(--space-3) 0;
      }
      .scroll {
        overflow-x: auto;
      }
      .singles {
        list-style: none;
        padding: 0;
      }
      .singles li {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: var(--space-3);
        border-bottom: 1px solid var(--hairline);
      }
      .left {
        text-decoration: line-through;
      }
      .figure {
        font-variant-numeric: tabular-nums;
      }
      table {
        border-collapse: collapse;
        font-size: var(--size-small);
      }
      th,
      td {
        text-align: left;
        padding: var(--space-1) var(--space-4) var(--space-1) 0;
        border-bottom: 1px solid var(--hairline);
        font-weight: 400;
      }
      thead th {
        color: var(--muted);
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: (store) => {
      this.taken = takenFor(store.id);
      this.kept = listOf(store.id);
    },
    ask: (scenario) => this.kept.source !== null && this.ask(scenario, this.kept.source),
  });
  /** The list and what was decided of it. */
  @state() private kept: ListKept = NO_LIST;
  @state() private taken: Kept = { running: [], taken: [] };
  @state() private place = '';
  @state() private stage: ListStage | null = null;
  private readonly lists = new Lists();
  private readonly list = this.page.live<TimesAnswer>();
  private readonly forecast = this.page.live<TimesForecast>();
  /** The study that the forecast was asked of. */
  private forecastOf: TimesStudy | null = null;
  private asks = 0;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.lists.close();
  }

  /** Asks for the list to be read and fitted, where anything it depends on is another. */
  private ask(scenario: Scenario, source: ListSource): void {
    const { taken } = this;
    const { mapping, leaveOut } = this.kept;
    this.list.askOf([scenario, source, mapping, leaveOut, taken.taken], () => ({
      key: String((this.asks += 1)),
      run: async ({ signal, show }) => {
        this.stage = null;
        show(
          await this.lists.times(
            { source, mapping, scenario, taken: observationsOf(taken), leaveOut: [...leaveOut] },
            { signal, onStage: (stage) => (this.stage = stage) },
          ),
        );
      },
    }));
  }

  /** Times of the stopwatch alone are few and fitted here and now. */
  private readonly ofStopwatch = lastOf(
    (scenario: Scenario, taken: Kept['taken'], leaveOut: readonly string[]) =>
      studyTimes(scenario, observationsOf({ running: [], taken }), { leaveOut: new Set(leaveOut) }),
  );

  private keep(change: Partial<ListKept>): void {
    this.kept = keepList(this.page.store.id, change);
  }

  private bring(source: ListSource): void {
    if (typeof source === 'string' && source.trim() === '') return;
    this.keep({ source, mapping: null });
  }

  private async open(): Promise<void> {
    const chosen = await pickFile('.csv,.tsv,.txt,text/csv', MOST_LIST);
    if (chosen.kind === 'fine') this.bring(chosen.file);
    if (chosen.kind === 'wrong') say(chosen.message, { kind: 'wrong' });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be fitted until the cell is put right.', (scenario) =>
      this.said(scenario),
    );
  }

  private said(scenario: Scenario): Said {
    const { kept } = this;
    const list = kept.source === null ? null : this.list.answer;
    const read = list?.read ?? null;
    const study = list?.study ?? this.ofStopwatch(scenario, this.taken.taken, kept.leaveOut);
    const forecast = this.forecast.current && this.forecastOf === study ? this.forecast.answer : null;
    const page = this.told(scenario, read, study, forecast, kept.withNames);
    const heading = page.blocks[0]?.kind === 'heading' ? page.blocks[0].text : page.title;
    const some = study.places.length > 0;
    return {
      answer: some ? heading : 'Take times at the bench, or bring the list you have.',
      body: html`${this.progress()} ${list === null ? nothing : this.columns(scenario, list)}
        ${some ? html`${this.picture(scenario, study)}${this.use(scenario, study)}` : nothing}
        ${
          some || read !== null
            ? blocks(page.blocks.slice(1), 9)
            : html`<p>
                  Take 20 to 30 times of a step, of good pieces and bad ones, by more than one person. Then
                  this page fits them, says how many more are wanted, and puts them into the cell.
                </p>
                <div slot="more">${blocks(ownTimes(scenario), 9)}</div>`
        }
        <div slot="controls" class="side">
          <section aria-labelledby="watch">
            <h2 id="watch">At the bench</h2>
            <cw-stopwatch
              .scenario=${scenario}
              cell=${this.page.store.id}
              @cw-change=${(event: PartEvent<'cw-change', Kept>) => (this.taken = event.detail.value)}
            ></cw-stopwatch>
          </section>
          <section aria-labelledby="list">
            <h2 id="list">From a list</h2>
            <button type="button" @click=${() => void this.open()}>open a list (CSV)</button>
            <cw-text
              tall
              label="or paste it here"
              most="2000000"
              hint="A line a piece: the step and its minutes, or when it began and ended."
              @cw-change=${(event: PartEvent<'cw-change', string>) => this.bring(event.detail.value)}
            ></cw-text>
          </section>
          ${
            some
              ? html`<cw-toggle
                  label="Call people by their names"
                  hint="Times are for planning, not for telling people apart."
                  .value=${kept.withNames}
                  @cw-change=${(event: PartEvent<'cw-change', boolean>) => this.keep({ withNames: event.detail.value })}
                ></cw-toggle>`
              : nothing
          }
        </div> `,
    };
  }

  private readonly told = lastOf(
    (
      scenario: Scenario,
      read: ReadAccount | null,
      study: TimesStudy,
      forecast: TimesForecast | null,
      withNames: boolean,
    ): Page => timesPage({ scenario, read, study, forecast, withNames }),
  );

  private progress(): TemplateResult | typeof nothing {
    return workLine(this.list, {
      running: html`<p role="status">${stageWords(this.stage)}</p>`,
      stop: true,
      stopped: 'Stopped: the list was not read to its end.',
      on: 'read it',
      again: 'read it again',
    });
  }

  private columns(scenario: Scenario, list: TimesAnswer): TemplateResult {
    const { mapping: said, withNames } = this.kept;
    const change = (mapping: ListKept['mapping']): void => this.keep({ mapping });
    return html`${listColumns(list, said, change)}${listWords(scenario, list, { said, withNames, change })}`;
  }

  private readonly drawn = lastOf((scenario: Scenario, fit: StepFit) => {
    const data = this.histogram(scenario, fit);
    return { draw: (size: Size) => histogramPicture(data, size), table: histogramTable(data) };
  });

  private picture(scenario: Scenario, { places }: TimesStudy): TemplateResult {
    const chosen = places.find((each) => placeKey(each.fit) === this.place) ?? places[0]!;
    const { fit } = chosen;
    const { draw, table } = this.drawn(scenario, fit);
    const choices = places.map((each) => ({
      value: placeKey(each.fit),
      label: placeName(scenario, each.fit),
    }));
    return html`<section aria-labelledby="fit">
      <h2 id="fit">The times and the curve</h2>
      <cw-choice
        list
        label="Of"
        .choices=${choices}
        .value=${placeKey(fit)}
        @cw-change=${(event: PartEvent<'cw-change', string>) => (this.place = event.detail.value)}
      ></cw-choice>
      <cw-picture .draw=${draw} .table=${table}></cw-picture>
      ${singleTimes(chosen, this.kept.leaveOut, (leaveOut) => this.keep({ leaveOut }))}
    </section>`;
  }

  private histogram(scenario: Scenario, fit: StepFit): Histogram {
    const bins = histogramOf(fit.minutes);
    const curves =
      bins === null
        ? []
        : fit.candidates
            .filter((candidate) => candidate.kind !== 'observed' && candidate.kind !== 'fixed')
            .map((candidate) => ({
              name: candidate.kind === fit.chosen?.kind ? `${candidate.kind} (used)` : candidate.kind,
              density: curveLine(candidate.kind, candidate.time, bins, fit.count).points.map(
                ({ minutes, expected }) => ({ x: minutes, y: expected / fit.count / bins.width }),
              ),
            }))
            .sort((a, b) => Number(b.name.endsWith('(used)')) - Number(a.name.endsWith('(used)')));
    return {
      title: `Times of ${placeName(scenario, fit)}`,
      description: fit.why,
      values: fit.minutes,
      curves,
      foot: { unit: `minutes; ${fit.count} times`, note: 'Each column counts the times taken.' },
    };
  }

  private use(scenario: Scenario, study: TimesStudy): TemplateResult {
    const { unused } = this.kept;
    const wanted = study.places.filter(({ fit }) => !unused.includes(placeKey(fit)));
    const fits = wanted.map(({ fit }) => fit);
    const put = (): void => {
      const made = applyFits(
        scenario,
        fits,
        wanted.map(({ doubts }) => doubts),
      );
      const changes: [(string | number)[], never][] = [
        [['steps'], JSON.parse(JSON.stringify(made.steps)) as never],
      ];
      if (made.products !== undefined)
        changes.push([['products'], JSON.parse(JSON.stringify(made.products)) as never]);
      this.page.store.changeMany('times from the bench', changes);
      say('The cell now uses these times. One step back undoes it.');
    };
    const ask = (): void => {
      this.forecastOf = study;
      this.forecast.ask({
        key: String((this.asks += 1)),
        run: async ({ runner, signal, show }) =>
          show(await forecastWithTimes(scenario, fits, runner, {}, signal)),
      });
      this.requestUpdate();
    };
    const usable = fits.some(({ chosen }) => chosen !== null);
    return html`${placesUsed(scenario, study.places, unused, (next) => this.keep({ unused: next }))}
      <div class="do">
        <button type="button" class="firm" ?disabled=${!usable} @click=${put}>
          use these times in the cell
        </button>
        <button type="button" ?disabled=${this.forecast.running} @click=${ask}>
          ${this.forecast.running ? 'running …' : 'what do they mean for the shift?'}
        </button>
        ${workLine(this.forecast, { again: 'try it again' })}
      </div>`;
  }
}

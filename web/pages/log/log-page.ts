import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Block } from '../../../src/document/document.ts';
import { logPage, whyPage } from '../../../src/report/log-page.ts';
import { weeksPicture, weeksTable, type Weeks } from '../../../src/charts/index.ts';
import { whyMissed, type WhyMissed } from '../../../src/today/why-missed.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { baseCase, settingsOf } from '../../../src/study/from-scenario.ts';
import { runStudy } from '../../../src/study/study.ts';
import { summarize, type StudySummary } from '../../../src/study/summary.ts';
import { driftsOf } from '../../../src/timing/drift.ts';
import { timesOfBook, type LogBook, type LogDay } from '../../../src/timing/log-book.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/picture.ts';
import '../../parts/date.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import { dayAbout, dayValues, openedFor } from '../../shell/day.ts';
import { chooseFile, pickFile, saveFile } from '../../store/files.ts';
import { Lists, stageWords, type ListStage } from '../../work/lists.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { readDaysList } from '../../../src/timing/days-list.ts';
import { studyNewTimes, type NewTimes } from '../../../src/timing/new-times.ts';
import { NOT_KEPT } from '../common/kept-in-book.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { keptStyle } from '../now/kept-counts.ts';
import { ofDay } from './of-day.ts';
import './result-form.ts';
import { movedTimes, newTimesSection, putNewTimes } from './new-times.ts';
import { dayAsTold, NOTHING_TOLD, toldFields } from './told.ts';
import { bringOlder, joinLog, keepDay, keepDays, LOG_FILE, logFor, logText } from './kept.ts';

const FORECAST_SHIFTS = 1000;
/** A million events are about sixty million bytes. */
const MOST_RECORD = 200_000_000;
const entriesInWords = (count: number): string => (count === 1 ? 'One entry' : `${count} entries`);

/** While the log is empty: how it comes to say something. */
const HOW: Block[] = [
  {
    kind: 'list',
    ordered: true,
    items: [
      'Before a shift: name its day and keep a forecast of it. The forecast is of the cell as it stands at that moment.',
      'After it: write how many good units came, and what is worth remembering.',
      'From the tenth shift or so this page says whether the ranges hold (eight shifts in ten should come within them), and on which side you miss. With a record of what happened, it says why a day missed and which times have drifted.',
    ],
  },
];

/** Was the forecast right? Forecast and fact side by side, what the ranges were worth, why a day missed. */
@customElement('cw-log')
export class CwLog extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    keptStyle,
    css`
      .side {
        display: grid;
        gap: var(--space-4);
      }
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-2) var(--space-3);
      }
      section {
        margin: var(--space-8) 0;
      }
      h2 {
        margin-bottom: var(--space-2);
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: (store) => void bringOlder(store),
    watched: (store) => [store.scenario, store.reading, ...dayValues(store)],
  });
  /** Another day than the one the pages are about, turned to here. */
  @state() private turned: string | null = null;
  private readonly forecast = this.page.live<LogDay>();
  /** Of reading a record of events; null when none is read. */
  @state() private stage: ListStage | null = null;
  private readonly lists = new Lists();
  private asks = 0;
  private readonly why = this.page.live<{ date: string; why: WhyMissed }>();
  @state() private told = NOTHING_TOLD;
  private readonly moved = movedTimes();
  private readonly changes = this.page.live<StudySummary>();
  /** The new times that the study was asked of. */
  private changesOf: NewTimes | null = null;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.lists.close();
  }

  private get date(): string {
    return this.turned ?? dayAbout(this.page.store);
  }

  /** What this tab and all others have said of the days. */
  private get log(): LogBook {
    return logFor(this.page.store);
  }

  private async keep(day: LogDay): Promise<void> {
    if (!(await keepDay(this.page.store, day))) say(NOT_KEPT, { kind: 'wrong' });
  }

  private put(day: Partial<LogDay>): void {
    void this.keep({ date: this.date, ...day });
  }

  /** A forecast of the day named, as the cell and the book have it now, kept for that day. */
  private ask(filed: Scenario): void {
    const date = this.date;
    // With the plan and the opening stock that the book has of the day.
    const { scenario } = openedFor(this.page.store, filed, date);
    this.forecast.ask({
      key: `${date} ${JSON.stringify(scenario)}`,
      run: async ({ runner, signal, show }) => {
        const state = await runStudy(
          {
            cases: [baseCase({ ...scenario, nextShifts: [] })],
            pairs: [],
            settings: settingsOf(scenario),
            count: FORECAST_SHIFTS,
          },
          runner,
          undefined,
          signal,
        );
        const one = summarize(state, false).cases[0]!;
        const day: LogDay = {
          date,
          target: shiftOf(scenario).target,
          forecast: {
            p10: one.spread.nineInTen,
            p50: one.spread.half,
            p90: one.spread.oneInTen,
            chance: one.target?.chance.estimate ?? null,
          },
        };
        void this.keep(day);
        show(day);
      },
    });
    this.requestUpdate();
  }

  private async events(scenario: Scenario): Promise<void> {
    const chosen = await pickFile('.csv,text/csv', MOST_RECORD);
    if (chosen.kind === 'none') return;
    if (chosen.kind === 'wrong') return void say(chosen.message, { kind: 'wrong' });
    const { date } = this;
    this.why.ask({
      key: String((this.asks += 1)),
      run: async ({ runner, signal, show }) => {
        this.stage = { kind: 'rows' };
        const { events, unread, day, times, pace, note } = await this.lists.events(
          { source: chosen.file, scenario, date },
          { signal, onStage: (stage) => (this.stage = stage) },
        );
        this.stage = null;
        if (note !== null) say(`“${chosen.file.name}” ${note}`, { kind: 'wrong' });
        if (unread.rows > 0)
          say(`${unread.rows} rows were not read; the first: ${unread.first}`, { kind: 'wrong' });
        if (events === 0) return;
        void this.keep({ date, good: day.good, times });
        show({ date, why: await whyMissed(scenario, { ...day, pace }, runner, signal) });
      },
    });
    this.requestUpdate();
  }

  private whyAsTold(scenario: Scenario, good: number): void {
    const { date, told } = this;
    this.why.ask({
      key: String((this.asks += 1)),
      run: async ({ runner, signal, show }) =>
        show({ date, why: await whyMissed(scenario, dayAsTold(scenario, told, good), runner, signal) }),
    });
    this.requestUpdate();
  }

  private askChanges(scenario: Scenario, made: NewTimes): void {
    this.changesOf = made;
    this.changes.ask({
      key: String((this.asks += 1)),
      run: async ({ runner, signal, show }) => show(await studyNewTimes(scenario, made, runner, signal)),
    });
    this.requestUpdate();
  }

  private async openDays(): Promise<void> {
    const chosen = await chooseFile('.csv,.tsv,.txt,text/csv');
    if (chosen.kind === 'wrong') say(chosen.message, { kind: 'wrong' });
    if (chosen.kind !== 'fine') return;
    const list = readDaysList(chosen.text);
    const { added, kept } = await keepDays(this.page.store, list);
    if (!kept) say(NOT_KEPT, { kind: 'wrong' });
    const [first] = list.unread;
    if (list.days.length > 0)
      say(
        `${list.days.length} days read; ${added === 0 ? 'nothing in them is new' : `${entriesInWords(added)} added`}.`,
      );
    if (first !== undefined)
      say(
        `Row ${first.row} was not read: ${first.why}${list.unread.length > 1 ? `; nor ${list.unread.length - 1} more` : ''}.`,
        { kind: 'wrong' },
      );
  }

  private async openLog(): Promise<void> {
    const chosen = await chooseFile('.jsonl,.json,application/json');
    if (chosen.kind === 'wrong') say(chosen.message, { kind: 'wrong' });
    if (chosen.kind !== 'fine') return;
    const joined = await joinLog(this.page.store, chosen.text);
    if (joined.kind === 'no log')
      return void say(`“${chosen.name}” holds nothing of a log.`, { kind: 'wrong' });
    const { added, unread } = joined;
    if (chosen.note !== null) say(chosen.note, { kind: 'wrong' });
    say(`${added === 0 ? 'Nothing in it is new' : `${entriesInWords(added)} added`}; what was here stays.`);
    if (unread.length > 0)
      say(
        `Not read, and still in the file: ${unread[0]!}${unread.length > 1 ? `, and ${unread.length - 1} more` : ''}.`,
        { kind: 'wrong' },
      );
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be compared until the cell is put right.', (scenario) =>
      this.said(scenario),
    );
  }

  private said(scenario: Scenario): Said {
    const page = logPage({
      scenario,
      log: this.log,
      drifts: driftsOf(scenario, timesOfBook(this.log), { withAllowance: true }),
    });
    const heading = page.blocks[0]?.kind === 'heading' ? page.blocks[0].text : page.title;
    const told = this.log.days.flatMap((day) =>
      day.forecast === undefined
        ? []
        : [
            {
              date: day.date,
              low: day.forecast.p10,
              median: day.forecast.p50,
              high: day.forecast.p90,
              fact: day.good ?? null,
            },
          ],
    );
    const weeks: Weeks = {
      title: 'Forecast and fact',
      description: heading,
      days: told.slice(-30),
      foot: { unit: 'good units a shift' },
    };
    return {
      answer: `${heading}.`,
      body: html`${told.length === 0 ? nothing : html`<cw-picture .draw=${(size: Parameters<typeof weeksPicture>[1]) => weeksPicture(weeks, size)} .table=${weeksTable(weeks)}></cw-picture>`}
        ${this.newTimes(scenario)} ${this.reasons(scenario)} ${ofDay(this.page.store, this.date)}
        ${blocks(this.log.days.length === 0 ? HOW : page.blocks.slice(1), 10)}
        <div slot="controls" class="side">${this.controls(scenario, this.log)}</div> `,
    };
  }

  private newTimes(scenario: Scenario): TemplateResult | typeof nothing {
    const made = this.moved(scenario, this.log);
    const study = this.changesOf === made ? this.changes.answer : null;
    return newTimesSection(scenario, made, study, {
      put: () => made !== null && putNewTimes(this.page.store, made),
      ask: () => made !== null && this.askChanges(scenario, made),
      work: workLine(this.changes, { again: 'try it again' }),
    });
  }

  private reasons(scenario: Scenario): TemplateResult | typeof nothing {
    const { answer, state: live } = this.why;
    const running =
      this.stage === null ? 'Running the day again, one thing at a time as it was.' : stageWords(this.stage);
    if (live.kind !== 'done')
      return workLine(this.why, {
        running: html`<p class="muted" role="status">${running}</p>`,
        stop: true,
        stopped: 'Stopped: why the day missed was not found out.',
        on: 'go on',
        again: 'try it again',
      });
    if (answer === null) return nothing;
    const page = whyPage({ scenario, ...answer });
    return html`<section aria-labelledby="why">
      <h2 id="why">${page.blocks[0]?.kind === 'heading' ? page.blocks[0].text : page.title}</h2>
      ${blocks(page.blocks.slice(1), 10)}
    </section>`;
  }

  private controls(scenario: Scenario, log: LogBook): TemplateResult {
    const { date } = this;
    const { store } = this.page;
    const day = log.days.find((one) => one.date === date);
    const filed = store.scenario.get()!;
    return html`<cw-date
        label="The day"
        .value=${date}
        @cw-change=${(event: PartEvent<'cw-change', string>) => (this.turned = event.detail.value)}
      ></cw-date>
      <button type="button" ?disabled=${this.forecast.running} @click=${() => this.ask(scenario)}>
        ${this.forecast.running ? 'running …' : 'keep a forecast of it now'}
      </button>
      ${workLine(this.forecast, { again: 'try it again' })}
      <cw-result .store=${store} .opened=${openedFor(store, filed, date)}></cw-result>
      <cw-text
        label="To remember"
        tall
        .value=${day?.note ?? ''}
        most="2000"
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.put({ note: event.detail.value })}
      ></cw-text>
      <button type="button" @click=${() => void this.events(scenario)}>
        why did it miss? open the record of events (CSV)
      </button>
      ${
        day?.good === undefined
          ? nothing
          : html`<details>
              <summary>why did it miss? by what you know</summary>
              ${toldFields(scenario, this.told, (told) => (this.told = told))}
              <button type="button" @click=${() => this.whyAsTold(scenario, day.good!)}>find out</button>
            </details>`
      }
      <div class="do">
        <button type="button" @click=${() => void this.openDays()}>
          results of many days, from a list (CSV)
        </button>
        <button type="button" @click=${() => void this.openLog()}>open a log</button>
        <button
          type="button"
          @click=${() => saveFile(LOG_FILE, logText(this.page.store), 'application/jsonl')}
        >
          save the log
        </button>
      </div>`;
  }
}

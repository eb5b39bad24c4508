import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { version } from '../../../package.json';
import { buildBrief, crewQuestionOf, makeBrief } from '../../../src/report/brief.ts';
import { writeCsv } from '../../../src/document/csv.ts';
import {
  answerSentences,
  TRAINING_NOTE,
  trainingTable,
  triedSentences,
} from '../../../src/report/crew-words.ts';
import { sheetRows, wallPage } from '../../../src/report/crew-sheet.ts';
import { printSize, toHtml } from '../../../src/document/document-html.ts';
import { calendarFile, crewEvents } from '../../../src/staffing/calendar.ts';
import { crossTraining, type CrossTraining } from '../../../src/staffing/cross-training.ts';
import { planCrew, type CrewPlan, type Stage } from '../../../src/staffing/plan-crew.ts';
import { personDays } from '../../../src/staffing/sheet.ts';
import { tryChange, type TriedChange } from '../../../src/staffing/try-change.ts';
import { cautionsFor } from '../../../src/scenario/cautions.ts';
import { DEFAULT_SEED } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { differenceThatMatters } from '../../../src/study/from-scenario.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/number.ts';
import '../../parts/order.ts';
import '../../parts/sheet.ts';
import { base } from '../../parts/style.ts';
import '../../parts/toggle.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { fileName, saveFile } from '../../store/files.ts';
import { Watch } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import '../common/cautions.ts';
import { faultsLine } from '../common/faults.ts';
import { askedFor, keepAsked, questionOf, type Asked } from './asked.ts';
import { moneyBlocks, reasonBlocks, wallBlocks } from './plan-blocks.ts';

interface Progress {
  stage: Stage;
  done: number;
  of: number;
}

const STAGES: Record<Stage, string> = {
  search: 'Looking for crews',
  race: 'Racing the best of them',
  figures: 'Taking the figures',
  'one more of each': 'Trying one more of each thing',
  absences: 'Leaving each person out in turn',
};
const COMES = [
  { value: 'in', label: 'in' },
  { value: 'out', label: 'out' },
  { value: 'late', label: 'late' },
  { value: 'perhaps', label: 'perhaps' },
];

/** Who stands where tomorrow? Attendance and target in, the crew sheet out. */
@customElement('cw-crew')
export class CwCrew extends LitElement {
  static override styles = [
    base,
    blockStyle,
    css`
      .room {
        min-height: 360px;
      }
      .asked {
        display: grid;
        gap: var(--space-4);
      }
      .asked h2:not(:first-child) {
        margin-top: var(--space-4);
      }
      section h2 {
        margin-bottom: var(--space-2);
      }
      .files {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-2) var(--space-3);
        margin-top: var(--space-4);
      }
      section {
        margin-top: var(--space-8);
      }
      progress {
        width: 100%;
        accent-color: var(--ink);
      }
      @media print {
        .files,
        .unprinted,
        progress {
          display: none;
        }
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) rest: string[] = [];
  @state() private asked: Asked | null = null;
  @state() private progress: Progress | null = null;
  @state() private hand: { person: string; covers: string[] } | null = null;
  private readonly plan = new Live<CrewPlan>(this);
  private readonly tried = new Live<TriedChange>(this);
  private readonly training = new Live<CrossTraining>(this);
  private readonly brief = new Live<string>(this);
  private watch: Watch | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('store')) {
      if (this.watch !== null) {
        this.watch.hostDisconnected();
        this.removeController(this.watch);
      }
      this.watch = new Watch(this, this.store.scenario, this.store.reading);
      this.asked = null;
    }
    const scenario = this.store.scenario.get();
    if (scenario === null) return;
    this.asked ??= askedFor(this.store.id, scenario);
    this.ask(scenario, this.asked);
  }

  private ask(scenario: Scenario, asked: Asked): void {
    const question = questionOf(scenario, asked);
    this.plan.ask({
      key: JSON.stringify(question),
      run: async ({ runner, signal, show }) => {
        this.hand = null;
        this.tried.ask(null);
        this.training.ask(null);
        let told = -Infinity;
        const plan = await planCrew(
          question,
          runner,
          {},
          (progress) => {
            if (performance.now() - told < 100) return;
            told = performance.now();
            this.progress = progress;
          },
          signal,
        );
        show(plan);
      },
    });
  }

  private set(asked: Asked): void {
    this.asked = asked;
    if (!keepAsked(this.store.id, asked))
      say('This browser keeps nothing: what you say of tomorrow lasts as long as this page.', {
        kind: 'wrong',
      });
  }

  protected override render(): TemplateResult {
    const scenario = this.store.scenario.get();
    if (scenario === null || this.asked === null) {
      return html`<cw-sheet
        question="Who stands where tomorrow?"
        answer="Nothing can be planned until the cell is put right."
        >${faultsLine(this.store)}</cw-sheet
      >`;
    }
    const plan = this.plan.answer;
    const currency = scenario.money?.currency ?? '$';
    const [first, ...others] = plan === null ? ['The crew is being planned.'] : answerSentences(plan);
    return html`<cw-sheet question="Who stands where tomorrow?" answer=${first!}>
      ${faultsLine(this.store)} ${this.running()}
      ${
        plan === null
          ? html`<div class="room"></div>`
          : html`<p>${others.join(' ')}</p>
              ${blocks(wallBlocks(plan), wallSize(plan))}
              <div class="unprinted">${blocks(moneyBlocks(plan, currency), 11)}</div>
              ${this.files(plan)}`
      }
      ${
        plan === null
          ? nothing
          : html`<div slot="more" class="unprinted">
              ${this.byHand(scenario, plan, currency)}
              ${blocks(reasonBlocks(plan, currency), 9)}${this.secondSkills(plan, currency)}
            </div>`
      }
      <div slot="controls" class="asked">${this.questions(scenario, this.asked)}</div>
      <cw-cautions slot="after" .scenarios=${[plan?.scenario ?? scenario]}></cw-cautions>
    </cw-sheet>`;
  }

  private running(): TemplateResult | typeof nothing {
    const { state: live } = this.plan;
    if (live.kind === 'failed')
      return html`<p class="wrong" role="alert">${live.message}</p>
        <button type="button" @click=${() => this.plan.again()}>plan again</button>`;
    if (live.kind === 'stopped')
      return html`<p class="muted">Stopped. What stands here is from before the last change.</p>
        <button type="button" @click=${() => this.plan.again()}>plan on</button>`;
    if (!this.plan.running) return nothing;
    const { progress } = this;
    return html`<p class="muted" role="status">
        ${progress === null ? 'Looking for crews' : STAGES[progress.stage]}${this.plan.answer === null ? '.' : '; below stands the plan from before the last change.'}
      </p>
      <progress aria-label="shifts run" max=${progress?.of ?? 1} .value=${progress?.done ?? 0}></progress>
      <button type="button" @click=${() => this.plan.stop()}>stop</button>`;
  }

  private questions(scenario: Scenario, asked: Asked): TemplateResult {
    return html`<h2>Who is in?</h2>
      ${Object.entries(scenario.people).map(([id, person]) => this.person(asked, id, person.name ?? id))}
      <h2>What is due?</h2>
      <cw-number
        label="Good units due"
        .value=${asked.target}
        unit="units"
        least="0"
        most="100000"
        whole
        optional
        usual="the most that can be promised"
        bare
        @cw-change=${(event: PartEvent<'cw-change', number | null>) => this.set({ ...asked, target: event.detail.value })}
      ></cw-number>
      <cw-number
        label="Sure enough is"
        .value=${asked.confidence}
        unit="%"
        least="1"
        most="99"
        whole
        bare
        hint="The chance of making it that you ask for."
        @cw-change=${(event: PartEvent<'cw-change', number>) => this.set({ ...asked, confidence: event.detail.value })}
      ></cw-number>
      <cw-number
        label="Overtime, at most"
        .value=${asked.overtime}
        unit="min"
        least="0"
        most="480"
        step="15"
        bare
        hint="As local law and agreements allow. 0: none."
        @cw-change=${(event: PartEvent<'cw-change', number>) => this.set({ ...asked, overtime: event.detail.value })}
      ></cw-number>
      <cw-choice
        label="Changes of post in the day"
        .choices=${['0', '1', '2'].map((value) => ({ value, label: value === '0' ? 'none' : value }))}
        value=${String(asked.changes)}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.set({ ...asked, changes: Number(event.detail.value) as Asked['changes'] })}
      ></cw-choice>
      <cw-toggle
        label="Breaks may be taken one after the other"
        ?value=${asked.breaks}
        @cw-change=${(event: PartEvent<'cw-change', boolean>) => this.set({ ...asked, breaks: event.detail.value })}
      ></cw-toggle>`;
  }

  private person(asked: Asked, id: string, name: string): TemplateResult {
    const now = asked.attendance[id] ?? { kind: 'in' };
    const put = (attendance: Asked['attendance'][string]): void =>
      this.set({ ...asked, attendance: { ...asked.attendance, [id]: attendance } });
    const made: Record<string, Asked['attendance'][string]> = {
      in: { kind: 'in' },
      out: { kind: 'out' },
      late: { kind: 'late', minutes: 30 },
      perhaps: { kind: 'perhaps', chance: 0.5 },
    };
    return html`<cw-choice
        label=${name}
        .choices=${COMES}
        value=${now.kind}
        @cw-change=${(event: PartEvent<'cw-change', string>) => put(made[event.detail.value]!)}
      ></cw-choice>
      ${
        now.kind === 'late'
          ? html`<cw-number
              label="${name} comes late by"
              .value=${now.minutes}
              unit="min"
              least="0"
              most="480"
              step="5"
              bare
              @cw-change=${(event: PartEvent<'cw-change', number>) => put({ kind: 'late', minutes: event.detail.value })}
            ></cw-number>`
          : nothing
      }
      ${
        now.kind === 'perhaps'
          ? html`<cw-number
              label="${name} comes in so many days of a hundred"
              .value=${Math.round(now.chance * 100)}
              unit="%"
              least="0"
              most="100"
              whole
              bare
              @cw-change=${(event: PartEvent<'cw-change', number>) => put({ kind: 'perhaps', chance: event.detail.value / 100 })}
            ></cw-number>`
          : nothing
      }`;
  }

  /** A change to the planner's sheet by hand, tried at once against it. */
  private byHand(scenario: Scenario, plan: CrewPlan, currency: string): TemplateResult {
    const here = plan.sheet.people.filter((person) => person.chance > 0);
    const chosen = here.find((person) => person.id === this.hand?.person);
    const able =
      chosen === undefined
        ? []
        : Object.keys(scenario.steps).filter(
            (step) =>
              chosen.posts.some((post) => post.steps.some((one) => one.id === step)) ||
              step in (scenario.people[chosen.id]!.skills ?? {}),
          );
    const covers = this.hand?.covers ?? [];
    const name = (step: string): string => scenario.steps[step]?.name ?? step;
    return html`<section aria-labelledby="hand">
      <h2 id="hand">Change it by hand</h2>
      <cw-choice
        list
        label="Whose post"
        .choices=${[{ value: '', label: 'nobody’s' }, ...here.map((person) => ({ value: person.id, label: person.name }))]}
        value=${this.hand?.person ?? ''}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.choose(plan, event.detail.value)}
      ></cw-choice>
      ${
        chosen === undefined
          ? nothing
          : html`<cw-order
                label="Stands at, first choice first, all day"
                removable
                .items=${covers.map((id) => ({ id, label: name(id) }))}
                @cw-change=${(event: PartEvent<'cw-change', string[]>) => this.change(plan, event.detail.value)}
              ></cw-order>
              <div class="files">
                ${able.filter((step) => !covers.includes(step)).map((step) => html`<button type="button" @click=${() => this.change(plan, [...covers, step])}>and ${name(step)}</button>`)}
              </div>`
      }
      ${this.triedWords(scenario, plan, currency)}
    </section>`;
  }

  private choose(plan: CrewPlan, person: string): void {
    const first = plan.sheet.people.find((one) => one.id === person)?.posts[0];
    this.hand = first === undefined ? null : { person, covers: first.steps.map((step) => step.id) };
    this.tried.ask(null);
  }

  private change(plan: CrewPlan, covers: string[]): void {
    const scenario = this.store.scenario.get();
    if (this.hand === null || scenario === null || this.asked === null || covers.length === 0) return;
    this.hand = { ...this.hand, covers };
    const question = questionOf(scenario, this.asked);
    const change = { people: { [this.hand.person]: { covers, changes: null } } };
    this.tried.ask({
      key: JSON.stringify([plan.changes, change]),
      run: async ({ runner, signal, show }) =>
        show(await tryChange(question, plan, change, runner, {}, undefined, signal)),
    });
  }

  private triedWords(scenario: Scenario, plan: CrewPlan, currency: string): TemplateResult | typeof nothing {
    if (this.hand === null) return nothing;
    if (this.tried.running) return html`<p class="muted" role="status">Trying it against the plan.</p>`;
    const tried = this.tried.answer;
    if (tried === null || !this.tried.current) return nothing;
    if (tried.kind === 'wrong')
      return html`<ul class="wrong" role="alert">
        ${tried.faults.map((fault) => html`<li>${fault.text}</li>`)}
      </ul>`;
    const names = (id: string): string => scenario.people[id]?.name ?? scenario.steps[id]?.name ?? id;
    return html`<ul role="status">
      ${triedSentences(tried, differenceThatMatters(plan.scenario), currency, names).map((sentence) => html`<li>${sentence}</li>`)}
    </ul>`;
  }

  private secondSkills(plan: CrewPlan, currency: string): TemplateResult {
    const { answer } = this.training;
    const ask = (): void => {
      this.training.ask({
        key: JSON.stringify(plan.changes),
        run: async ({ runner, signal, show }) =>
          show(await crossTraining(plan, runner, {}, undefined, signal)),
      });
      this.requestUpdate();
    };
    return html`<section aria-labelledby="skills">
      <h2 id="skills">Whom to teach what next</h2>
      ${
        answer !== null && this.training.current
          ? blocks(
              [trainingTable(answer, currency), { kind: 'paragraph', text: TRAINING_NOTE, small: true }],
              9,
            )
          : this.training.running
            ? html`<p class="muted" role="status">Trying every second skill.</p>`
            : html`<button type="button" @click=${ask}>try every second skill</button>`
      }
    </section>`;
  }

  private files(plan: CrewPlan): TemplateResult | typeof nothing {
    if (plan.kind === 'over the limit') return nothing;
    const stem = `${fileName(this.store).replace(/\.json$/, '')}-crew`;
    const tomorrow = new Date(Date.now() + 86_400_000).toLocaleDateString('sv-SE');
    const wall = (): void => saveFile(`${stem}.html`, toHtml(wallPageOf(plan)), 'text/html');
    const calendar = (): void =>
      saveFile(
        `${stem}.ics`,
        calendarFile(crewEvents({ day: tomorrow, cell: plan.cell, people: personDays(plan.sheet) }), {
          stamp: Date.now(),
          name: plan.cell,
        }),
        'text/calendar',
      );
    return html`<div class="files" role="group" aria-label="Take it along">
      <button type="button" class="firm" @click=${() => print()}>print</button>
      <button type="button" @click=${wall}>sheet for the wall</button>
      <button
        type="button"
        @click=${() => saveFile(`${stem}.csv`, writeCsv(sheetRows(plan.sheet)), 'text/csv')}
      >
        as a table (CSV)
      </button>
      <button type="button" @click=${calendar}>calendar for tomorrow</button>
      <button type="button" ?disabled=${this.brief.running} @click=${() => this.forUpstairs(plan)}>
        ${this.brief.running ? 'being put together …' : 'brief for upstairs'}
      </button>
    </div>`;
  }

  /** The plan on one page to carry upstairs, saved as soon as it is put together. */
  private forUpstairs(plan: CrewPlan): void {
    const scenario = this.store.scenario.get() ?? plan.scenario;
    const file = fileName(this.store);
    this.brief.ask({
      key: `${JSON.stringify(plan.changes)} ${Date.now()}`,
      run: async ({ runner, signal, show }) => {
        const data = await makeBrief(scenario, crewQuestionOf(plan), runner, { signal });
        const page = buildBrief({
          scenario,
          data,
          again: { file, version, seed: scenario.seed ?? DEFAULT_SEED, command: null },
        });
        saveFile(`${file.replace(/\.json$/, '')}-crew-brief.html`, toHtml(page), 'text/html');
        show(page.title);
      },
    });
    this.requestUpdate();
  }
}

const wallPageOf = (plan: CrewPlan): ReturnType<typeof wallPage> =>
  wallPage({ sheet: plan.sheet, answer: answerSentences(plan), cautions: cautionsFor(plan.scenario) });

/**
 * Points of the sheet for the wall as this page prints it: to be read from a step away, and never more than
 * one page.
 */
const wallSize = (plan: CrewPlan): number => printSize(wallPageOf(plan), undefined, 16) - 1.5;

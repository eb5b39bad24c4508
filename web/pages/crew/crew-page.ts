import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { crewDayPicture, crewDayTable, type Size } from '../../../src/charts/index.ts';
import { crewDayOf } from '../../../src/report/crew-day.ts';
import { answerSentences } from '../../../src/report/crew-words.ts';
import { sameJson } from '../../../src/scenario/merge-patch.ts';
import { knownSwitch } from '../common/known-switch.ts';
import { plantOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { planCrew, type CrewPlan, type Stage } from '../../../src/staffing/plan-crew.ts';
import type { CrewQuestion } from '../../../src/staffing/question.ts';
import { say } from '../../parts/notice.ts';
import { base } from '../../parts/style.ts';
import { fileName } from '../../store/files.ts';
import type { Task } from '../../work/live.ts';
import { lastOf, nowAndThen } from '../../work/same.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { besideList, besideStyle } from '../compare/beside-list.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { dayOpening } from '../../../src/report/day-words.ts';
import { absentOn, dayWords } from '../../../src/scenario/calendar.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import { dayToPlan, dayValues, openedFor } from '../../shell/day.ts';
import { askedFor, keepAsked, questionOf, type Asked } from './asked.ts';
import { planRows } from './beside-rows.ts';
import './by-hand.ts';
import { intoDay, putIntoDay, type ByHand } from './into-day.ts';
import { moneyBlocks, moveBlocks, reasonParts, ruleBlocks } from './plan-blocks.ts';
import { questions } from './questions.ts';
import './second-skills.ts';
import './take-along.ts';

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
const BETWEEN_LOOKS = 100;
/** Points of the text of the sheet on paper: to be read from a step away. */
const ON_PAPER = 13.5;

/** Who stands where tomorrow? Attendance and target in, the crew sheet out. */
@customElement('cw-crew')
export class CwCrew extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    besideStyle,
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
      section {
        margin-top: var(--space-8);
      }
      section h2 {
        margin-bottom: var(--space-2);
      }
      progress {
        width: 100%;
        accent-color: var(--ink);
      }
      .day {
        margin: var(--space-4) 0;
      }
      .outdated {
        display: none;
      }
      @media print {
        .outdated {
          display: block;
          font-weight: 600;
        }
        .unprinted,
        progress {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: () => {
      this.asked = null;
      this.turned = null;
    },
    ask: (scenario) => this.ask(scenario),
    watched: (store) => [store.scenario, store.reading, ...dayValues(store)],
  });
  /** The day turned to on this page; null: the one to plan next. */
  @state() private turned: string | null = null;
  @state() private asked: Asked | null = null;
  @state() private progress: Progress | null = null;
  private readonly plan = this.page.live<CrewPlan>();
  private readonly question = lastOf(questionOf);
  private readonly drawDay = lastOf(
    (plan: CrewPlan) =>
      (size: Size): string =>
        crewDayPicture(crewDayOf(plan.sheet), { ...size, air: 6 }),
  );

  private based: Scenario | null = null;

  private get day(): string {
    return this.turned ?? dayToPlan(this.page.store);
  }

  private ask(filed: Scenario): void {
    const { store } = this.page;
    const unplanned = this.basis(openedFor(store, filed, this.day));
    if (this.asked?.day !== this.day) this.asked = askedFor(store.id, unplanned, this.day);
    const question = this.question(unplanned, this.asked);
    this.plan.askOf([question], () => this.task(question));
  }

  /** The cell on the day: the same one as long as nothing in it changes, whatever is put into the book. */
  private basis({ unplanned }: OpenedDay): Scenario {
    if (this.based === null || !sameJson(this.based, unplanned)) this.based = unplanned;
    return this.based;
  }

  private task(question: CrewQuestion): Task<CrewPlan> {
    return {
      key: JSON.stringify(question),
      run: async ({ runner, signal, show }) => {
        const tell = nowAndThen(BETWEEN_LOOKS, (progress: Progress) => (this.progress = progress));
        show(await planCrew(question, runner, {}, tell, signal));
      },
    };
  }

  private set(asked: Asked): void {
    this.asked = asked;
    if (!keepAsked(this.page.store.id, asked))
      say('This browser keeps nothing: what you say of the day lasts as long as this page.', {
        kind: 'wrong',
      });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be planned until the cell is put right.', (scenario) =>
      this.said(scenario, this.asked!),
    );
  }

  private said(filed: Scenario, asked: Asked): Said {
    const plan = this.plan.answer;
    const [first, ...others] = plan === null ? ['The crew is being planned.'] : answerSentences(plan);
    const { day } = this;
    const opened = openedFor(this.page.store, filed, day);
    const form = { scenario: opened.unplanned, day, absent: absentOn(filed, day), asked };
    return {
      question: `Who stands where on ${dayWords(day)}?`,
      answer: first!,
      cautions: [plan?.scenario ?? filed],
      body: html`${this.running()}
        ${plan === null ? html`<div class="room"></div>` : this.planned(filed, opened, plan, others)}
        <div slot="controls" class="asked">
          ${questions(
            form,
            (now) => this.set(now),
            (turned) => (this.turned = turned),
          )}
        </div>`,
    };
  }

  private running(): TemplateResult | typeof nothing {
    const { progress } = this;
    const stage = progress === null ? 'Looking for crews' : STAGES[progress.stage];
    const below = this.plan.answer === null ? '.' : '; below stands the plan from before the last change.';
    return workLine(this.plan, {
      running: html`<p class="muted" role="status">${stage}${below}</p>
        <progress aria-label="shifts run" max=${progress?.of ?? 1} .value=${progress?.done ?? 0}></progress>`,
      stop: true,
      stopped: 'Stopped. What stands here is from before the last change.',
      on: 'plan on',
      again: 'plan again',
    });
  }

  private planned(filed: Scenario, opened: OpenedDay, plan: CrewPlan, others: string[]): TemplateResult {
    const { store } = this.page;
    const currency = plantOf(filed).money.currency;
    const unplanned = this.basis(opened);
    const question = this.question(unplanned, this.asked!);
    const current = this.plan.answersTo([question]);
    const day = dayWords(this.day);
    return html`<p>${others.join(' ')}</p>
      <p class="muted small">${filed.name}. ${dayOpening(opened)}</p>
      ${current ? nothing : html`<p class="outdated">Not to be hung up: this plan is from before the last change.</p>`}
      <div class="unprinted">${blocks(moveBlocks(plan, currency), 11)}</div>
      <section aria-labelledby="the-sheet">
        <h2 id="the-sheet">
          ${plan.kind === 'over the limit' ? 'The file’s posts: not a plan' : 'The sheet'}
        </h2>
        <cw-picture
          class="day"
          .draw=${this.drawDay(plan)}
          .table=${crewDayTable(crewDayOf(plan.sheet))}
        ></cw-picture>
        ${blocks(ruleBlocks(plan), ON_PAPER)}
      </section>
      ${intoDay(store, opened, plan, current)}
      <div class="unprinted">${blocks(moneyBlocks(plan, currency), 11)}${knownSwitch(store)}</div>
      <cw-crew-files
        .scenario=${unplanned}
        .plan=${plan}
        file=${fileName(store)}
        day=${this.day}
        ?outdated=${!current}
      ></cw-crew-files>
      <div class="unprinted">${besideList(planRows(store, filed, plan))}</div>
      <div slot="more" class="unprinted">
        <cw-crew-hand
          .scenario=${unplanned}
          .question=${question}
          .plan=${plan}
          currency=${currency}
          day=${day}
          ?outdated=${!current}
          @put=${({ detail }: CustomEvent<ByHand>) => void putIntoDay(store, opened, plan, detail)}
        ></cw-crew-hand>
        ${reasonParts(plan, currency).map(
          ({ told, rows }) =>
            html`${blocks(told, 9)}${besideList(rows === null ? [] : rows(store, filed, plan))}`,
        )}
        <cw-crew-skills
          .question=${question}
          .plan=${plan}
          .store=${store}
          .filed=${filed}
          currency=${currency}
        ></cw-crew-skills>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew': CwCrew;
  }
}

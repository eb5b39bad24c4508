import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { answerSentences } from '../../../src/report/crew-words.ts';
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
import { putBeside } from '../compare/put-beside.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { workLine } from '../common/work-line.ts';
import type { PageElement } from '../page.ts';
import { askedFor, keepAsked, questionOf, type Asked } from './asked.ts';
import './by-hand.ts';
import { moneyBlocks, moveBlocks, reasonBlocks, wallBlocks, wallSize } from './plan-blocks.ts';
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

/** Who stands where tomorrow? Attendance and target in, the crew sheet out. */
@customElement('cw-crew')
export class CwCrew extends LitElement implements PageElement {
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
      @media print {
        .unprinted,
        progress {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: () => (this.asked = null),
    ask: (scenario) => this.ask(scenario),
  });
  @state() private asked: Asked | null = null;
  @state() private progress: Progress | null = null;
  private readonly plan = this.page.live<CrewPlan>();
  private readonly question = lastOf(questionOf);

  private ask(scenario: Scenario): void {
    this.asked ??= askedFor(this.page.store.id, scenario);
    const question = this.question(scenario, this.asked);
    this.plan.askOf([question], () => this.task(question));
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
      say('This browser keeps nothing: what you say of tomorrow lasts as long as this page.', {
        kind: 'wrong',
      });
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be planned until the cell is put right.', (scenario) =>
      this.said(scenario, this.asked!),
    );
  }

  private said(scenario: Scenario, asked: Asked): Said {
    const plan = this.plan.answer;
    const [first, ...others] = plan === null ? ['The crew is being planned.'] : answerSentences(plan);
    return {
      answer: first!,
      cautions: [plan?.scenario ?? scenario],
      body: html`${this.running()}
        ${plan === null ? html`<div class="room"></div>` : this.planned(scenario, asked, plan, others)}
        <div slot="controls" class="asked">${questions(scenario, asked, (now) => this.set(now))}</div>`,
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

  private planned(scenario: Scenario, asked: Asked, plan: CrewPlan, others: string[]): TemplateResult {
    const currency = plantOf(scenario).money.currency;
    const question = this.question(scenario, asked);
    return html`<p>${others.join(' ')}</p>
      <div class="unprinted">${blocks(moveBlocks(plan, currency), 11)}</div>
      ${blocks(wallBlocks(plan), wallSize(plan))}
      <div class="unprinted">${blocks(moneyBlocks(plan, currency), 11)}</div>
      <cw-crew-files .scenario=${scenario} .plan=${plan} file=${fileName(this.page.store)}></cw-crew-files>
      ${
        plan.kind === 'over the limit'
          ? nothing
          : html`<button
              type="button"
              class="unprinted"
              @click=${() => putBeside(this.page.store, scenario, { name: 'The crew as planned', changes: plan.changes })}
            >
              put beside on Compare
            </button>`
      }
      <div slot="more" class="unprinted">
        <cw-crew-hand
          .scenario=${scenario}
          .question=${question}
          .plan=${plan}
          currency=${currency}
        ></cw-crew-hand>
        ${blocks(reasonBlocks(plan, currency), 9)}
        <cw-crew-skills .question=${question} .plan=${plan} currency=${currency}></cw-crew-skills>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew': CwCrew;
  }
}

import { html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { TRAINING_NOTE, trainingTable } from '../../../src/report/crew-words.ts';
import { crossTraining, type CrossTraining } from '../../../src/staffing/cross-training.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import type { CrewQuestion } from '../../../src/staffing/question.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { base } from '../../parts/style.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { Live } from '../../work/live.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { workLine } from '../common/work-line.ts';
import { besideList, besideStyle } from '../compare/beside-list.ts';
import { skillRows } from './beside-rows.ts';
import { crewStyle } from './style.ts';

/**
 * `<cw-crew-skills .question=${…} .plan=${…} .store=${…} .filed=${…} currency="$">`:
 * what each second skill would be worth, tried
 * when it is asked for.
 */
@customElement('cw-crew-skills')
export class CwCrewSkills extends LitElement {
  static override styles = [base, blockStyle, besideStyle, crewStyle];
  @property({ attribute: false }) question!: CrewQuestion;
  @property({ attribute: false }) plan!: CrewPlan;
  @property({ attribute: false }) store!: CellStore;
  /** The cell of the file, which Compare is about. */
  @property({ attribute: false }) filed!: Scenario;
  @property() currency = '';
  private readonly training = new Live<CrossTraining>(this);

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('question') || changed.has('plan')) this.training.ask(null);
  }

  protected override render(): TemplateResult {
    const { plan, currency } = this;
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
          ? html`${blocks([trainingTable(answer, currency)], 9)}${besideList(skillRows(this.store, this.filed, answer))}${blocks([{ kind: 'paragraph', text: TRAINING_NOTE, small: true }], 9)}`
          : this.training.state.kind === 'waiting'
            ? html`<button type="button" @click=${ask}>try every second skill</button>`
            : workLine(this.training, {
                running: html`<p class="muted" role="status">Trying every second skill.</p>`,
                again: 'try them again',
              })
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew-skills': CwCrewSkills;
  }
}

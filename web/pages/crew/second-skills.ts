import { html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { TRAINING_NOTE, trainingTable } from '../../../src/report/crew-words.ts';
import { crossTraining, type CrossTraining } from '../../../src/staffing/cross-training.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import type { CrewQuestion } from '../../../src/staffing/question.ts';
import { base } from '../../parts/style.ts';
import { Live } from '../../work/live.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { workLine } from '../common/work-line.ts';
import { crewStyle } from './style.ts';

/**
 * `<cw-crew-skills .question=${…} .plan=${…} currency="$">`: what each second skill would be worth, tried
 * when it is asked for.
 */
@customElement('cw-crew-skills')
export class CwCrewSkills extends LitElement {
  static override styles = [base, blockStyle, crewStyle];
  @property({ attribute: false }) question!: CrewQuestion;
  @property({ attribute: false }) plan!: CrewPlan;
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
          ? blocks(
              [trainingTable(answer, currency), { kind: 'paragraph', text: TRAINING_NOTE, small: true }],
              9,
            )
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

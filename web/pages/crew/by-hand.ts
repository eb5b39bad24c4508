import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { triedSentences } from '../../../src/report/crew-words.ts';
import { nameOf } from '../../../src/scenario/resolve.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import type { CrewQuestion } from '../../../src/staffing/question.ts';
import { tryChange, type TriedChange } from '../../../src/staffing/try-change.ts';
import { differenceThatMatters } from '../../../src/study/from-scenario.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/order.ts';
import { base } from '../../parts/style.ts';
import { Live } from '../../work/live.ts';
import { workLine } from '../common/work-line.ts';
import { crewStyle } from './style.ts';

/**
 * `<cw-crew-hand .scenario=${…} .question=${…} .plan=${…} currency="$">`: a change to the planner's sheet by
 * hand, tried at once against it. Another question or another plan begins it anew.
 */
@customElement('cw-crew-hand')
export class CwCrewHand extends LitElement {
  static override styles = [base, crewStyle];
  @property({ attribute: false }) scenario!: Scenario;
  @property({ attribute: false }) question!: CrewQuestion;
  @property({ attribute: false }) plan!: CrewPlan;
  @property() currency = '';
  /** Whose post is changed, and what it is now. */
  @state() private hand: { person: string; covers: string[] } | null = null;
  private readonly tried = new Live<TriedChange>(this);

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('question') && !changed.has('plan')) return;
    this.hand = null;
    this.tried.ask(null);
  }

  protected override render(): TemplateResult {
    const { scenario, plan } = this;
    const here = plan.sheet.people.filter((person) => person.chance > 0);
    const chosen = here.find((person) => person.id === this.hand?.person);
    const { people, steps } = shiftOf(scenario);
    const person = people.find((one) => one.id === chosen?.id);
    const able =
      chosen === undefined
        ? []
        : Object.keys(scenario.steps).filter(
            (step) =>
              chosen.posts.some((post) => post.steps.some((one) => one.id === step)) ||
              step in person!.skills,
          );
    const covers = this.hand?.covers ?? [];
    const name = (step: string): string => nameOf(steps, step);
    return html`<section aria-labelledby="hand">
      <h2 id="hand">Change it by hand</h2>
      <cw-choice
        list
        label="Whose post"
        .choices=${[{ value: '', label: 'nobody’s' }, ...here.map((person) => ({ value: person.id, label: person.name }))]}
        value=${this.hand?.person ?? ''}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.choose(event.detail.value)}
      ></cw-choice>
      ${
        chosen === undefined
          ? nothing
          : html`<cw-order
                label="Stands at, first choice first, all day"
                removable
                .items=${covers.map((id) => ({ id, label: name(id) }))}
                @cw-change=${(event: PartEvent<'cw-change', string[]>) => this.change(event.detail.value)}
              ></cw-order>
              <div class="files">
                ${able.filter((step) => !covers.includes(step)).map((step) => html`<button type="button" @click=${() => this.change([...covers, step])}>and ${name(step)}</button>`)}
              </div>`
      }
      ${this.triedWords()}
    </section>`;
  }

  private choose(person: string): void {
    const first = this.plan.sheet.people.find((one) => one.id === person)?.posts[0];
    this.hand = first === undefined ? null : { person, covers: first.steps.map((step) => step.id) };
    this.tried.ask(null);
  }

  private change(covers: string[]): void {
    if (this.hand === null || covers.length === 0) return;
    this.hand = { ...this.hand, covers };
    const { plan, question } = this;
    const change = { people: { [this.hand.person]: { covers, changes: null } } };
    this.tried.ask({
      key: JSON.stringify([plan.changes, change]),
      run: async ({ runner, signal, show }) =>
        show(await tryChange(question, plan, change, runner, {}, undefined, signal)),
    });
  }

  private triedWords(): TemplateResult | typeof nothing {
    if (this.hand === null) return nothing;
    const { scenario, plan } = this;
    if (this.tried.state.kind !== 'done')
      return workLine(this.tried, {
        running: html`<p class="muted" role="status">Trying it against the plan.</p>`,
        again: 'try it again',
      });
    const tried = this.tried.answer;
    if (tried === null || !this.tried.current) return nothing;
    if (tried.kind === 'wrong')
      return html`<ul class="wrong" role="alert">
        ${tried.faults.map((fault) => html`<li>${fault.text}</li>`)}
      </ul>`;
    const { people, steps } = shiftOf(scenario);
    const names = (id: string): string => nameOf([...people, ...steps], id);
    return html`<ul role="status">
      ${triedSentences(tried, differenceThatMatters(plan.scenario), this.currency, names).map((sentence) => html`<li>${sentence}</li>`)}
    </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew-hand': CwCrewHand;
  }
}

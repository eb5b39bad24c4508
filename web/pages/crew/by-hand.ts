import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { wallHtml } from '../../../src/report/wall-sheet.ts';
import { cautionsFor } from '../../../src/scenario/cautions.ts';
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
import { saveFile } from '../../store/files.ts';
import { Live } from '../../work/live.ts';
import { workLine } from '../common/work-line.ts';
import type { ByHand, Tried } from './into-day.ts';
import { crewStyle } from './style.ts';

/**
 * `<cw-crew-hand .scenario=${…} .question=${…} .plan=${…} currency="$" day="Monday 8 March 2027">`: changes
 * to the planner's sheet by hand, of as many people as one likes, tried at once against it, printed, and put
 * into the day. Another question or another plan begins it anew; `outdated`: the plan no longer answers what
 * is asked. Event: put (detail ByHand).
 */
@customElement('cw-crew-hand')
export class CwCrewHand extends LitElement {
  static override styles = [base, crewStyle];
  @property({ attribute: false }) scenario!: Scenario;
  @property({ attribute: false }) question!: CrewQuestion;
  @property({ attribute: false }) plan!: CrewPlan;
  @property() currency = '';
  @property() day = '';
  @property({ type: Boolean }) outdated = false;
  /** Whose post is looked at, and the posts as they were changed, by person. */
  @state() private person = '';
  @state() private hands: Record<string, string[]> = {};
  private readonly tried = new Live<TriedChange>(this);

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('question') && !changed.has('plan')) return;
    this.person = '';
    this.hands = {};
    this.tried.ask(null);
  }

  protected override render(): TemplateResult {
    const { scenario, plan } = this;
    const here = plan.sheet.people.filter((person) => person.chance > 0);
    const chosen = here.find((person) => person.id === this.person);
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
    const covers = chosen === undefined ? [] : (this.hands[chosen.id] ?? postOf(chosen));
    const name = (step: string): string => nameOf(steps, step);
    return html`<section aria-labelledby="hand">
      <h2 id="hand">Change it by hand</h2>
      <cw-choice
        list
        label="Whose post"
        .choices=${[{ value: '', label: 'nobody’s' }, ...here.map((person) => ({ value: person.id, label: person.name }))]}
        value=${this.person}
        @cw-change=${(event: PartEvent<'cw-change', string>) => (this.person = event.detail.value)}
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
      ${this.changed(here)} ${this.triedWords()}
    </section>`;
  }

  /** Everything changed so far, each to be left again. */
  private changed(here: CrewPlan['sheet']['people']): TemplateResult | typeof nothing {
    const { steps } = shiftOf(this.scenario);
    const rows = here.filter(({ id }) => Object.hasOwn(this.hands, id));
    if (rows.length === 0) return nothing;
    return html`<ul class="changed">
      ${rows.map(
        ({ id, name }) =>
          html`<li>
            ${name}: ${this.hands[id]!.map((step) => nameOf(steps, step)).join(', ')}
            <button type="button" class="plain small" @click=${() => this.leave(id)}>
              leave ${name} as planned
            </button>
          </li>`,
      )}
    </ul>`;
  }

  private change(covers: string[]): void {
    if (covers.length > 0) this.set({ ...this.hands, [this.person]: covers });
  }

  private leave(person: string): void {
    this.set(Object.fromEntries(Object.entries(this.hands).filter(([id]) => id !== person)));
  }

  /** The posts changed, as a change to the plan. */
  private get patch(): Record<string, unknown> {
    const people = Object.entries(this.hands).map(([id, covers]) => [id, { covers, changes: null }] as const);
    return { people: Object.fromEntries(people) };
  }

  private set(hands: Record<string, string[]>): void {
    this.hands = hands;
    if (Object.keys(hands).length === 0) return this.tried.ask(null);
    const { plan, question, patch } = this;
    this.tried.ask({
      key: JSON.stringify([plan.changes, patch]),
      run: async ({ runner, signal, show }) =>
        show(await tryChange(question, plan, patch, runner, {}, undefined, signal)),
    });
  }

  private triedWords(): TemplateResult | typeof nothing {
    if (Object.keys(this.hands).length === 0) return nothing;
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
      </ul>
      ${tried.broken.length > 0 ? nothing : this.handOn(tried)}`;
  }

  private handOn(tried: Tried): TemplateResult {
    const wall = (): void =>
      saveFile(
        'crew-sheet-by-hand.html',
        wallHtml({
          sheet: tried.sheet,
          day: this.day,
          answer: ['The sheet was changed by hand.'],
          cautions: cautionsFor(this.plan.scenario),
        }),
        'text/html',
      );
    const detail: ByHand = { change: this.patch, tried };
    return html`<div class="files">
      <button
        type="button"
        class="firm"
        ?disabled=${this.outdated}
        @click=${() => this.dispatchEvent(new CustomEvent<ByHand>('put', { detail }))}
      >
        put the changed sheet into the day
      </button>
      <button type="button" ?disabled=${this.outdated} @click=${wall}>the changed sheet for the wall</button>
    </div>`;
  }
}

const postOf = (person: CrewPlan['sheet']['people'][number]): string[] =>
  person.posts[0]?.steps.map(({ id }) => id) ?? [];

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew-hand': CwCrewHand;
  }
}

import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import { capitalized } from '../../../src/words/words.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { PartEvent } from '../../parts/events.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, Place } from '../../store/draft.ts';
import { spotKey, type Spot } from './cell-data.ts';
import { add, KINDS, move, nameIn, rename, renameId, takeOut } from './edits.ts';
import { Fields, more } from './fields.ts';
import { calendarPanel } from './panel-calendar.ts';
import { carryPanel, holdsPanel, intakePanel, outRackPanel, shiftPanel } from './panel-day.ts';
import {
  aboutPanel,
  filePanel,
  followingPanel,
  levelsPanel,
  limitsPanel,
  moneyPanel,
  optionsPanel,
  studyPanel,
} from './panel-office.ts';
import { personPanel } from './panel-people.ts';
import { stepPanel } from './panel-step.ts';
import { gearPanel, productPanel } from './panel-things.ts';
import type { Kind } from './references.ts';
import { panelStyle } from './style.ts';

export interface Tried {
  place: Place;
  value: Json | undefined;
}

type Panel = (fields: Fields, scenario: Scenario) => TemplateResult;
const PLAIN: Record<string, { heading: string; panel: Panel }> = {
  shift: { heading: 'The shift', panel: shiftPanel },
  intake: { heading: 'What comes in', panel: intakePanel },
  carryOver: { heading: 'There at the start', panel: carryPanel },
  holds: { heading: 'On hold', panel: holdsPanel },
  outRack: { heading: 'Out-rack', panel: outRackPanel },
  nextShifts: { heading: 'Shifts that follow', panel: followingPanel },
  calendar: { heading: 'The calendar', panel: calendarPanel },
  about: { heading: 'The name of it', panel: aboutPanel },
  money: { heading: 'Money and rules of pay', panel: moneyPanel },
  limits: { heading: 'Limits on people', panel: limitsPanel },
  skillLevels: { heading: 'Skill levels', panel: levelsPanel },
  study: { heading: 'How sure to be', panel: studyPanel },
  options: { heading: 'Options', panel: optionsPanel },
  file: { heading: 'The file itself', panel: filePanel },
};
const NAMED: Record<Kind, (fields: Fields, scenario: Scenario, id: string) => TemplateResult> = {
  steps: stepPanel,
  people: personPanel,
  gear: gearPanel,
  products: productPanel,
};
const isNamed = (kind: string): kind is Kind => Object.hasOwn(NAMED, kind);

/**
 * `<cw-cell-panel .store=${store} .scenario=${draft} .spot=${{ kind: 'steps', id: 'fit' }} effect="It adds
 * …">`: one thing of the cell, to be changed. Events: tried (detail Tried), pick (detail Spot), back.
 */
@customElement('cw-cell-panel')
export class CwCellPanel extends LitElement {
  static override styles = panelStyle;
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) scenario!: Scenario;
  @property({ attribute: false }) spot: Spot = { kind: 'shift', id: '' };
  /** What a value on its way, or the last change, does to the answer. */
  @property() effect = '';
  /** Set anew with every change of the store: the fields are read again. */
  @property({ attribute: false }) turn: unknown = null;
  @state() private idWrong = '';

  protected override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('spot')) this.idWrong = '';
  }

  protected override render(): TemplateResult {
    const { kind, id } = this.spot;
    return html`${keyed(spotKey(this.spot), isNamed(kind) ? this.named(kind, id) : this.plain(kind))}`;
  }

  private fields(thing: string): Fields {
    return new Fields(this.store, thing, (place, value) =>
      this.dispatchEvent(new CustomEvent<Tried>('tried', { detail: { place, value } })),
    );
  }

  private head(heading: string): TemplateResult {
    return html`<h2 tabindex="-1">${heading}</h2>
      <div class="effect" role="status">
        ${this.effect === '' ? html`<p class="muted small">Change something: what it does to the answer is said here.</p>` : html`<p>${this.effect}</p>`}
      </div>`;
  }

  private plain(kind: string): TemplateResult {
    const { heading, panel } = PLAIN[kind] ?? PLAIN['file']!;
    return html`${this.head(heading)}
      <div class="stack">
        ${panel(this.fields(kind === 'about' || kind === 'file' ? '' : heading.toLowerCase()), this.scenario)}${this.back()}
      </div>`;
  }

  private named(kind: Kind, id: string): TemplateResult {
    const fields = this.fields(nameIn(this.store, kind, id));
    const ids = Object.keys(this.scenario[kind] ?? {});
    const ordered = kind === 'steps' || kind === 'people';
    const at = ids.indexOf(id);
    return html`${this.head(capitalized(nameIn(this.store, kind, id)))}
      <div class="stack">
        ${fields.text([kind, id, 'name'], 'Name', { placeholder: id, ...(kind === 'gear' ? { hint: 'Of one of them: “clamp set”, “bar clamp”.' } : {}), keep: (name) => this.pick(kind, rename(this.store, kind, id, name)) })}
        ${NAMED[kind](fields, this.scenario, id)}
        ${more(
          'its short name in the file',
          html`<cw-text
            label="Short name"
            .value=${id}
            most="40"
            wrong=${this.idWrong}
            hint="Every mention of it follows."
            @cw-change=${(event: PartEvent<'cw-change', string>) => this.rename(kind, id, event.detail.value.trim())}
          ></cw-text>`,
        )}
        <div class="acts">
          ${
            ordered
              ? html`<button
                    type="button"
                    class="plain"
                    ?disabled=${at === 0}
                    @click=${() => move(this.store, kind, id, -1)}
                  >
                    ↑ earlier
                  </button>
                  <button
                    type="button"
                    class="plain"
                    ?disabled=${at === ids.length - 1}
                    @click=${() => move(this.store, kind, id, 1)}
                  >
                    ↓ later
                  </button>`
              : nothing
          }
          ${kind === 'steps' ? html`<button type="button" class="plain" @click=${() => this.pick('steps', add(this.store, 'steps', id))}>+ a step after it</button>` : nothing}
          <button
            type="button"
            class="plain"
            ?disabled=${ordered && ids.length === 1}
            @click=${() => this.takeOut(kind, id, ids)}
          >
            take this ${KINDS[kind]} out
          </button>
        </div>
        ${this.back()}
      </div>`;
  }

  private back(): TemplateResult {
    return html`<div class="acts">
      <button type="button" class="plain" @click=${() => this.dispatchEvent(new CustomEvent('back'))}>
        back to the picture
      </button>
    </div>`;
  }

  private pick(kind: string, id: string): void {
    this.dispatchEvent(new CustomEvent<Spot>('pick', { detail: { kind, id } }));
  }

  private rename(kind: Kind, id: string, to: string): void {
    this.idWrong = renameId(this.store, kind, id, to) ?? '';
    if (this.idWrong === '' && to !== id) this.pick(kind, to);
  }

  private async takeOut(kind: Kind, id: string, ids: string[]): Promise<void> {
    const at = ids.indexOf(id);
    const beside = ids[at + 1] ?? ids[at - 1];
    if (!(await takeOut(this.store, kind, id))) return;
    if (beside === undefined) this.pick('shift', '');
    else this.pick(kind, beside);
  }

  /** The heading is what a screen reader hears when another thing was chosen. */
  override focus(options?: FocusOptions): void {
    this.renderRoot.querySelector<HTMLElement>('h2')?.focus(options);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-cell-panel': CwCellPanel;
  }
}

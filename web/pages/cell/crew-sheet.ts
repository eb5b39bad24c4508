/** The sheet of people by posts: people down, posts across, a tap a choice. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { capitalized, spelt } from '../../../src/words/words.ts';
import { base } from '../../parts/style.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { benchesOf, handsSteps, stepName } from './cell-data.ts';
import { benchesAlike, coversOf, levelOf, tapChoice, tapSkill, withPlace } from './sheet-edits.ts';

const SKILLS = ['cannot', 'in training', 'with help', 'alone', 'can train others'];

/** Beside a choice, of those who cannot do it alone. */
const SHORT = ['', 'training', 'help', '', ''];
const NONE = '·';

/**
 * `<cw-crew-sheet .store=${store} .scenario=${draft} .turn=${…}>`: where each person stands, by tapping: 1 is
 * the first choice; a later step goes first unless somebody says otherwise. The same fields hold how well
 * each can do it. Digits work too: 1, 2, 3 for the place, 0 for nowhere. Event: pick with a Spot, for a name
 * that was touched.
 */
@customElement('cw-crew-sheet')
export class CwCrewSheet extends LitElement {
  static override styles = [
    base,
    css`
      .scroll {
        overflow-x: auto;
        margin-bottom: var(--space-2);
      }
      table {
        border-collapse: collapse;
      }
      th {
        font-weight: 400;
        text-align: left;
        padding: var(--space-1) var(--space-2) var(--space-1) 0;
      }
      thead th {
        vertical-align: bottom;
        text-align: center;
        padding: var(--space-1);
        min-width: 4rem;
        max-width: 7rem;
        font-size: var(--size-small);
        line-height: 1.25;
        overflow-wrap: break-word;
        hyphens: auto;
      }
      tbody th {
        position: sticky;
        left: 0;
        background: var(--paper);
        min-width: 5rem;
        max-width: 10rem;
        overflow-wrap: anywhere;
      }
      tbody th button {
        padding: 0;
        border: 0;
        text-align: left;
        font-weight: 600;
        justify-content: flex-start;
        unicode-bidi: isolate;
      }
      td {
        padding: 0;
        border: 1px solid var(--hairline);
        text-align: center;
      }
      td button {
        width: 100%;
        min-width: var(--touch);
        min-height: var(--touch);
        padding: 0 2px;
        border: 0;
        justify-content: center;
        font-size: var(--size-large);
      }
      td button.none {
        color: var(--muted);
        font-weight: 400;
      }
      td button small {
        font-size: 0.7rem;
        font-weight: 400;
        color: var(--muted);
        margin-left: 2px;
      }
      .mode {
        margin-bottom: var(--space-2);
      }
      .advice {
        margin: 0;
      }
    `,
  ];
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) scenario!: Scenario;
  /** Set anew with every change of the store. */
  @property({ attribute: false }) turn: unknown = null;
  @state() private skills = false;

  protected override render(): TemplateResult {
    const { scenario } = this;
    const posts = handsSteps(scenario).map(([id]) => id);
    return html`<div class="mode">
        <button
          type="button"
          class="small"
          aria-pressed=${this.skills ? 'true' : 'false'}
          @click=${() => (this.skills = !this.skills)}
        >
          ${this.skills ? 'back to who stands where' : 'how well each can do it'}
        </button>
      </div>
      <div class="scroll" role="region" tabindex="0" aria-label="People by posts">
        <table>
          <thead>
            <tr>
              <td></td>
              ${posts.map((post) => html`<th scope="col">${stepName(scenario, post)}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${Object.entries(scenario.people).map(
              ([id, person]) =>
                html`<tr>
                  <th scope="row">
                    <button type="button" @click=${() => this.pick(id)}>${person.name ?? id}</button>
                  </th>
                  ${posts.map((post) => html`<td>${this.field(id, post)}</td>`)}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="hint">
        ${
          this.skills
            ? 'Tap for 1 in training, 2 with help, 3 alone, 4 can train others. Training clears people for a task, not this.'
            : 'Tap where each stands. Tapped again it is a later choice, then none. A later step goes first: it empties the cell.'
        }
      </p>
      ${this.benches()}`;
  }

  private field(id: string, post: string): TemplateResult {
    const { scenario } = this;
    const name = scenario.people[id]!.name ?? id;
    const at = coversOf(scenario, id).indexOf(post);
    const level = levelOf(scenario, id, post);
    const shown = this.skills ? (level === 0 ? NONE : String(level)) : at < 0 ? NONE : String(at + 1);
    const short = this.skills || at < 0 ? '' : (SHORT[level] ?? '');
    // What is read aloud holds what is seen.
    const told = this.skills
      ? `level ${level}, ${SKILLS[level]}`
      : at < 0
        ? 'does not stand here'
        : `choice ${shown} ${short}`.trim();
    return html`<button
      type="button"
      class=${shown === NONE ? 'none' : ''}
      data-field=${`${id} ${post}`}
      aria-label=${`${name} at ${stepName(scenario, post)}: ${told}`}
      @click=${() => this.tap(id, post)}
      @keydown=${(event: KeyboardEvent) => this.digit(event, id, post)}
    >
      ${shown}${short === '' ? nothing : html` <small>${short}</small>`}
    </button>`;
  }

  /** Asked where it matters: two who stand there first, and one bench. */
  private benches(): TemplateResult | typeof nothing {
    const { scenario } = this;
    const crowded = benchesAlike(scenario);
    if (crowded.length === 0) return nothing;
    return html`${crowded.map(
      ({ post, people }) =>
        html`<p class="advice">
          ${capitalized(spelt(people))} stand first at “${stepName(scenario, post)}”, which has
          ${benchesOf(scenario.steps[post]!) === 1 ? 'one bench' : `${spelt(benchesOf(scenario.steps[post]!))} benches`}:
          one at a time.
          <button
            type="button"
            class="plain small"
            @click=${() => this.store.change(`${stepName(scenario, post)}: ${people} benches`, ['steps', post, 'benches'], people)}
          >
            there are ${spelt(people)} benches
          </button>
        </p>`,
    )}`;
  }

  private tap(id: string, post: string): void {
    if (this.skills) tapSkill(this.store, this.scenario, id, post);
    else tapChoice(this.store, this.scenario, id, post);
  }

  private digit(event: KeyboardEvent, id: string, post: string): void {
    const digit = Number(event.key);
    if (!/^[0-9]$/.test(event.key) || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    if (this.skills) tapSkill(this.store, this.scenario, id, post, Math.min(4, digit));
    else withPlace(this.store, this.scenario, id, post, digit);
  }

  private pick(id: string): void {
    this.dispatchEvent(
      new CustomEvent('pick', { detail: { kind: 'people', id }, bubbles: true, composed: true }),
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew-sheet': CwCrewSheet;
  }
}

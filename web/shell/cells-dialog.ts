import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ask } from '../parts/dialog.ts';
import { tell } from '../parts/events.ts';
import { say } from '../parts/notice.ts';
import { base } from '../parts/style.ts';
import type { Cells } from '../store/cells.ts';
import type { SetAside } from '../store/database.ts';
import type { Json } from '../store/draft.ts';
import { saveAside } from './open-cells.ts';
import { addressOf } from './route.ts';
import { Watch } from '../store/value.ts';

/**
 * `<cw-cells .cells=${cells} .demo=${json} .fresh=${make} ?open=${open}>`: the cells kept in this browser.
 * Event: cw-close.
 */
@customElement('cw-cells')
export class CwCells extends LitElement {
  static override styles = [
    base,
    css`
      ul {
        list-style: none;
        margin: 0 0 var(--space-6);
        padding: 0;
      }
      li {
        display: flex;
        align-items: center;
        border-bottom: 1px solid var(--hairline);
      }
      li > button:first-child {
        flex: 1;
        justify-content: space-between;
        text-align: left;
        padding: var(--space-2) 0;
        border-bottom: 0;
        overflow-wrap: anywhere;
      }
      section {
        margin-top: var(--space-8);
      }
      .name {
        flex: 1;
        overflow-wrap: anywhere;
      }
      .here {
        color: var(--muted);
        font-weight: 400;
        font-size: var(--size-small);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
      }
    `,
  ];
  @property({ attribute: false }) cells!: Cells;
  /** What a cell begins as: the demo shop, and a new one. */
  @property({ attribute: false }) demo: Json = null;
  @property({ attribute: false }) fresh: () => Json = () => null;
  @property({ type: Boolean }) open = false;
  @state() private watch: Watch | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.watch ??= new Watch(this, this.cells.list, this.cells.current, this.cells.aside);
  }

  protected override render(): TemplateResult {
    const here = this.cells.current.get().id;
    return html`<cw-dialog heading="Your cells" ?open=${this.open}>
      <p class="muted">
        ${this.cells.lasting ? 'Kept in this browser, on this machine, as you type.' : 'This browser keeps nothing here: save to a file what is to last.'}
      </p>
      <ul>
        ${this.cells.list.get().map(
          ({ id, name, changedAt }) =>
            html`<li>
              <button
                type="button"
                @click=${() => this.turn(id)}
                aria-current=${id === here ? 'true' : nothing}
              >
                ${name}<span class="here">${id === here ? 'open now' : when(changedAt)}</span>
              </button>
              <button
                type="button"
                class="plain small"
                aria-label=${`Throw away ${name}`}
                @click=${() => this.discard(id, name)}
              >
                throw away
              </button>
            </li>`,
        )}
      </ul>
      <div class="row">
        <button type="button" @click=${() => this.begin()}>begin a new one</button>
        <button type="button" @click=${() => this.add(this.demo)}>a fresh demo shop</button>
        <button type="button" @click=${this.duplicate}>copy this one</button>
      </div>
      ${this.setAside()}
    </cw-dialog>`;
  }

  /** What could not be read: nobody has to know why it happened to get it back. */
  private setAside(): TemplateResult | typeof nothing {
    const things = this.cells.aside.get();
    if (things.length === 0) return nothing;
    return html`<section aria-labelledby="aside">
      <h3 id="aside">Set aside</h3>
      <p class="muted">
        These could not be used as they were found. Save one as text to read what is in it; it stays here
        until you throw it away.
      </p>
      <ul>
        ${things.map(
          (thing) =>
            html`<li>
              <span class="name"
                >${thing.name} <span class="here">${thing.at === 0 ? '' : when(thing.at)}</span></span
              >
              <button
                type="button"
                class="plain small"
                aria-label=${`Save as text: ${thing.name}`}
                @click=${() => saveAside(thing)}
              >
                save as text
              </button>
              <button
                type="button"
                class="plain small"
                aria-label=${`Throw away ${thing.name}`}
                @click=${() => this.discardAside(thing)}
              >
                throw away
              </button>
            </li>`,
        )}
      </ul>
    </section>`;
  }

  private async discardAside(thing: SetAside): Promise<void> {
    const yes = await ask({
      heading: `Throw away ${thing.name}?`,
      text: 'It cannot be brought back. Save it as text first if there may be something in it.',
      yes: 'throw it away',
    });
    if (yes) await this.cells.dropAside(thing.id);
  }

  private done(): void {
    tell(this, 'cw-close', { kept: true });
  }

  private async turn(id: string): Promise<void> {
    if (await this.cells.turnTo(id)) this.done();
    else say('That cell is no longer here; it was thrown away in another tab.', { kind: 'wrong' });
  }

  private async add(draft: Json): Promise<void> {
    await this.cells.add(draft);
    this.done();
  }

  /** Where it is put in. */
  private async begin(): Promise<void> {
    await this.add(this.fresh());
    location.hash = addressOf('cell');
  }

  private readonly duplicate = async (): Promise<void> => {
    await this.cells.duplicate(`${this.cells.current.get().name}, copy`.slice(0, 120));
    this.done();
  };

  private async discard(id: string, name: string): Promise<void> {
    const yes = await ask({
      heading: `Throw away “${name}”?`,
      text: 'It goes with the log of its days. It cannot be brought back, except from files you saved.',
      yes: 'throw it away',
    });
    if (yes) await this.cells.remove(id, this.demo);
  }
}

const when = (at: number): string =>
  new Date(at).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

declare global {
  interface HTMLElementTagNameMap {
    'cw-cells': CwCells;
  }
}

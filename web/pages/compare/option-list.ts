import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { nameOf } from '../../../src/scenario/resolve.ts';
import { plantOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/dialog.ts';
import { base } from '../../parts/style.ts';
import { lastOf } from '../../work/same.ts';
import { makersOf, MOST_SHOWN, type ListAct, type Maker } from './options.ts';

/**
 * `<cw-option-list .scenario=${…} .shown=${ids} looked="third-set">`: the options by name, the one in the
 * heading marked, what can be done with it, and those that are one press away. Event: `act` with a ListAct as
 * its detail.
 */
@customElement('cw-option-list')
export class CwOptionList extends LitElement {
  static override styles = [
    base,
    css`
      ol,
      ul {
        list-style: none;
        margin: 0 0 var(--space-4);
        padding: 0;
      }
      li {
        border-bottom: 1px solid var(--hairline);
      }
      .name {
        width: 100%;
        justify-content: flex-start;
        text-align: left;
        border: 0;
        border-left: 4px solid transparent;
        padding: var(--space-2) 0 var(--space-2) var(--space-2);
        line-height: 1.3;
        overflow-wrap: anywhere;
        font-weight: 400;
      }
      .name[aria-current] {
        font-weight: 700;
        border-left-color: var(--ink);
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        margin: 0 0 var(--space-2);
        padding-left: var(--space-1);
      }
      .tools button {
        padding: 0 var(--space-1);
        font-weight: 400;
        font-size: var(--size-small);
        border: 0;
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
      }
      .tools button[disabled] {
        text-decoration: none;
      }
      h2 {
        margin-bottom: var(--space-2);
      }
      h3 {
        font: 600 var(--size) / 1.4 var(--text);
        margin: var(--space-4) 0 var(--space-1);
      }
      .aside {
        display: grid;
        grid-template-columns: 1fr auto;
        align-items: center;
        color: var(--muted);
      }
      .makers {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-1) var(--space-3);
      }
      .makers button {
        font-weight: 400;
        text-align: left;
        padding: 0;
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @property({ attribute: false }) shown: string[] = [];
  @property() looked = '';
  @state() private adding = false;

  protected override render(): TemplateResult {
    const { options } = plantOf(this.scenario);
    const ids = options.map(({ id }) => id);
    const others = ids.filter((id) => !this.shown.includes(id));
    const name = (id: string): string => nameOf(options, id);
    return html`<h2>What if …</h2>
      <ol>
        ${this.shown.map(
          (id) =>
            html`<li>
              <button
                type="button"
                class="name"
                aria-current=${id === this.looked ? 'true' : nothing}
                @click=${() => this.act({ kind: 'look at', id })}
              >
                ${name(id)}
              </button>
              ${id === this.looked ? this.tools(id, ids) : nothing}
            </li>`,
        )}
      </ol>
      <button type="button" @click=${() => (this.adding = true)}>
        ${ids.length === 0 ? 'try something …' : 'something else …'}
      </button>
      ${
        others.length === 0
          ? nothing
          : html`<h3>Not side by side now</h3>
              <ul>
                ${others.map(
                  (id) =>
                    html`<li class="aside">
                      <span>${name(id)}</span>
                      <button
                        type="button"
                        class="plain"
                        aria-label=${`Show ${name(id)}`}
                        @click=${() => this.act({ kind: 'show', id })}
                      >
                        show
                      </button>
                    </li>`,
                )}
              </ul>`
      }
      ${this.dialog()}`;
  }

  private tools(id: string, ids: string[]): TemplateResult {
    const at = ids.indexOf(id);
    const word = (kind: Exclude<ListAct['kind'], 'add'>, label: string, disabled = false): TemplateResult =>
      html`<button type="button" ?disabled=${disabled} @click=${() => this.act({ kind, id })}>
        ${label}
      </button>`;
    return html`<div class="tools" role="group" aria-label="This option">
      ${word('up', 'up', at === 0)}${word('down', 'down', at === ids.length - 1)}${word('duplicate', 'copy')}${word('hide', 'aside', this.shown.length < 2)}${word('remove', 'remove')}
    </div>`;
  }

  /** Each is tried on the cell, which takes its time. */
  private readonly makers = lastOf(makersOf);

  private dialog(): TemplateResult {
    if (!this.adding) return html``;
    const makers = this.makers(this.scenario);
    const groups = [...new Set(makers.map(({ group }) => group))];
    return html`<cw-dialog heading="What if …" open @cw-close=${() => (this.adding = false)}>
      <p class="muted small">
        One press, and it stands beside the others.
        ${this.shown.length >= MOST_SHOWN ? 'The last one makes way for it; it is put aside, not lost. ' : ''}Change
        it further afterwards.
      </p>
      ${groups.map(
        (group) =>
          html`<h3>${group}</h3>
            <div class="makers">
              ${makers
                .filter((maker) => maker.group === group)
                .map(
                  (maker) =>
                    html`<button type="button" @click=${() => this.add(maker)}>${maker.option.name}</button>`,
                )}
            </div>`,
      )}
    </cw-dialog>`;
  }

  private add(maker: Maker): void {
    this.adding = false;
    this.act({ kind: 'add', maker });
  }

  private act(detail: ListAct): void {
    this.dispatchEvent(new CustomEvent('act', { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-option-list': CwOptionList;
  }
}

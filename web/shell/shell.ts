import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { dayWords, shortDay } from '../../src/scenario/calendar.ts';
import { wordOf, type Group, type Page } from '../pages/page.ts';
import { tell } from '../parts/events.ts';
import '../parts/notice.ts';
import { base } from '../parts/style.ts';
import { Watch } from '../store/value.ts';
import { addressOf } from './route.ts';
import './keys-dialog.ts';
import { theme, themeWords, turnTheme } from './theme.ts';

/** The pages as a day goes, and what they rest on behind them. */
const GROUPS: { group: Group; label: string }[] = [
  { group: 'before', label: 'before' },
  { group: 'during', label: 'during' },
  { group: 'after', label: 'after' },
  { group: 'upstairs', label: 'upstairs' },
  { group: 'behind', label: 'behind them' },
];

/**
 * `<cw-shell .pages=${pages} page="compare" name="The demo shop" day="2027-03-05" canUndo>page</cw-shell>`:
 * the line of words at the top and the page under it. Properties: pages, page, name, kept (one word on
 * whether all is kept: "kept"), day, canUndo, canRedo, undoWords. Event: cw-act { act: 'undo' | 'redo' |
 * 'cells' | 'days' | 'open' | 'save' | 'share' }; also from Ctrl+Z, Ctrl+Shift+Z, Ctrl+O, Ctrl+S.
 */
@customElement('cw-shell')
export class CwShell extends LitElement {
  static override styles = [
    base,
    css`
      .skip {
        position: absolute;
        left: var(--space-4);
        top: -80px;
        border: 0;
        background: var(--ink);
        color: var(--paper);
        padding: var(--space-3) var(--space-4);
        z-index: 5;
      }
      .skip:focus {
        top: var(--space-2);
      }
      header {
        max-width: var(--sheet);
        margin: 0 auto;
        padding: var(--space-4) var(--space-6) 0;
      }
      .top,
      nav {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
      }
      .top {
        gap: 0 var(--space-2);
      }
      .mark {
        font: 600 var(--size-large) / 1 var(--serif);
        margin-right: var(--space-4);
      }
      .cell {
        flex: 1 1 12rem;
        min-width: 0;
        display: flex;
        align-items: baseline;
        gap: var(--space-2);
      }
      .cell button {
        font-weight: 400;
        font-style: normal;
        text-align: left;
        justify-content: flex-start;
        padding: 0;
        border-bottom: 0;
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
        overflow-wrap: anywhere;
      }
      @media (min-width: 560px) {
        .cell button {
          display: block;
          white-space: nowrap;
          overflow: hidden;
          text-overflow: ellipsis;
          min-width: 0;
        }
      }
      .acts button {
        font-weight: 400;
        font-size: var(--size-small);
        color: var(--muted);
        border-bottom: 0;
        padding: 0 var(--space-2);
      }
      .acts button:hover:not([disabled]) {
        color: var(--ink);
      }
      .line {
        border-bottom: 1px solid var(--hairline);
      }
      .day {
        flex: none;
        border-bottom: 0;
        padding: 0 var(--space-2);
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
      }
      nav {
        margin: 0 calc(-1 * var(--space-2));
        gap: 0 var(--space-6);
      }
      .group {
        flex: none;
      }
      .group > div {
        display: flex;
      }
      .when {
        display: block;
        padding: var(--space-2) var(--space-2) 0;
        font: italic 400 var(--size-small) / 1 var(--serif);
        color: var(--muted);
      }
      nav a {
        flex: none;
        display: flex;
        align-items: center;
        justify-content: center;
        min-height: var(--touch);
        min-width: var(--touch);
        padding: 2px var(--space-2) 0;
        text-decoration: none;
        color: var(--muted);
        border-bottom: 3px solid transparent;
        margin-bottom: -1px;
      }
      nav a:hover {
        color: var(--ink);
      }
      nav a[aria-current] {
        color: var(--ink);
        font-weight: 600;
        border-bottom-color: var(--ink);
      }
      main {
        display: block;
      }
      @media (max-width: 1279px) {
        nav {
          gap: 0 var(--space-4);
        }
        nav a {
          padding: 2px var(--space-1) 0;
        }
      }
      @media (max-width: 1023px) {
        nav {
          gap: 0 var(--space-2);
          flex-wrap: nowrap;
          overflow-x: auto;
          scrollbar-width: thin;
        }
      }
      @media (max-width: 559px) {
        header {
          padding: var(--space-2) var(--space-4) 0;
        }
        .day {
          padding: 0;
        }
      }
      @media print {
        header,
        .skip {
          display: none;
        }
      }
    `,
  ];
  @property({ attribute: false }) pages: Page[] = [];
  @property() page = '';
  @property() name = '';
  @property() kept = '';
  @property() day = '';
  @property({ type: Boolean }) canUndo = false;
  @property({ type: Boolean }) canRedo = false;
  @property() undoWords = '';
  @state() private keys = false;
  private readonly watch = new Watch(this, theme);

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.key);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.key);
  }

  /** On a phone the line of words is longer than the screen: the page one is on stays in sight. */
  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has('page') && !changed.has('pages')) return;
    const [line, here] = [
      this.renderRoot.querySelector('nav'),
      this.renderRoot.querySelector<HTMLElement>('nav a[aria-current]'),
    ];
    if (line === null || here === null) return;
    line.scrollLeft = here.offsetLeft - line.offsetLeft - (line.clientWidth - here.offsetWidth) / 2;
  }

  protected override render(): TemplateResult {
    void this.watch;
    return html`<header>
        <button type="button" class="skip" @click=${this.skip}>to the answer</button>
        <div class="top">
          <span class="mark">Clampwright</span>
          <span class="cell"
            ><button
              type="button"
              aria-label=${`Cell: ${this.name}. Choose another`}
              @click=${() => this.act('cells')}
            >
              ${this.name}
            </button>
            <span class="muted small">${this.kept}</span></span
          >
          <button
            type="button"
            class="day"
            aria-label=${`${shortDay(this.day)}: the pages are about ${dayWords(this.day)}. Choose another day`}
            @click=${() => this.act('days')}
          >
            ${shortDay(this.day)}
          </button>
          <span class="acts" role="group" aria-label="This cell">
            ${this.word('undo', 'undo', !this.canUndo, this.undoWords === '' ? 'Undo' : `Undo: ${this.undoWords}`)}${this.word('redo', 'redo', !this.canRedo)}
            ${this.word('open', 'open')}${this.word('save', 'save')}${this.word('share', 'share')}
            <button
              type="button"
              title="Light, dark, or as the system has it"
              aria-label=${`Screen: ${themeWords(theme.get())}. Change`}
              @click=${turnTheme}
            >
              ${themeWords(theme.get())}
            </button>
            <button type="button" title="Keys" aria-label="Keys" @click=${() => (this.keys = true)}>?</button>
          </span>
        </div>
        <div class="line">
          <nav aria-label="Pages">
            ${GROUPS.map(({ group, label }) =>
              this.group(
                label,
                this.pages.filter((page) => page.group === group),
              ),
            )}
          </nav>
        </div>
      </header>
      <main id="main" tabindex="-1"><slot></slot></main>
      <cw-keys ?open=${this.keys} @cw-close=${() => (this.keys = false)}></cw-keys>
      <cw-notices></cw-notices>`;
  }

  private group(label: string, pages: Page[]): TemplateResult | typeof nothing {
    if (pages.length === 0) return nothing;
    return html`<div class="group" role="group" aria-label=${label}>
      <span class="when" aria-hidden="true">${label}</span>
      <div>
        ${pages.map(
          (page) =>
            html`<a
              href=${addressOf(page.route)}
              title=${page.question}
              data-group=${page.group}
              aria-current=${page.route === this.page ? 'page' : nothing}
              >${wordOf(page)}</a
            >`,
        )}
      </div>
    </div>`;
  }

  private word(act: string, label: string, disabled = false, title = ''): TemplateResult {
    return html`<button
      type="button"
      ?disabled=${disabled}
      title=${title || nothing}
      @click=${() => this.act(act)}
    >
      ${label}
    </button>`;
  }

  private act(act: string): void {
    tell(this, 'cw-act', { act });
  }

  private readonly skip = (event: Event): void => {
    event.preventDefault();
    this.renderRoot.querySelector<HTMLElement>('main')?.focus();
  };

  private readonly key = (event: KeyboardEvent): void => {
    // In a field that is being written, undo is the field's own, and a question mark is a question mark.
    const writing = event
      .composedPath()
      .some((one) => one instanceof HTMLInputElement || one instanceof HTMLTextAreaElement);
    if (event.key === '?' && !writing) this.keys = true;
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const act = { z: event.shiftKey ? 'redo' : 'undo', y: 'redo', o: 'open', s: 'save' }[
      event.key.toLowerCase()
    ];
    if (act === undefined || (writing && (act === 'undo' || act === 'redo'))) return;
    event.preventDefault();
    this.act(act);
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-shell': CwShell;
  }
}

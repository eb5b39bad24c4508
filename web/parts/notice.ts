import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { Value, Watch } from '../store/value.ts';
import { base } from './style.ts';

export interface Notice {
  id: number;
  text: string;
  /** `wrong` stays until it is put away; `plain` goes after a while. */
  kind: 'plain' | 'wrong';
  /** A word to press, and what it does. */
  act?: { label: string; run: () => void };
}

const notices = new Value<Notice[]>([]);
let count = 0;
const PLAIN_STAYS = 8000;

/**
 * Says something at the foot of the page, aloud to those who listen to it. The same words are not said twice
 * at once.
 */
export function say(
  text: string,
  { kind = 'plain', act }: { kind?: Notice['kind']; act?: Notice['act'] } = {},
): void {
  const notice: Notice = { id: (count += 1), text, kind, ...(act === undefined ? {} : { act }) };
  notices.set([...notices.get().filter((one) => one.text !== text), notice].slice(-3));
  if (kind === 'plain') setTimeout(() => putAway(notice.id), PLAIN_STAYS);
}

/** Takes back words that no longer hold. */
export const unsay = (text: string): void => notices.set(notices.get().filter((one) => one.text !== text));

const putAway = (id: number): void => notices.set(notices.get().filter((one) => one.id !== id));

/** `<cw-notices>`: once in a page, at its end. Use `say` (notice.ts) to fill it. */
@customElement('cw-notices')
export class CwNotices extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        position: fixed;
        z-index: 10;
        bottom: var(--space-4);
        left: 50%;
        translate: -50% 0;
        width: min(40rem, calc(100vw - 32px));
      }
      .notice {
        display: flex;
        align-items: center;
        gap: var(--space-3);
        background: var(--ink);
        color: var(--paper);
        padding: var(--space-1) var(--space-2) var(--space-1) var(--space-4);
        margin-top: var(--space-2);
      }
      .notice.bad {
        border-left: 8px solid var(--waiting);
      }
      .notice span {
        flex: 1;
      }
      button,
      button:hover:not([disabled]) {
        color: var(--paper);
        background: none;
        border-bottom-color: transparent;
        text-decoration: underline;
        text-underline-offset: 0.2em;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];
  private readonly watch = new Watch(this, notices);

  protected override render(): TemplateResult {
    void this.watch;
    return html`<div role="status" aria-live="polite">
      ${notices.get().map(
        (notice) =>
          html` <div class="notice ${notice.kind === 'wrong' ? 'bad' : ''}">
            <span>${notice.text}</span>
            ${notice.act === undefined ? nothing : html`<button type="button" @click=${() => this.act(notice)}>${notice.act.label}</button>`}
            <button type="button" aria-label=${`Put away: ${notice.text}`} @click=${() => putAway(notice.id)}>
              put away
            </button>
          </div>`,
      )}
    </div>`;
  }

  private act(notice: Notice): void {
    putAway(notice.id);
    notice.act?.run();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-notices': CwNotices;
  }
}

import { css, html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { tell } from './events.ts';
import { base } from './style.ts';

/**
 * `<cw-dialog heading="Open a cell" ?open=${open} @cw-close=${…}>…</cw-dialog>`: something in front of the
 * page. Escape and a press beside it close it. Slots: default, and `foot` for its buttons. Event: cw-close {
 * kept: false }.
 */
@customElement('cw-dialog')
export class CwDialog extends LitElement {
  static override styles = [
    base,
    css`
      dialog {
        color: var(--ink);
        background: var(--paper);
        border: 0;
        border-top: 4px solid var(--ink);
        padding: var(--space-6) var(--space-8) var(--space-8);
        width: min(34rem, calc(100vw - 32px));
        max-height: calc(100vh - 64px);
        box-shadow: 0 0 0 1px var(--hairline);
      }
      dialog::backdrop {
        background: var(--shade);
        opacity: 0.86;
      }
      header {
        display: flex;
        justify-content: space-between;
        align-items: flex-start;
        gap: var(--space-4);
        margin-bottom: var(--space-4);
      }
      h2 {
        padding-top: var(--space-2);
      }
      footer {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
        margin-top: var(--space-6);
      }
    `,
  ];
  @property() heading = '';
  @property({ type: Boolean }) open = false;

  protected override render(): TemplateResult {
    return html`<dialog aria-labelledby="heading" @close=${this.closed} @click=${this.beside}>
      <header>
        <h2 id="heading">${this.heading}</h2>
        <button type="button" class="plain" @click=${() => this.dialog.close()}>close</button>
      </header>
      <slot></slot>
      <footer><slot name="foot"></slot></footer>
    </dialog>`;
  }

  private get dialog(): HTMLDialogElement {
    return this.renderRoot.querySelector('dialog')!;
  }

  protected override updated(changed: PropertyValues): void {
    if (!changed.has('open')) return;
    if (this.open && !this.dialog.open) this.dialog.showModal();
    if (!this.open && this.dialog.open) this.dialog.close();
  }

  private readonly closed = (): void => {
    if (!this.open) return;
    this.open = false;
    tell(this, 'cw-close', { kept: false });
  };

  private readonly beside = (event: MouseEvent): void => {
    if (
      event.target === this.dialog &&
      event.detail > 0 &&
      !within(this.dialog.getBoundingClientRect(), event)
    )
      this.dialog.close();
  };
}

const within = (box: DOMRect, { clientX, clientY }: MouseEvent): boolean =>
  clientX >= box.left && clientX <= box.right && clientY >= box.top && clientY <= box.bottom;

/** Asks and waits: true for the firm answer. For what cannot be undone, and for nothing else. */
export async function ask({
  heading,
  text,
  yes,
  no = 'leave it',
}: {
  heading: string;
  text: string;
  yes: string;
  no?: string;
}): Promise<boolean> {
  const dialog = document.createElement('cw-dialog');
  const words = document.createElement('p');
  words.textContent = text;
  return new Promise((resolve) => {
    const button = (label: string, answer: boolean): HTMLButtonElement => {
      const made = document.createElement('button');
      made.textContent = label;
      made.className = 'ask';
      made.slot = 'foot';
      made.addEventListener('click', () => done(answer));
      return made;
    };
    const done = (answer: boolean): void => {
      dialog.remove();
      resolve(answer);
    };
    dialog.heading = heading;
    dialog.append(words, button(yes, true), button(no, false));
    dialog.addEventListener('cw-close', () => done(false));
    document.body.append(dialog);
    dialog.open = true;
  });
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-dialog': CwDialog;
  }
}

import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../parts/dialog.ts';
import { base } from '../parts/style.ts';

/** Keys and what they do; where they hold, if not everywhere. */
const KEYS: { keys: string; does: string }[] = [
  { keys: 'Ctrl Z', does: 'take the last change back' },
  { keys: 'Ctrl Shift Z, Ctrl Y', does: 'do it again' },
  { keys: 'Ctrl O', does: 'open a cell from a file' },
  { keys: 'Ctrl S', does: 'save the cell to a file' },
  { keys: '↑ ↓', does: 'in a number or a time: more, less' },
  { keys: 'Esc', does: 'in a field: as it was; in a window: close it' },
  { keys: 'Tab', does: 'to the next thing that can be changed' },
  { keys: '← → Home End', does: 'in the lanes of Replay: the stretch before, after, first, last' },
  { keys: 'Alt ↓, Alt ↑', does: 'in Replay: the next cause, the one before, the dearest first' },
  { keys: '?', does: 'these keys' },
];

/** `<cw-keys ?open=${open} @cw-close=${…}>`: the keys of the page. Event: cw-close. */
@customElement('cw-keys')
export class CwKeys extends LitElement {
  static override styles = [
    base,
    css`
      dl {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--space-2) var(--space-6);
        margin: 0;
      }
      dt {
        font-weight: 600;
      }
      dd {
        margin: 0;
      }
      p {
        margin-top: var(--space-4);
      }
    `,
  ];
  @property({ type: Boolean }) open = false;

  protected override render(): TemplateResult {
    return html`<cw-dialog heading="Keys" ?open=${this.open}>
      <dl>
        ${KEYS.map(
          ({ keys, does }) =>
            html`<dt>${keys}</dt>
              <dd>${does}</dd>`,
        )}
      </dl>
      <p class="muted">On a Mac, ⌘ stands for Ctrl.</p>
    </cw-dialog>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-keys': CwKeys;
  }
}

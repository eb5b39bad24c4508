import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { morningAnswer, morningLines, type MorningLine } from '../../../src/report/morning-page.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { base } from '../../parts/style.ts';
import { dayAbout, dayValues, openedFor } from '../../shell/day.ts';
import { addressOf } from '../../shell/route.ts';
import { entriesOf } from '../../store/book.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import type { PageElement } from '../page.ts';

/** The first look of a day: six lines, each of which leads to its page. */
@customElement('cw-morning')
export class CwMorning extends LitElement implements PageElement {
  static override styles = [
    base,
    css`
      dl {
        margin: 0;
        max-width: 52rem;
        border-top: 1px solid var(--hairline);
      }
      dl > div {
        display: grid;
        grid-template-columns: 8rem minmax(0, 1fr) auto;
        gap: 0 var(--space-6);
        align-items: baseline;
        padding: var(--space-4) 0;
        border-bottom: 1px solid var(--hairline);
      }
      dt {
        font: italic 400 var(--size-large) / 1.3 var(--serif);
        color: var(--muted);
      }
      dd {
        margin: 0;
        font-size: var(--size-large);
        line-height: 1.45;
      }
      dd.to {
        font-size: var(--size);
      }
      a {
        display: inline-flex;
        align-items: center;
        min-height: var(--touch);
        min-width: var(--touch);
        justify-content: flex-end;
      }
      @media (max-width: 559px) {
        dl > div {
          grid-template-columns: minmax(0, 1fr) auto;
          padding: var(--space-3) 0;
        }
        dt {
          grid-column: 1 / -1;
        }
      }
      @media print {
        dd.to {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    watched: (store) => [store.scenario, store.reading, ...dayValues(store)],
  });

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be said of the day until the cell is put right.', (filed) =>
      this.said(filed),
    );
  }

  private said(filed: Scenario): Said {
    const { store } = this.page;
    const opened = openedFor(store, filed, dayAbout(store));
    const lines = morningLines(filed, entriesOf(store), opened);
    return {
      answer: morningAnswer(opened),
      cautions: [opened.scenario],
      body: html`${opened.unused.map((sentence) => html`<p class="wrong" role="status">${sentence}</p>`)}
        <p class="muted">${filed.name}.</p>
        <dl>${lines.map((line) => row(line))}</dl>
        ${opened.plan === null ? html`<p><a href=${addressOf('crew')}>Plan its crew, and put it into the day.</a></p>` : nothing}`,
    };
  }
}

const row = ({ what, text, to }: MorningLine): TemplateResult =>
  html`<div>
    <dt>${what}</dt>
    <dd>${text}</dd>
    <dd class="to">
      <a
        href=${to === 'cell' ? addressOf('cell', 'calendar') : addressOf(to)}
        aria-label="${what}: to ${WORDS[to]}"
        >${WORDS[to]}</a
      >
    </dd>
  </div>`;

const WORDS: Record<MorningLine['to'], string> = {
  crew: 'Crew',
  now: 'Now',
  handover: 'Handover',
  log: 'Log',
  cell: 'Cell',
};

declare global {
  interface HTMLElementTagNameMap {
    'cw-morning': CwMorning;
  }
}

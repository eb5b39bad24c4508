import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { handoverSaid, noteWithHolds, promisedWords } from '../../../src/report/day-words.ts';
import { handoverPage, type HandoverTold } from '../../../src/report/handover.ts';
import { dayWords, nextWorkingDay } from '../../../src/scenario/calendar.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { checkHandover } from '../../../src/today/check-now.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import type { NowState } from '../../../src/today/state.ts';
import { printSize, toHtml } from '../../../src/document/document-html.ts';
import { base } from '../../parts/style.ts';
import { dayAbout, openedFor } from '../../shell/day.ts';
import { addressOf } from '../../shell/route.ts';
import { ownFaces } from '../../parts/typefaces.ts';
import { fileName, saveFile } from '../../store/files.ts';
import { blocks, blockStyle } from '../brief/blocks.ts';
import { keepInBook, takeOut } from '../common/kept-in-book.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { countForm, countStyle } from '../now/count-form.ts';
import { CountDraft, isEmpty } from '../now/draft.ts';
import { faultsOf, keptStyle } from '../now/kept-counts.ts';
import type { PageElement } from '../page.ts';
import { batches, batchStyle } from './batches.ts';

/** What do I hand over? One printed sheet with lines to sign; it opens the next working day. */
@customElement('cw-handover')
export class CwHandover extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    countStyle,
    keptStyle,
    batchStyle,
    css`
      .do {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-3);
        margin: var(--space-4) 0;
      }
      section {
        margin-top: var(--space-8);
      }
      @media print {
        .do,
        .count,
        section {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    ofDay: true,
    ask: (scenario) => void this.draft.open(scenario),
  });
  private readonly draft = new CountDraft(this);

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be handed over until the cell is put right.', (scenario) =>
      this.said(scenario, this.draft.now!),
    );
  }

  private said(scenario: Scenario, now: NowState): Said {
    const { store } = this.page;
    const filed = store.scenario.get()!;
    const opened = openedFor(store, filed, dayAbout(store));
    const checked = checkHandover(scenario, now);
    const told = this.told(scenario, opened, checked.kind === 'fine' ? checked.now : now);
    const page = handoverPage(told);
    const heading = page.blocks[0];
    const uncounted = isEmpty(now) && opened.view.handover === null;
    return {
      answer: uncounted
        ? 'Nothing is counted yet: count in what is in the cell.'
        : heading?.kind === 'heading'
          ? heading.text
          : page.title,
      cautions: [],
      body: html`${faultsOf(checked.kind === 'wrong' ? checked.faults : [])} ${inBook(opened, filed)}
        ${uncounted ? nothing : blocks(page.blocks.slice(1), printSize(page))}
        ${uncounted ? nothing : this.acts(filed, opened, checked.kind === 'fine' ? checked.now : null, told)}
        ${batches(store, scenario, opened)}
        <div slot="controls" class="count">
          ${countForm(scenario, { now, note: this.draft.note }, (counted, note) => this.draft.set(counted, note))}
        </div>`,
    };
  }

  private told(scenario: Scenario, opened: OpenedDay, now: NowState): HandoverTold {
    return {
      scenario,
      now,
      promised: promisedWords(opened),
      events: null,
      note: noteWithHolds(opened, this.draft.note),
      day: dayWords(opened.day),
      signed: true,
    };
  }

  private acts(filed: Scenario, opened: OpenedDay, now: NowState | null, told: HandoverTold): TemplateResult {
    const { store } = this.page;
    const { handover } = opened.view;
    const next = dayWords(nextWorkingDay(filed, opened.day));
    const hand = (): void => {
      const content = handoverSaid(now!, { promised: told.promised, note: this.draft.note });
      void keepInBook(
        store,
        [{ day: opened.day, kind: 'handover', content }],
        `Handed over. ${next} opens with it.`,
      );
    };
    return html`<div class="do">
      <button type="button" class="firm" ?disabled=${now === null} @click=${hand}>
        ${handover === null ? 'hand it over' : 'hand it over instead'}
      </button>
      <button type="button" ?disabled=${now === null} @click=${() => window.print()}>print</button>
      <button
        type="button"
        ?disabled=${now === null}
        @click=${() =>
          void ownFaces().then((faces) =>
            saveFile(
              `${fileName(store).replace(/\.json$/, '')}-handover.html`,
              toHtml(handoverPage(told), { faces }),
              'text/html',
            ),
          )}
      >
        the sheet as a file
      </button>
      ${
        handover === null
          ? nothing
          : html`<button
                type="button"
                @click=${() => void takeOut(store, [handover.entry.id], 'The handover is taken back.')}
              >
                take the handover back
              </button>
              <a class="button" href=${addressOf('log')}>write down what came</a>`
      }
    </div>`;
  }
}

/** What the book has of it already. */
function inBook({ day, view: { handover } }: OpenedDay, filed: Scenario): TemplateResult | typeof nothing {
  if (handover === null) return nothing;
  const next = dayWords(nextWorkingDay(filed, day));
  return html`<p class="muted">
    Handed over at ${handover.content.at}, written down ${handover.entry.at.slice(11, 16)}; ${next} opens with
    it.
  </p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-handover': CwHandover;
  }
}

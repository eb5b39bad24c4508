import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { version } from '../../../package.json';
import {
  buildBrief,
  makeBrief,
  picturesOf,
  type BriefData,
  type BriefQuestion,
  type BriefStage,
} from '../../../src/report/brief.ts';
import { daySentence } from '../../../src/report/day-words.ts';
import type { Page } from '../../../src/document/document.ts';
import { printSize, toHtml } from '../../../src/document/document-html.ts';
import { onOneSheet, SAFE_ON_SCREEN } from '../../../src/document/one-sheet.ts';
import { coverageOfBook } from '../../../src/timing/log-book.ts';
import { logFor } from '../log/kept.ts';
import { toMarkdown } from '../../../src/document/document-markdown.ts';
import { counted, inSentence, ordinal, singular, withArticle } from '../../../src/words/words.ts';
import { resolvePlant } from '../../../src/scenario/resolve.ts';
import { plantOf, shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/progress.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { ownFaces } from '../../parts/typefaces.ts';
import { savePicture } from '../../parts/hand-on.ts';
import { fileName, saveFile } from '../../store/files.ts';
import { reasonSums } from '../../work/reasons.ts';
import { lastOf, nowAndThen } from '../../work/same.ts';
import { aTurn } from '../../work/turn.ts';
import { PageController, type Said } from '../common/page-controller.ts';
import { todayHere } from '../common/today.ts';
import { halfOf } from '../common/progress-line.ts';
import { workLine } from '../common/work-line.ts';
import { summarize, type StudySummary } from '../../../src/study/summary.ts';
import { shownOf } from '../compare/shown.ts';
import type { PageElement } from '../page.ts';
import { blocks, blockStyle } from './blocks.ts';
import { keepWords, wordsFor, type BriefWords } from './kept.ts';

const STAGES: Record<BriefStage, string> = {
  question: 'Running the question.',
  then: 'Trying one more of each thing, to see what holds you back then.',
  usual: 'Running usual days in a row, which what is bought is priced on.',
  staircase: 'Taking the losses apart.',
  inputs: 'Moving every input, to see what would change the answer.',
  ledger: 'Trying everything that can be done, the cheapest first.',
};
/** What the page is made of, in the order it comes to stand. */
const PARTS: { stages: BriefStage[]; word: string }[] = [
  {
    stages: ['question', 'then', 'usual'],
    word: 'the answer, when it pays back, and what holds you back then',
  },
  { stages: ['staircase'], word: 'why: what averages leave out, loss by loss' },
  { stages: ['inputs'], word: 'what would change the answer' },
  { stages: ['ledger'], word: 'what to do first, what to buy then, what to leave' },
];
const BETWEEN_LOOKS = 100;

interface Told {
  data: BriefData;
  scenario: Scenario;
  whole: boolean;
}

/** One page to carry upstairs. */
@customElement('cw-brief')
export class CwBrief extends LitElement implements PageElement {
  static override styles = [
    base,
    blockStyle,
    css`
      .room {
        min-height: 420px;
      }
      .coming {
        border-top: 1px solid var(--hairline);
        margin-top: var(--space-6);
        padding-top: var(--space-3);
      }
      .coming h2 {
        font-size: var(--size-large);
        font-weight: 600;
      }
      .coming ul {
        margin: var(--space-2) 0 0;
        padding-left: 1.1em;
      }
      .controls {
        display: grid;
        gap: var(--space-6);
      }
      .files {
        display: flex;
        flex-wrap: wrap;
        gap: var(--space-2) var(--space-3);
      }
      .paper {
        display: none;
      }
      @media print {
        .paper {
          display: block;
        }
        .screen {
          display: none;
        }
        :host {
          --size-answer: 15pt;
        }
        cw-progress,
        .coming,
        .stage {
          display: none;
        }
      }
    `,
  ];
  readonly page: PageController = new PageController(this, {
    opened: (store) => (this.words = wordsFor(store.id)),
    ofDay: true,
    ask: (scenario) => this.ask(scenario),
  });
  @state() private words: BriefWords = { question: '', title: '', notes: '' };
  @state() private stage: BriefStage = 'question';
  @state() private look: StudySummary | null = null;
  private readonly brief = this.page.live<Told>();

  private ask(scenario: Scenario): void {
    const question = this.question(scenario);
    this.brief.askOf([scenario, JSON.stringify(question)], () => ({
      key: JSON.stringify([question, scenario]),
      run: async ({ runner, signal, show }) => {
        const data = await makeBrief(scenario, question, runner, {
          signal,
          sums: reasonSums,
          onStage: (stage) => (this.stage = stage),
          // Drawn in a turn of its own: the next part is begun meanwhile.
          onPart: (part) => void aTurn().then(() => show({ data: part, scenario, whole: false })),
          onLook: nowAndThen(BETWEEN_LOOKS, (look) => (this.look = summarize(look, false))),
        });
        await aTurn();
        show({ data, scenario, whole: true });
      },
    }));
  }

  private question(scenario: Scenario): BriefQuestion {
    const chosen = choicesOf(scenario).some(({ value }) => value === this.words.question)
      ? this.words.question
      : choicesOf(scenario)[0]!.value;
    if (chosen === 'options')
      return { kind: 'options', ids: shownOf(this.page.store.id, plantOf(scenario).options) };
    return chosen === 'limits'
      ? { kind: 'limits' }
      : { kind: 'one more', gear: chosen.slice('gear '.length) };
  }

  /** The page as it was last put together: most drawings only show how far the next part has come. */
  private readonly put = lastOf(
    (told: Told | null, words: BriefWords, store: CellStore, day: string): Page | null => {
      if (told === null) return null;
      const { data, scenario } = told;
      if (data.answer.kind !== 'crew' && countOf(data) < 2) return null;
      return buildBrief({
        scenario,
        data,
        again: {
          file: fileName(store),
          version,
          seed: resolvePlant(scenario).seed,
          command: null,
          made: todayHere(),
        },
        record: coverageOfBook(logFor(store)),
        title: words.title,
        notes: [day, words.notes].filter((one) => one !== '').join(' '),
      });
    },
  );

  private putTogether(): Page | null {
    const { day } = this.page;
    return this.put(this.brief.answer, this.words, this.page.store, day === null ? '' : daySentence(day));
  }

  protected override render(): TemplateResult {
    return this.page.sheet('Nothing can be told until the cell is put right.', (scenario) =>
      this.said(scenario),
    );
  }

  private said(scenario: Scenario): Said {
    const page = this.putTogether();
    const heading = page?.blocks.find((block) => block.kind === 'heading' && block.level === 1);
    const rest = page?.blocks.filter((block, i) => i > 0 && block !== heading) ?? [];
    return {
      ...(page === null ? {} : { question: page.title }),
      answer: heading?.kind === 'heading' ? heading.text : 'The page is being put together.',
      // The page has its cautions among its blocks, and its day among the notes.
      cautions: [],
      ...(page === null ? {} : { saysDay: true }),
      body: html`${this.progress(scenario)} ${page === null ? nothing : this.asShownAndPrinted(page, rest)}
        ${this.coming(scenario, page !== null)}
        <div slot="controls" class="controls">${this.controls(scenario, page)}</div>`,
    };
  }

  /** In full on the screen; on paper as much as one sheet holds. */
  private asShownAndPrinted(page: Page, rest: Page['blocks']): TemplateResult {
    const sheet = onOneSheet(page, undefined, SAFE_ON_SCREEN);
    if (sheet === page) return blocks(rest, printSize(page));
    const paper = sheet.blocks.filter(
      (block, i) => i > 0 && !(block.kind === 'heading' && block.level === 1),
    );
    return html`<div class="screen">${blocks(rest, printSize(page))}</div>
      <div class="paper">${blocks(paper, printSize(sheet))}</div>`;
  }

  private progress(scenario: Scenario): TemplateResult | typeof nothing {
    const { look } = this;
    const running = html`<cw-progress
        running
        .half=${look === null ? NaN : halfOf(look)}
        .wanted=${plantOf(scenario).study.precision}
        .shifts=${look?.count ?? 0}
      ></cw-progress>
      <p class="muted small stage" role="status">${STAGES[this.stage]}</p>`;
    return workLine(this.brief, {
      running,
      stopped: 'Stopped. What stands here may be from before the last change.',
      again: 'run it again',
    });
  }

  /** What the page still waits for, so that nobody carries half of it upstairs. */
  private coming(scenario: Scenario, begun: boolean): TemplateResult | typeof nothing {
    if (!this.brief.running) return begun ? nothing : html`<div class="room"></div>`;
    const current = this.brief.current ? this.stage : 'question';
    // Options have a picture of their own that shows why.
    const parts =
      this.question(scenario).kind === 'options'
        ? PARTS.filter(({ stages }) => !stages.includes('staircase'))
        : PARTS;
    const left = parts.slice(
      Math.max(
        0,
        parts.findIndex(({ stages }) => stages.includes(current)),
      ),
    );
    return html`<section class="coming" aria-labelledby="coming">
      <h2 id="coming">Still to come</h2>
      <ul>
        ${left.map(({ word }, i) => html`<li>${word}${i === 0 ? html` <span class="muted">being run</span>` : nothing}</li>`)}
      </ul>
    </section>`;
  }

  private controls(scenario: Scenario, page: Page | null): TemplateResult {
    const whole = page !== null && (this.brief.answer!.whole || !this.brief.running);
    const choices = choicesOf(scenario);
    const value = choices.some((one) => one.value === this.words.question)
      ? this.words.question
      : choices[0]!.value;
    return html` <cw-choice
        label="The question"
        list
        .choices=${choices}
        value=${value}
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.keep({ question: event.detail.value })}
      ></cw-choice>
      <cw-text
        label="Title"
        .value=${this.words.title}
        placeholder="the question itself"
        most="160"
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.keep({ title: event.detail.value })}
      ></cw-text>
      <cw-text
        label="Notes"
        tall
        .value=${this.words.notes}
        placeholder="who was asked, what was left out"
        most="4000"
        hint="They stand on the page, before the cautions."
        @cw-change=${(event: PartEvent<'cw-change', string>) => this.keep({ notes: event.detail.value })}
      ></cw-text>
      <div class="files" role="group" aria-label="Take it along">
        <button type="button" class="firm" ?disabled=${!whole} @click=${() => print()}>print</button>
        <button type="button" ?disabled=${!whole} @click=${() => this.save('html')}>as HTML</button>
        <button type="button" ?disabled=${!whole} @click=${() => this.save('md')}>as Markdown</button>
        <button
          type="button"
          ?disabled=${!whole || picturesOf(page).length === 0}
          @click=${() => this.save('svg')}
        >
          picture (SVG)
        </button>
        <button
          type="button"
          ?disabled=${!whole || picturesOf(page).length === 0}
          @click=${() => this.save('png')}
        >
          picture (PNG)
        </button>
      </div>`;
  }

  private keep(change: Partial<BriefWords>): void {
    this.words = { ...this.words, ...change };
    const all = keepWords(this.page.store.id, this.words);
    this.words = all ?? this.words;
    if (all === null)
      say('This browser keeps nothing: title and notes last as long as this page.', { kind: 'wrong' });
  }

  private save(kind: 'html' | 'md' | 'svg' | 'png'): void {
    const page = this.putTogether();
    if (page === null) return;
    const stem = `${fileName(this.page.store).replace(/\.json$/, '')}-brief`;
    switch (kind) {
      case 'html':
        void ownFaces().then((faces) =>
          saveFile(`${stem}.html`, toHtml(onOneSheet(page), { faces }), 'text/html'),
        );
        return;
      case 'md':
        return saveFile(`${stem}.md`, toMarkdown(page), 'text/markdown');
      case 'svg':
      case 'png':
        for (const { file, svg } of picturesOf(page))
          void savePicture(svg, `${stem}-${file.replace(/\.svg$/, '')}`, kind);
    }
  }
}

const countOf = ({ answer }: BriefData): number => {
  switch (answer.kind) {
    case 'one more':
      return answer.one.study.count;
    case 'options':
      return answer.study.count;
    case 'limits':
      return answer.each.study.count;
    case 'crew':
      return answer.plan.result.count;
  }
};

/** Gear that stays with the unit (clamp sets) comes first. */
function choicesOf(scenario: Scenario): { value: string; label: string }[] {
  const shift = shiftOf(scenario);
  const taken = shift.steps.flatMap((step) => step.takes).map(({ gear }) => gear);
  const gear = shift.gear
    .filter((one) => one.kind === 'gear')
    .sort((a, b) => Number(taken.includes(b.id)) - Number(taken.includes(a.id)));
  const options = plantOf(scenario).options.length;
  return [
    ...gear.map((one) => ({
      value: `gear ${one.id}`,
      label: `What does ${withArticle(`${ordinal(one.count + 1)} ${singular(inSentence(one.name))}`)} do?`,
    })),
    ...(options === 0
      ? []
      : [
          {
            value: 'options',
            label: `Which of the ${counted(Math.min(8, options), 'option')} side by side?`,
          },
        ]),
    { value: 'limits', label: 'What holds us back?' },
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-brief': CwBrief;
  }
}

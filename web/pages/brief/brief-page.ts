import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { version } from '../../../package.json';
import {
  buildBrief,
  makeBrief,
  picturesOf,
  type BriefData,
  type BriefQuestion,
  type BriefStage,
} from '../../../src/report/brief.ts';
import type { Page } from '../../../src/document/document.ts';
import { printSize, toHtml } from '../../../src/document/document-html.ts';
import { toMarkdown } from '../../../src/document/document-markdown.ts';
import { counted, inSentence, ordinal, singular, withArticle } from '../../../src/words/words.ts';
import { DEFAULT_SEED } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import type { PartEvent } from '../../parts/events.ts';
import { say } from '../../parts/notice.ts';
import '../../parts/progress.ts';
import '../../parts/sheet.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { fileName, saveFile } from '../../store/files.ts';
import { Watch } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { aTurn } from '../../work/turn.ts';
import { faultsLine } from '../common/faults.ts';
import { halfOf } from '../common/progress-line.ts';
import { summarize, type StudySummary } from '../../../src/study/summary.ts';
import { shownOf } from '../compare/shown.ts';
import { blocks, blockStyle } from './blocks.ts';
import { keepWords, wordsFor, type BriefWords } from './kept.ts';

const STAGES: Record<BriefStage, string> = {
  question: 'Running the question.',
  then: 'Trying one more of each thing, to see what holds you back then.',
  staircase: 'Taking the losses apart.',
  inputs: 'Moving every input, to see what would change the answer.',
};
/** What the page is made of, in the order it comes to stand. */
const PARTS: { stages: BriefStage[]; word: string }[] = [
  { stages: ['question', 'then'], word: 'the answer, when it pays back, and what holds you back then' },
  { stages: ['staircase'], word: 'why: what averages leave out, loss by loss' },
  { stages: ['inputs'], word: 'what would change the answer' },
];
const BETWEEN_LOOKS = 100;

/** One page to carry upstairs. */
@customElement('cw-brief')
export class CwBrief extends LitElement {
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
      @media print {
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
  @property({ attribute: false }) store!: CellStore;
  @property({ attribute: false }) rest: string[] = [];
  @state() private words: BriefWords = { question: '', title: '', notes: '' };
  @state() private stage: BriefStage = 'question';
  @state() private look: StudySummary | null = null;
  private readonly brief = new Live<{ data: BriefData; scenario: Scenario; whole: boolean }>(this);
  private watch: Watch | null = null;
  private asked: unknown[] = [];

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('store')) {
      if (this.watch !== null) {
        this.watch.hostDisconnected();
        this.removeController(this.watch);
      }
      this.watch = new Watch(this, this.store.scenario, this.store.reading);
      this.words = wordsFor(this.store.id);
    }
    const scenario = this.store.scenario.get();
    if (scenario !== null) this.ask(scenario);
  }

  private ask(scenario: Scenario): void {
    const question = this.question(scenario);
    const asked = [scenario, JSON.stringify(question)];
    if (asked.every((one, i) => one === this.asked[i])) return;
    this.asked = asked;
    this.brief.ask({
      key: JSON.stringify([question, scenario]),
      run: async ({ runner, signal, show }) => {
        let told = -Infinity;
        const data = await makeBrief(scenario, question, runner, {
          signal,
          onStage: (stage) => (this.stage = stage),
          // Drawn in a turn of its own: the next part is begun meanwhile.
          onPart: (part) => void aTurn().then(() => show({ data: part, scenario, whole: false })),
          onLook: (state) => {
            if (performance.now() - told < BETWEEN_LOOKS) return;
            this.look = summarize(state, false);
            told = performance.now();
          },
        });
        await aTurn();
        show({ data, scenario, whole: true });
      },
    });
  }

  private question(scenario: Scenario): BriefQuestion {
    const chosen = choicesOf(scenario).some(({ value }) => value === this.words.question)
      ? this.words.question
      : choicesOf(scenario)[0]!.value;
    if (chosen === 'options') return { kind: 'options', ids: shownOf(this.store.id, scenario.options ?? {}) };
    return chosen === 'limits'
      ? { kind: 'limits' }
      : { kind: 'one more', gear: chosen.slice('gear '.length) };
  }

  /** The page as it was last put together: most drawings only show how far the next part has come. */
  private put: { of: unknown[]; page: Page | null } | null = null;

  private page(): Page | null {
    const of = [this.brief.answer, this.words, this.store];
    if (this.put === null || of.some((one, i) => one !== this.put!.of[i]))
      this.put = { of, page: this.putTogether() };
    return this.put.page;
  }

  private putTogether(): Page | null {
    const { answer } = this.brief;
    if (answer === null) return null;
    const { data, scenario } = answer;
    if (data.answer.kind !== 'crew' && countOf(data) < 2) return null;
    return buildBrief({
      scenario,
      data,
      again: { file: fileName(this.store), version, seed: scenario.seed ?? DEFAULT_SEED, command: null },
      title: this.words.title,
      notes: this.words.notes,
    });
  }

  protected override render(): TemplateResult {
    const scenario = this.store.scenario.get();
    const page = this.page();
    if (scenario === null) {
      return html`<cw-sheet
        question="What do I tell them upstairs?"
        answer="Nothing can be told until the cell is put right."
        >${faultsLine(this.store)}</cw-sheet
      >`;
    }
    const heading = page?.blocks.find((block) => block.kind === 'heading' && block.level === 1);
    const rest = page?.blocks.filter((block, i) => i > 0 && block !== heading) ?? [];
    return html`<cw-sheet
      question=${page?.title ?? 'What do I tell them upstairs?'}
      answer=${heading?.kind === 'heading' ? heading.text : 'The page is being put together.'}
      @cw-stop=${() => this.brief.stop()}
    >
      ${faultsLine(this.store)} ${this.progress(scenario)}
      ${page === null ? nothing : blocks(rest, printSize(page))} ${this.coming(scenario, page !== null)}
      <div slot="controls" class="controls">${this.controls(scenario, page)}</div>
    </cw-sheet>`;
  }

  private progress(scenario: Scenario): TemplateResult | typeof nothing {
    const { state } = this.brief;
    if (state.kind === 'failed')
      return html`<p class="wrong" role="alert">${state.message}</p>
        <button type="button" @click=${() => this.brief.again()}>run it again</button>`;
    if (state.kind === 'stopped')
      return html`<p class="muted">Stopped. What stands here may be from before the last change.</p>
        <button type="button" @click=${() => this.brief.again()}>run on</button>`;
    if (!this.brief.running) return nothing;
    const { look } = this;
    return html`<cw-progress
        running
        .half=${look === null ? NaN : halfOf(look)}
        .wanted=${scenario.study?.precision ?? 0.25}
        .shifts=${look?.count ?? 0}
      ></cw-progress>
      <p class="muted small stage" role="status">${STAGES[this.stage]}</p>`;
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
          the picture
        </button>
      </div>`;
  }

  private keep(change: Partial<BriefWords>): void {
    this.words = { ...this.words, ...change };
    if (!keepWords(this.store.id, this.words))
      say('This browser keeps nothing: title and notes last as long as this page.', { kind: 'wrong' });
  }

  private save(kind: 'html' | 'md' | 'svg'): void {
    const page = this.page();
    if (page === null) return;
    const stem = `${fileName(this.store).replace(/\.json$/, '')}-brief`;
    switch (kind) {
      case 'html':
        return saveFile(`${stem}.html`, toHtml(page), 'text/html');
      case 'md':
        return saveFile(`${stem}.md`, toMarkdown(page), 'text/markdown');
      case 'svg':
        for (const { file, svg } of picturesOf(page)) saveFile(file, svg, 'image/svg+xml');
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
  const taken = Object.values(scenario.steps)
    .flatMap((step) => step.takes ?? [])
    .map(({ gear }) => gear);
  const gear = Object.entries(scenario.gear ?? {}).sort(
    ([a], [b]) => Number(taken.includes(b)) - Number(taken.includes(a)),
  );
  const options = Object.keys(scenario.options ?? {}).length;
  return [
    ...gear.map(([id, one]) => ({
      value: `gear ${id}`,
      label: `What does ${withArticle(`${ordinal(one.count + 1)} ${singular(inSentence(one.name ?? id))}`)} do?`,
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

import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { staircasePicture, staircaseTable, type Size } from '../../../src/charts/index.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { settingsOf } from '../../../src/study/from-scenario.ts';
import { stairsPicture } from '../../../src/report/parts/staircase.ts';
import { stairSentences, startSentence } from '../../../src/words/loss-words.ts';
import { fluidCeiling } from '../../../src/study/ceilings/fluid-ceiling.ts';
import { runStaircase, STAIR_SHIFTS, type StaircaseResult } from '../../../src/study/staircase.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { Live, type Task } from '../../work/live.ts';
import { lastOf } from '../../work/same.ts';
import { footOf } from '../common/of-study.ts';

/**
 * `<cw-loss .scenario=${…} ?ready=${…}>`: from the most there could be down to what the shifts make; run
 * once the page is ready for it.
 */
@customElement('cw-loss')
export class CwLoss extends LitElement {
  static override styles = [
    base,
    css`
      section {
        margin-top: var(--space-12);
      }
      h2 {
        margin-bottom: var(--space-3);
      }
      .note {
        color: var(--muted);
        font-size: var(--size-small);
        margin-top: var(--space-3);
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @property({ type: Boolean }) ready = false;
  private readonly stairs = new Live<StaircaseResult>(this);
  private readonly drawn = lastOf((stairs: StaircaseResult) => {
    const data = stairsPicture(stairs, footOf(stairs.summary, ''));
    return { draw: (size: Size) => staircasePicture(data, size), table: staircaseTable(data) };
  });

  protected override willUpdate(changed: PropertyValues<this>): void {
    void changed;
    if (this.ready) this.stairs.askOf([this.scenario], () => staircaseTask(this.scenario));
  }

  protected override render(): TemplateResult | typeof nothing {
    const stairs = this.stairs.answer;
    if (stairs === null || !Number.isFinite(stairs.most)) return nothing;
    const { draw, table } = this.drawn(stairs);
    const { good: ceiling } = fluidCeiling(shiftsOf(this.scenario)[0]!);
    return html`<section aria-labelledby="loss">
      <h2 id="loss">From the most you could make to what you make</h2>
      <cw-picture .draw=${draw} .table=${table}></cw-picture>
      <p class="note">${[startSentence(stairs, ceiling), ...stairSentences(stairs)].join(' ')}</p>
    </section>`;
  }
}

/** Of one shift; several in a row are not taken apart. */
function staircaseTask(scenario: Scenario): Task<StaircaseResult> | null {
  if (shiftsOf(scenario).length > 1) return null;
  return {
    key: JSON.stringify([shiftsOf(scenario), settingsOf(scenario)]),
    run: async ({ runner, signal, show }) => {
      const settings = {
        ...settingsOf(scenario),
        first: STAIR_SHIFTS,
        most: STAIR_SHIFTS,
        precision: Infinity,
      };
      const stairs = await runStaircase(shiftsOf(scenario)[0]!, settings, runner, signal);
      if (stairs !== null) show(stairs);
    },
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-loss': CwLoss;
  }
}

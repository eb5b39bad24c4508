import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { staircasePicture, staircaseTable, type Size, type Staircase } from '../../../src/charts/index.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { settingsOf } from '../../../src/study/from-scenario.ts';
import { runStaircase, type StaircaseResult } from '../../../src/study/staircase.ts';
import '../../parts/picture.ts';
import { base } from '../../parts/style.ts';
import { Live, type Task } from '../../work/live.ts';
import { lastOf } from '../../work/same.ts';
import { footOf } from '../common/of-study.ts';

/**
 * `<cw-loss .scenario=${…} ?ready=${…}>`: from the spreadsheet's number down to what the shifts make; run
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
    const data = staircaseOf(stairs);
    return { draw: (size: Size) => staircasePicture(data, size), table: staircaseTable(data) };
  });

  protected override willUpdate(changed: PropertyValues<this>): void {
    void changed;
    if (this.ready) this.stairs.askOf([this.scenario], () => staircaseTask(this.scenario));
  }

  protected override render(): TemplateResult | typeof nothing {
    const stairs = this.stairs.answer;
    if (stairs === null || !Number.isFinite(stairs.spreadsheet)) return nothing;
    const { draw, table } = this.drawn(stairs);
    return html`<section aria-labelledby="loss">
      <h2 id="loss">From the spreadsheet’s number to ours</h2>
      <cw-picture .draw=${draw} .table=${table}></cw-picture>
      <p class="note">
        Each loss is measured with all those after it put right; in another order they would be of other
        sizes, their sum the same.
      </p>
    </section>`;
  }
}

/** Of one shift; several in a row are not taken apart. */
function staircaseTask(scenario: Scenario): Task<StaircaseResult> | null {
  if (shiftsOf(scenario).length > 1) return null;
  return {
    key: JSON.stringify([shiftsOf(scenario), settingsOf(scenario)]),
    run: async ({ runner, signal, show }) => {
      const stairs = await runStaircase(shiftsOf(scenario)[0]!, settingsOf(scenario), runner, signal);
      if (stairs !== null) show(stairs);
    },
  };
}

const WORDS: Record<string, string> = {
  'shared hands': 'hands shared between steps',
  'clamps waiting for hands': 'clamps waiting for hands',
  'full racks': 'full racks',
  variation: 'times that vary',
  'breaks and the first hour': 'breaks and the first hour',
  rework: 'rework and scrap',
};

function staircaseOf({ spreadsheet, treads, units, summary }: StaircaseResult): Staircase {
  return {
    title: 'From the spreadsheet’s number to ours',
    description: `${spreadsheet.toFixed(1)} by averages, ${units.estimate.toFixed(1)} in the shifts run; one loss at a time in between.`,
    treads: [
      { value: spreadsheet, word: 'a spreadsheet of averages' },
      ...treads.map(({ loss, units: value }) => ({
        value,
        word: WORDS[loss] ?? loss,
        ...(loss === 'clamps waiting for hands' ? { meaning: 'waiting' as const } : {}),
      })),
    ],
    foot: footOf(summary, 'good units a shift'),
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-loss': CwLoss;
  }
}

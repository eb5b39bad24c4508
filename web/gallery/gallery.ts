/**
 * Every part and picture on one page, for looking at and for the tests of the parts; never built into the
 * app.
 */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import * as pictures from '../../src/charts/index.ts';
import type { Time } from '../../src/duration/time.ts';
import '../parts/choice.ts';
import '../parts/clock.ts';
import { ask } from '../parts/dialog.ts';
import type { PartEvent } from '../parts/events.ts';
import { say } from '../parts/notice.ts';
import '../parts/number.ts';
import '../parts/order.ts';
import '../parts/picture.ts';
import '../parts/progress.ts';
import '../parts/sheet.ts';
import { base } from '../parts/style.ts';
import '../parts/text.ts';
import '../parts/time-curve.ts';
import '../parts/toggle.ts';
import '../shell/shell.ts';
import * as samples from './samples.ts';

const COVERS = ['unclamp', 'glue', 'clean'].map((id) => ({ id, label: id }));
const WORDS = ['Cell', 'Compare', 'Limits', 'Replay', 'Crew', 'Now', 'Log', 'Times', 'Brief'];

@customElement('cw-gallery')
export class CwGallery extends LitElement {
  static override styles = [
    base,
    css`
      section {
        margin-bottom: var(--space-16);
      }
      h2 {
        margin-bottom: var(--space-4);
      }
      .controls {
        display: grid;
        gap: var(--space-6);
      }
    `,
  ];
  @state() private log: string[] = [];
  /** As a page does: what a part has told is kept here and handed back to it. */
  @state() private time: Time = { mean: 14.5, cv: 0.3 };
  @state() private covers = COVERS;

  private readonly heard = (event: CustomEvent): void => {
    const place =
      (event.composedPath()[0] as HTMLElement).closest('[data-name]')?.getAttribute('data-name') ??
      (event.target as HTMLElement).dataset['name'] ??
      '';
    this.log = [...this.log, `${event.type} ${place} ${JSON.stringify(event.detail)}`];
  };

  protected override render(): TemplateResult {
    return html`<cw-shell
      day="2027-03-08"
      .pages=${WORDS.map((word) => ({ route: word.toLowerCase(), question: `What is ${word}?`, group: 'before' }))}
      page="compare"
      name="The demo shop (invented)"
      kept="kept"
      canUndo
    >
      <cw-sheet
        question="What if?"
        answer="A third clamp set adds 3.1 units a shift (2.8 to 3.4). Then fitting holds you back."
      >
        ${this.pictures()}
        <div
          slot="controls"
          class="controls"
          @cw-change=${this.heard}
          @cw-try=${this.heard}
          @cw-wrong=${this.heard}
        >
          ${this.controls()}
        </div>
        <pre slot="after" id="log" hidden>${this.log.join('\n')}</pre>
      </cw-sheet></cw-shell
    >`;
  }

  private pictures(): TemplateResult[] {
    const show = (
      name: string,
      draw: (size: pictures.Size) => string,
      table: pictures.Table,
    ): TemplateResult =>
      html`<section><cw-picture data-name=${name} .draw=${draw} .table=${table}></cw-picture></section>`;
    return [
      show('comparison', drawers.comparison, pictures.comparisonTable(samples.comparison)),
      html`<section>
        <cw-progress .half=${0.8} .wanted=${0.25} .shifts=${120} running></cw-progress>
      </section>`,
      show('lanes', drawers.lanes, pictures.lanesTable(samples.lanes)),
      show('minutes', drawers.minutes, pictures.minutesTable(samples.minutes)),
      show('day-lines', drawers.dayLines, pictures.dayLinesTable(samples.dayLines)),
      show('staircase', drawers.staircase, pictures.staircaseTable(samples.staircase)),
      show('fan', drawers.fan, pictures.fanTable(samples.fan)),
      show('limits', drawers.limits, pictures.limitsTable(samples.limits)),
      show('histogram', drawers.histogram, pictures.histogramTable(samples.histogram)),
      show('weeks', drawers.weeks, pictures.weeksTable(samples.weeks)),
    ];
  }

  private controls(): TemplateResult {
    return html` <cw-number
        data-name="sets"
        label="Clamp sets"
        .value=${2}
        unit="sets"
        least="0"
        most="50"
        whole
        to="8"
        hint="What ties one up: glue-up, cure, waiting for hands, unclamping."
      ></cw-number>
      <cw-number
        data-name="cure"
        label="Cure"
        .value=${30}
        unit="min"
        least="0"
        most="1000"
        hint="At least what the adhesive’s data sheet says."
      ></cw-number>
      <cw-number
        data-name="waiting"
        inline
        label="before “a step with a name of some length”"
        .value=${3}
        unit="pieces"
        least="0"
        most="50"
        whole
      ></cw-number>
      <cw-number
        data-name="tried"
        patient
        label="Clamps to try"
        .value=${2}
        least="0"
        most="50"
        whole
        bare
      ></cw-number>
      <cw-number
        data-name="cap"
        label="Overtime, at most"
        optional
        usual="60"
        .value=${null}
        unit="min"
        least="0"
        bare
      ></cw-number>
      <cw-clock data-name="start" label="Shift starts" value="06:00"></cw-clock>
      <cw-text data-name="name" label="Name" value="One more clamp set"></cw-text>
      <cw-choice
        data-name="end"
        label="At the end a piece in hand is"
        value="finish"
        .choices=${[
          { value: 'finish', label: 'finished' },
          { value: 'put down', label: 'put down' },
        ]}
      ></cw-choice>
      <cw-toggle
        data-name="whole"
        label="Finished before any break"
        hint="Glue does not wait."
        .value=${true}
      ></cw-toggle>
      <cw-order
        data-name="covers"
        label="Stands at, first choice first"
        .items=${this.covers}
        @cw-change=${(event: PartEvent<'cw-change', string[]>) => (this.covers = event.detail.value.map((id) => ({ id, label: id })))}
      ></cw-order>
      <cw-time-curve
        data-name="time"
        label="Fitting"
        .value=${this.time}
        @cw-change=${(event: PartEvent<'cw-change', Time>) => (this.time = event.detail.value)}
      ></cw-time-curve>
      <button
        id="say"
        @click=${() => say('“One more clamp set” removed.', { act: { label: 'undo', run: () => say('Back again.') } })}
      >
        say something
      </button>
      <button id="ask" @click=${this.asked}>ask something</button>`;
  }

  private readonly asked = async (): Promise<void> => {
    const yes = await ask({
      heading: 'Throw this cell away?',
      text: 'It has never been saved to a file.',
      yes: 'throw it away',
    });
    this.log = [...this.log, `asked ${yes}`];
  };
}

const drawers = {
  comparison: (size: pictures.Size) => pictures.comparisonPicture(samples.comparison, size),
  lanes: (size: pictures.Size) => pictures.lanesPicture(samples.lanes, size),
  minutes: (size: pictures.Size) => pictures.minutesPicture(samples.minutes, size),
  dayLines: (size: pictures.Size) => pictures.dayLinesPicture(samples.dayLines, size),
  staircase: (size: pictures.Size) => pictures.staircasePicture(samples.staircase, size),
  fan: (size: pictures.Size) => pictures.fanPicture(samples.fan, size),
  limits: (size: pictures.Size) => pictures.limitsPicture(samples.limits, size),
  histogram: (size: pictures.Size) => pictures.histogramPicture(samples.histogram, size),
  weeks: (size: pictures.Size) => pictures.weeksPicture(samples.weeks, size),
};

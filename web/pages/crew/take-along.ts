import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { version } from '../../../package.json';
import { writeCsv } from '../../../src/document/csv.ts';
import { toHtml } from '../../../src/document/document-html.ts';
import { onOneSheet } from '../../../src/document/one-sheet.ts';
import { buildBrief, crewQuestionOf, makeBrief } from '../../../src/report/brief.ts';
import { sheetRows } from '../../../src/report/crew-sheet.ts';
import { wallHtml } from '../../../src/report/wall-sheet.ts';
import { dayWords, shortDay } from '../../../src/scenario/calendar.ts';
import { resolvePlant } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { calendarFile, crewEvents } from '../../../src/staffing/calendar.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import { personDays } from '../../../src/staffing/sheet.ts';
import { base } from '../../parts/style.ts';
import { ownFaces } from '../../parts/typefaces.ts';
import { saveFile } from '../../store/files.ts';
import { Live } from '../../work/live.ts';
import { todayHere } from '../common/today.ts';
import { workLine } from '../common/work-line.ts';
import { wallOf } from './plan-blocks.ts';
import { crewStyle } from './style.ts';

/**
 * `<cw-crew-files .scenario=${…} .plan=${…} file="chair-works.json" day="2027-03-08">`: the plan on paper, as
 * a table, in a calendar, and as a page for upstairs. `file`: the cell's, that theirs are named after.
 */
@customElement('cw-crew-files')
export class CwCrewFiles extends LitElement {
  static override styles = [base, crewStyle];
  @property({ attribute: false }) scenario!: Scenario;
  @property({ attribute: false }) plan!: CrewPlan;
  @property() file = '';
  /** "2027-03-08": what the sheet is for. */
  @property() day = '';
  /** The plan is from before the last change: it is not handed on as if it held. */
  @property({ type: Boolean }) outdated = false;
  private readonly brief = new Live<string>(this);

  protected override render(): TemplateResult | typeof nothing {
    const { plan } = this;
    if (plan.kind === 'over the limit') return nothing;
    const stem = `${this.file.replace(/\.json$/, '')}-crew`;
    const { day, outdated } = this;
    const wall = (): void => saveFile(`${stem}.html`, wallHtml(wallOf(plan, dayWords(day))), 'text/html');
    const calendar = (): void =>
      saveFile(
        `${stem}.ics`,
        calendarFile(crewEvents({ day, cell: plan.cell, people: personDays(plan.sheet) }), {
          stamp: Date.now(),
          name: plan.cell,
        }),
        'text/calendar',
      );
    return html`<div class="files" role="group" aria-label="Take it along">
      <button type="button" ?disabled=${outdated} @click=${() => print()}>print</button>
      <button type="button" ?disabled=${outdated} @click=${wall}>sheet for the wall</button>
      <button
        type="button"
        ?disabled=${outdated}
        @click=${() => saveFile(`${stem}.csv`, writeCsv(sheetRows(plan.sheet)), 'text/csv')}
      >
        as a table (CSV)
      </button>
      <button type="button" ?disabled=${outdated} @click=${calendar}>calendar for ${shortDay(day)}</button>
      <button type="button" ?disabled=${outdated || this.brief.running} @click=${() => this.forUpstairs()}>
        ${this.brief.running ? 'being put together …' : 'brief for upstairs'}
      </button>
      ${workLine(this.brief, { again: 'put it together again' })}
    </div>`;
  }

  /** The plan on one page to carry upstairs, saved as soon as it is put together. */
  private forUpstairs(): void {
    const { scenario, plan, file } = this;
    this.brief.ask({
      key: `${JSON.stringify(plan.changes)} ${Date.now()}`,
      run: async ({ runner, signal, show }) => {
        const data = await makeBrief(scenario, crewQuestionOf(plan), runner, { signal });
        const page = buildBrief({
          scenario,
          data,
          again: { file, version, seed: resolvePlant(scenario).seed, command: null, made: todayHere() },
        });
        const html = toHtml(onOneSheet(page), { faces: await ownFaces() });
        saveFile(`${file.replace(/\.json$/, '')}-crew-brief.html`, html, 'text/html');
        show(page.title);
      },
    });
    this.requestUpdate();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-crew-files': CwCrewFiles;
  }
}

/** How far a study has come, under its picture. */
import { html, nothing, type TemplateResult } from 'lit';
import { studySure } from '../../../src/words/study-words.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import '../../parts/progress.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Live } from '../../work/live.ts';
import { knownSwitch } from './known-switch.ts';

export interface ProgressOf {
  live: Live<unknown>;
  study: StudySummary | null;
  /** Half-width wanted, units a shift. */
  wanted: number;
  /** What is done after it; empty when nothing is. */
  then?: string;
  /** The cell's, for the switch beside it. */
  store: CellStore;
}

export function progressLine({ live, study, wanted, store, then = '' }: ProgressOf): TemplateResult {
  const half = study === null ? NaN : halfOf(study);
  const failed = live.state.kind === 'failed' ? live.state.message : '';
  const over = live.state.kind === 'stopped' || live.state.kind === 'failed';
  return html`<cw-progress
      .half=${half}
      .wanted=${wanted}
      .shifts=${study?.count ?? 0}
      ?running=${live.running || then !== ''}
      ended=${study === null || study.count < 2 ? (over ? 'Stopped before there was anything to say.' : '') : studySure(study)}
    ></cw-progress>
    ${knownSwitch(store)} ${then === '' ? nothing : html`<p class="muted small">${then}</p>`}
    ${failed === '' ? nothing : html`<p class="wrong" role="alert">${failed}</p>`}
    ${over ? html`<button type="button" @click=${() => live.again()}>run on</button>` : nothing}`;
}

/** The widest that luck leaves of the ranges being decided on: what more runs narrow. */
export const halfOf = (study: StudySummary): number =>
  Math.max(...(study.pairs.length === 0 ? study.cases : study.pairs).map(({ good }) => good.luck));

/** What is said around the picture of the day: its sentence, the minute shown, what was waited for. */
import { html, nothing, type TemplateResult } from 'lit';
import { capitalized, counted, inSentence, plain } from '../../../src/words/words.ts';
import type { Chosen } from '../../../src/report/replay/chosen.ts';
import type { Looked } from './day.ts';
import {
  blockAt,
  blockWords,
  clockAt,
  lengthAt,
  longestWaits,
  waitedForHands,
  whyWords,
  type Told,
} from './told.ts';

/** "A typical shift: 20 good pieces by 14:30, of 22 due. Clamp sets waited 48 minutes for hands." */
export function answerWords(told: Told, { kind, replication }: Chosen): string {
  const { replay, shift } = told;
  const name = kind === '' ? `Shift number ${plain(replication + 1)}` : `A ${kind} shift`;
  const due = shift.target === null ? '' : `, of ${shift.target} due`;
  const waited = Math.round(waitedForHands(told));
  const first = told.lanes.find((lane) => lane.kind === 'gear');
  const gear =
    first === undefined
      ? ''
      : waited === 0
        ? ' Nothing in clamps waited for hands.'
        : ` ${capitalized(told.lanes.filter(({ kind: of }) => of === 'gear').length === 1 ? 'The clamps' : 'The clamps, together,')} waited ${counted(waited, 'minute')} for hands.`;
  return `${name}: ${counted(replay.goods.length, 'good piece')} by ${clockAt(shift, replay.ends)}${due}.${gear}`;
}

/** What stands where at the minute, in words. */
export function atMinute(told: Told, at: number): TemplateResult {
  const good = told.replay.goods.filter((one) => one <= at).length;
  return html`<div>
    <h2 class="at">At ${clockAt(told.shift, at)}</h2>
    <p class="small">${counted(good, 'good piece')} so far.</p>
    <dl>
      ${told.lanes.map(
        (lane) =>
          html`<div>
            <dt>${lane.name}</dt>
            <dd>${blockAt(lane, at)?.words ?? ''}</dd>
          </div>`,
      )}
      ${told.lines.map(
        (line) =>
          html`<div>
            <dt>before ${inSentence(line.name)}</dt>
            <dd>${lengthAt(line, at)}${line.rack === null ? '' : ` of ${line.rack}`}</dd>
          </div>`,
      )}
    </dl>
  </div>`;
}

/** What the stretch looked at was, and why somebody was waiting. */
export function why(told: Told, looked: Looked | null): TemplateResult {
  const lane = looked === null ? undefined : told.lanes[looked.lane];
  const block = looked === null ? undefined : lane?.blocks[looked.block];
  if (lane === undefined || block === undefined)
    return html`<p class="muted">
      Touch a stretch of a lane, or go through it with the arrow keys: what it was, and why somebody was
      waiting, is said here.
    </p>`;
  return html`<p><b>${blockWords(told, lane, block)}</b></p>
    <p>${whyWords(told, lane, block)}</p>`;
}

/** The longest waits; `look`: at one of them. */
export function longest(told: Told, look: (looked: Looked) => void): TemplateResult | typeof nothing {
  const waits = longestWaits(told);
  return waits.length === 0
    ? nothing
    : html`<section>
        <h2>Who waited longest, and why</h2>
        <ol class="waits">
          ${waits.map(
            ({ lane, block }) =>
              html`<li>
                <button type="button" @click=${() => look({ lane, block })}>
                  ${blockWords(told, told.lanes[lane]!, told.lanes[lane]!.blocks[block]!)}
                  <span class="muted"
                    >${whyWords(told, told.lanes[lane]!, told.lanes[lane]!.blocks[block]!)}</span
                  >
                </button>
              </li>`,
          )}
        </ol>
      </section>`;
}

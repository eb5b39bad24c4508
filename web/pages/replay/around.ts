/** What is said around the picture of the day: its sentence, the minute shown, what was waited for. */
import { html, nothing, type TemplateResult } from 'lit';
import { capitalized, counted, inSentence } from '../../../src/words/words.ts';
import { shownName, type Chosen } from '../../../src/report/replay/chosen.ts';
import {
  DEAREST,
  type Stand,
  standsOf,
  standWords,
  whyLines,
  type Worth,
} from '../../../src/report/replay/stands.ts';
import type { Looked } from './day.ts';
import { blockAt, blockWords, clockAt, lengthAt, waitedForHands, whyWords, type Told } from './told.ts';

/** "A typical shift: 20 good pieces by 14:30, of 22 due. Clamp sets waited 48 minutes for hands." */
export function answerWords(told: Told, which: Chosen, inARow: { shifts: number; good: number }): string {
  const { replay, shift } = told;
  const name = shownName(which, inARow, shift.name);
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

/** What the stretch looked at was, and why it stood: the same words as in the list. */
export function why(told: Told, looked: Looked | null): TemplateResult {
  const lane = looked === null ? undefined : told.lanes[looked.lane];
  const block = looked === null ? undefined : lane?.blocks[looked.block];
  if (lane === undefined || block === undefined)
    return html`<p class="muted">
      Touch a stretch of a lane, or go through it with the arrow keys: what it was, and why somebody was
      waiting, is said here. Alt ↓ and Alt ↑ go from cause to cause, the dearest first.
    </p>`;
  const stand = standsIn(told, 0).find(
    ({ kind, index, item, from, to }) =>
      kind === lane.kind &&
      index === lane.index &&
      item === lane.item &&
      from < block.to - 1e-9 &&
      to > block.from + 1e-9,
  );
  const lines = stand === undefined ? [whyWords(told, lane, block)] : whyLines(stand, told.shift);
  return html`<p><b>${blockWords(told, lane, block)}</b></p>
    ${lines.map((line) => html`<p>${line}</p>`)}`;
}

const MOST_STANDS = 9;

const standsIn = ({ shift, replay }: Told, least?: number): Stand[] => standsOf(shift, replay.why, least);

/** The lane and block in which a stretch begins. */
export function lookedAt(told: Told, stand: Stand): Looked | null {
  const lane = told.lanes.findIndex(
    ({ kind, index, item }) => kind === stand.kind && index === stand.index && item === stand.item,
  );
  const block = told.lanes[lane]?.blocks.findIndex(({ to }) => to > stand.from + 1e-9) ?? -1;
  return block < 0 ? null : { lane, block };
}

/** What stood, the dearest first, each with its causes; arrow keys go from one to the next. */
export function longest(
  told: Told,
  worth: Worth,
  at: Looked | null,
  look: (looked: Looked) => void,
): TemplateResult | typeof nothing {
  const stands = shownStands(told);
  if (stands.length === 0) return nothing;
  return html`<section>
    <h2>${DEAREST}</h2>
    <ol class="waits" @keydown=${toNeighbor}>
      ${stands.map((stand) => {
        const looked = lookedAt(told, stand);
        return html`<li>
          <button
            type="button"
            aria-current=${isSame(looked, at) ? 'true' : nothing}
            ?disabled=${looked === null}
            @click=${() => looked !== null && look(looked)}
          >
            ${standWords(stand, told.shift, worth)}
            <span class="muted">${whyLines(stand, told.shift).join(' ')}</span>
          </button>
        </li>`;
      })}
    </ol>
  </section>`;
}

const isSame = (one: Looked | null, other: Looked | null): boolean =>
  one !== null && one.lane === other?.lane && one.block === other.block;

const shownStands = (told: Told): Stand[] => standsIn(told).slice(0, MOST_STANDS);

/** The stretch after, or before, the one that is looked at, in the order of the list; round and round. */
export function nextCause(told: Told, at: Looked | null, by: 1 | -1): Looked | null {
  const all = shownStands(told)
    .map((stand) => lookedAt(told, stand))
    .filter((looked) => looked !== null);
  const here = all.findIndex((one) => isSame(one, at));
  const next = here < 0 ? (by === 1 ? 0 : all.length - 1) : here + by;
  return all.at(next % Math.max(1, all.length)) ?? null;
}

/** Looks at the cause after, or before, the one that has the focus. */
function toNeighbor(event: KeyboardEvent): void {
  if (event.altKey || (event.key !== 'ArrowDown' && event.key !== 'ArrowUp')) return;
  const item = (event.target as HTMLElement).closest('li');
  const to = event.key === 'ArrowDown' ? item?.nextElementSibling : item?.previousElementSibling;
  const button = to?.querySelector('button');
  if (button === null || button === undefined) return;
  event.preventDefault();
  button.focus();
  button.click();
}

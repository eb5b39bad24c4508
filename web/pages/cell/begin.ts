/**
 * For a cell that has hardly begun: all that has to be asked, in one place, in the order in which people tell
 * it. What is still missing is said, and no number before it is there.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import { STARTS } from '../../../src/scenario/own/starts.ts';
import { missingIn } from '../../../src/scenario/own/own-cell.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/clock.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/text.ts';
import { NEW_CELL } from '../../shell/new-cell.ts';
import { offerMovedDay } from './moved-day.ts';
import { missingWords } from './young.ts';
import type { CellStore } from '../../store/cell-store.ts';
import './crew-sheet.ts';
import {
  confirmTimes,
  isGuess,
  pasteSteps,
  putMinutes,
  putNames,
  putStart,
  putTarget,
  usualMinutes,
} from './own-edits.ts';

interface Beginning {
  store: CellStore;
  draft: Scenario;
  /** What could not be read of a pasted list. */
  unread: string[];
  setUnread(lines: string[]): void;
  putAway(): void;
  /** To the answer of the first question people ask. */
  askOneMore(): void;
}

export function beginning({
  store,
  draft,
  unread,
  setUnread,
  putAway: away,
  askOneMore,
}: Beginning): TemplateResult {
  const missing = missingIn(draft);
  const guesses = Object.values(draft.steps).filter(isGuess).length;
  const named = Object.keys(draft.people).length;
  return html`<section class="begin" aria-labelledby="begin">
    <h2 id="begin">Your own cell</h2>
    <cw-text
      label="What the cell is called"
      .value=${draft.name === NEW_CELL ? '' : draft.name}
      most="120"
      @cw-change=${(event: PartEvent<'cw-change', string>) => store.change('its name', ['name'], event.detail.value.trim() || NEW_CELL)}
    ></cw-text>
    <h3>The work, in its order</h3>
    <p class="words">
      Begin with the work of:
      ${STARTS.map((one) => html` <button type="button" class="small" @click=${() => putStart(store, draft, one.id)}>${one.name}</button>`)}
    </p>
    <div class="times">
      ${Object.entries(draft.steps).map(
        ([id, step]) =>
          html`<cw-number
            label=${step.name ?? id}
            unit="min"
            .value=${usualMinutes(step)}
            least="0.1"
            most="1440"
            bare
            hint=${isGuess(step) ? 'a guess to begin with' : step.kind === 'wait' ? 'nobody is needed' : ''}
            @cw-change=${(event: PartEvent<'cw-change', number>) => putMinutes(store, id, event.detail.value)}
          ></cw-number>`,
      )}
    </div>
    <p class="hint">
      Usual minutes of hands on one piece; of a cure, what the data sheet says. Another name, another order,
      quick and slow times: touch the step in the picture below.
    </p>
    ${
      guesses === 0
        ? nothing
        : html`<button type="button" class="plain small" @click=${() => confirmTimes(store, draft)}>
            ${guesses === Object.keys(draft.steps).length ? 'these times are right here' : 'the other times are right here'}
          </button>`
    }
    <details>
      <summary>your steps as a list, or pasted from a spreadsheet</summary>
      <cw-text
        tall
        label="One step a line: its name and minutes"
        placeholder="dry fit 14"
        hint="They take the place of those above; where people stand is tapped anew."
        wrong=${unread.length === 0 ? '' : `Not read: ${unread.slice(0, 3).join('; ')}. Write a name and minutes, such as: dry fit 14.`}
        @cw-change=${(event: PartEvent<'cw-change', string>) => setUnread(pasteSteps(store, draft, event.detail.value))}
      ></cw-text>
    </details>
    ${
      draft.gear?.['clamp'] === undefined
        ? nothing
        : html`<cw-number
            label="Clamp sets"
            .value=${draft.gear['clamp'].count}
            least="1"
            most="1000"
            whole
            bare
            hint="A set is tied up from the glue-up until somebody has unclamped."
            @cw-change=${(event: PartEvent<'cw-change', number>) => store.change(`${event.detail.value} clamp sets`, ['gear', 'clamp', 'count'], event.detail.value)}
          ></cw-number>`
    }
    <h3>Who works here, and where</h3>
    <cw-text
      label=${named === 0 ? 'Their names, with commas between' : 'More names'}
      .value=${live('')}
      placeholder="Ada, Ben"
      hint="A column pasted from a spreadsheet will do."
      @cw-change=${(event: PartEvent<'cw-change', string>) => putNames(store, draft, event.detail.value)}
    ></cw-text>
    ${named === 0 ? nothing : html`<cw-crew-sheet .store=${store} .scenario=${draft} .turn=${draft}></cw-crew-sheet>`}
    <h3>The day</h3>
    <div class="times">
      <cw-clock
        label="Starts"
        .value=${draft.shift?.start ?? DEFAULTS.shift.start}
        @cw-change=${(event: PartEvent<'cw-change', string>) => putStartTime(store, draft, event.detail.value)}
      ></cw-clock>
      <cw-clock
        label="Ends"
        .value=${draft.shift?.end ?? DEFAULTS.shift.end}
        @cw-change=${(event: PartEvent<'cw-change', string>) => store.change(`ends ${event.detail.value}`, ['shift', 'end'], event.detail.value)}
      ></cw-clock>
      <cw-number
        label="Good pieces due"
        .value=${draft.shift?.target ?? null}
        least="1"
        most="100000"
        whole
        bare
        optional
        usual="no number"
        @cw-change=${(event: PartEvent<'cw-change', number | null>) => putTarget(store, draft, event.detail.value)}
      ></cw-number>
    </div>
    <p role="status">
      ${
        missing.length > 0
          ? missingWords(draft)
          : guesses > 0
            ? `It can be run. ${guesses === 1 ? 'One time is' : `${guesses} times are`} still a guess to begin with.`
            : 'It can be run, with times of your own.'
      }
    </p>
    ${
      missing.length > 0 || draft.gear?.['clamp'] === undefined
        ? nothing
        : html`<button type="button" class="ask" @click=${askOneMore}>Does one more clamp set help?</button>`
    }
    <button type="button" class="plain small" @click=${away}>put this list away</button>
  </section>`;
}

function putStartTime(store: CellStore, draft: Scenario, to: string): void {
  const from = draft.shift?.start ?? DEFAULTS.shift.start;
  store.change(`starts ${to}`, ['shift', 'start'], to);
  offerMovedDay(store, from, to);
}

const KEY = 'clampwright-begun';

function begun(): string[] {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : [];
  } catch {
    return [];
  }
}

export const isPutAway = (cell: string): boolean => begun().includes(cell);

export function putAway(cell: string): void {
  try {
    localStorage.setItem(KEY, JSON.stringify([...begun(), cell].slice(-50)));
  } catch {
    // The list is back the next time.
  }
}

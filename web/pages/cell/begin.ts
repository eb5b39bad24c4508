/**
 * For a cell that has hardly begun: what to put in, in an order that works, and what of it is there already.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { tell } from '../../parts/events.ts';
import { NEW_CELL } from '../../shell/new-cell.ts';
import type { Spot } from './cell-data.ts';
import type { Kind } from './references.ts';

interface Ways {
  pick(spot: Spot): void;
  add(kind: Kind): void;
  putAway(): void;
}

/**
 * Until the day is said: a file without a shift or an intake runs on what is usual, which is nobody's own.
 */
export const isYoung = ({ steps, shift, intake }: Scenario): boolean =>
  Object.keys(steps).length <= 2 || shift === undefined || intake === undefined;

export function beginning(scenario: Scenario, { pick, add, putAway }: Ways): TemplateResult {
  const { steps, people, gear = {}, shift, intake, name } = scenario;
  const [step, person] = [Object.keys(steps)[0] ?? '', Object.keys(people)[0] ?? ''];
  const line = (words: string, done: boolean, run: () => void): TemplateResult =>
    html`<li>
      <button type="button" @click=${run}>${words}</button
      >${done ? html` <span class="muted small">done</span>` : nothing}
    </li>`;
  return html`<section class="begin" aria-labelledby="begin">
    <h2 id="begin">Make it yours</h2>
    <ol>
      ${line('Give the cell its name', name !== NEW_CELL, () => pick({ kind: 'about', id: '' }))}
      ${line('Say what the first step is and how long it takes', steps[step]?.name !== undefined, () => pick({ kind: 'steps', id: step }))}
      ${line('Put in the next step, in the order of the work; a cure is a step too', Object.keys(steps).length > 1, () => add('steps'))}
      ${line('Name the people and where they stand', people[person]?.name !== undefined, () => pick({ kind: 'people', id: person }))}
      ${line('Put in the clamp sets, and where they are tied up', Object.keys(gear).length > 0, () => add('gear'))}
      ${line('Set the shift, its breaks and the number due', shift !== undefined, () => pick({ kind: 'shift', id: '' }))}
      ${line('Say what comes in', intake !== undefined, () => pick({ kind: 'intake', id: '' }))}
    </ol>
    <p class="hint">
      Touch any line of the page to change what stands there; nothing is lost, and undo takes back every step.
      <button type="button" class="plain small" @click=${putAway}>put this list away</button>
      <button
        type="button"
        class="plain small"
        @click=${(event: Event) => tell(event.target as HTMLElement, 'cw-act', { act: 'cells' })}
      >
        begin from another cell
      </button>
    </p>
  </section>`;
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

/** Which times are used: step by step, with what the cell has now beside it, and single ones left out. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { placeKey } from '../../../src/timing/groups.ts';
import type { TimeSeen } from '../../../src/timing/left-out.ts';
import type { PlaceStudy } from '../../../src/timing/study-times.ts';
import { placeName } from '../../../src/words/times-words.ts';
import { fixed } from '../../../src/words/words.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/toggle.ts';

/** A row a place: before, after, and whether it is used. */
export function placesUsed(
  scenario: Scenario,
  places: readonly PlaceStudy[],
  unused: readonly string[],
  change: (unused: string[]) => void,
): TemplateResult {
  const row = ({ fit, drift }: PlaceStudy): TemplateResult => {
    const key = placeKey(fit);
    const { chosen } = fit;
    const on = chosen !== null && !unused.includes(key);
    const put = (value: boolean): void =>
      change(value ? unused.filter((one) => one !== key) : [...unused, key]);
    return html`<tr>
      <td>
        ${
          chosen === null
            ? html`${placeName(scenario, fit)}: too few`
            : html`<cw-toggle
                label=${placeName(scenario, fit)}
                .value=${on}
                @cw-change=${(event: PartEvent<'cw-change', boolean>) => put(event.detail.value)}
              ></cw-toggle>`
        }
      </td>
      <td class="figure">${fixed(drift.model, 1)} min</td>
      <td class="figure">${chosen === null || !on ? 'stays' : `${fixed(chosen.mean, 1)} min`}</td>
      <td class="figure">${fit.count}</td>
    </tr>`;
  };
  return html`<section aria-labelledby="used">
    <h2 id="used">Which times to use</h2>
    <div class="scroll" tabindex="0" role="region" aria-labelledby="used">
      <table>
        <thead>
          <tr>
            <th scope="col">Use</th>
            <th scope="col">In the cell now</th>
            <th scope="col">With these</th>
            <th scope="col">Times</th>
          </tr>
        </thead>
        <tbody>
          ${places.map(row)}
        </tbody>
      </table>
    </div>
  </section>`;
}

const MOST_SHOWN = 20;

/** Times far from the rest, each to be left out; and those that were, to be taken in again. */
export function singleTimes(
  { far, left }: PlaceStudy,
  leaveOut: readonly string[],
  change: (leaveOut: string[]) => void,
): TemplateResult | typeof nothing {
  if (far.length + left.length === 0) return nothing;
  const where = ({ row, date }: TimeSeen): string => `row ${row}${date === null ? '' : `, ${date}`}`;
  const item = (one: TimeSeen, isLeft: boolean): TemplateResult =>
    html`<li>
      <span class=${isLeft ? 'left' : ''}
        >${fixed(one.minutes, 1)} min
        <span class="muted small">${where(one)}${isLeft ? ', left out' : ''}</span></span
      >
      <button
        type="button"
        class="plain small"
        aria-label=${`${isLeft ? 'take in again' : 'leave out'}: ${fixed(one.minutes, 1)} min, ${where(one)}`}
        @click=${() => change(isLeft ? leaveOut.filter((key) => key !== one.key) : [...leaveOut, one.key])}
      >
        ${isLeft ? 'take it in again' : 'leave it out'}
      </button>
    </li>`;
  return html`<h3>Far from the rest: a mistake, or a hard piece?</h3>
    <ul class="singles">
      ${far.slice(0, MOST_SHOWN).map((one) => item(one, false))}
      ${left.slice(0, MOST_SHOWN).map((one) => item(one, true))}
    </ul>`;
}

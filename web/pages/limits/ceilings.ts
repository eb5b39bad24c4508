/** What each way of reckoning says beside what the shifts made. */
import { html, nothing, type TemplateResult } from 'lit';
import { MADE, PRICE_OF_WAITING, waysOf, type Way } from '../../../src/report/ways.ts';
import { fixed, rangeText } from '../../../src/words/words.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { Interval } from '../../../src/study/intervals/interval.ts';

const known = new WeakMap<Scenario, Way[]>();

function reckoned(scenario: Scenario): Way[] {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const made = waysOf(shiftsOf(scenario).slice(0, 1));
  known.set(scenario, made);
  return made;
}

/** Only where the file is a single shift: the ways of reckoning are about one. */
export function ceilingsTable(scenario: Scenario, good: Interval): TemplateResult | typeof nothing {
  if (shiftsOf(scenario).length > 1) return nothing;
  const mean = rangeText(good);
  const row = (name: string, value: string, note = ''): TemplateResult =>
    html`<tr>
      <th scope="row">${name}</th>
      <td>${value}</td>
      <td>${note}</td>
    </tr>`;
  const number = (value: number): string => (Number.isFinite(value) ? fixed(value, 1) : '–');
  return html`<section aria-labelledby="averages">
    <h2 id="averages">Where averages mislead</h2>
    <div class="scroll" tabindex="0" role="region" aria-label="Ways of reckoning">
      <table>
        <thead>
          <tr>
            <th scope="col">reckoned by</th>
            <th scope="col">good units a shift</th>
            <th scope="col">what limits it</th>
          </tr>
        </thead>
        <tbody>
          ${reckoned(scenario).map(({ name, units, limit }) => row(name, number(units[0]!), limit))}${row(MADE, mean.range === '' ? mean.estimate : `${mean.estimate} (${mean.range})`)}
        </tbody>
      </table>
    </div>
    <p class="note">${PRICE_OF_WAITING}</p>
  </section>`;
}

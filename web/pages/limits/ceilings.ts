/** What each way of reckoning says beside what the shifts made. */
import { html, nothing, type TemplateResult } from 'lit';
import { fixed, listed, plural, rangeText } from '../../../src/brief/words.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { fluidCeiling } from '../../../src/study/ceilings/fluid-ceiling.ts';
import { naiveNumber, spreadsheetNumber } from '../../../src/study/ceilings/spreadsheet.ts';
import type { Interval } from '../../../src/study/intervals/interval.ts';

interface Reckoned {
  naive: { units: number; gear: string } | null;
  spreadsheet: number;
  binding: string;
  ceiling: number;
}

const known = new WeakMap<Scenario, Reckoned>();

function reckoned(scenario: Scenario): Reckoned {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const shift = shiftsOf(scenario)[0]!;
  const naive = naiveNumber(shift);
  const { units, lines } = spreadsheetNumber(shift);
  const made: Reckoned = {
    naive: naive === null ? null : { units: naive.units, gear: plural(shift.gear.find(({ id }) => id === naive.id)?.name ?? naive.id) },
    spreadsheet: units, binding: listed(lines.slice(0, 1).map(({ kind, id }) => nameOf(shift, kind, id))), ceiling: fluidCeiling(shift).good,
  };
  known.set(scenario, made);
  return made;
}

const nameOf = (shift: ResolvedShift, kind: 'step' | 'gear', id: string): string =>
  (kind === 'gear' ? plural(shift.gear.find((one) => one.id === id)?.name ?? id) : `“${shift.steps.find((one) => one.id === id)?.name ?? id}”`);

/** Only where the file is a single shift: the ways of reckoning are about one. */
export function ceilingsTable(scenario: Scenario, good: Interval): TemplateResult | typeof nothing {
  if ((scenario.nextShifts ?? []).length > 0) return nothing;
  const { naive, spreadsheet, binding, ceiling } = reckoned(scenario);
  const mean = rangeText(good);
  const row = (name: string, value: string, note = ''): TemplateResult => html`<tr><th scope="row">${name}</th><td>${value}</td><td>${note}</td></tr>`;
  const number = (value: number): string => (Number.isFinite(value) ? fixed(value, 1) : '–');
  return html`<section aria-labelledby="averages"><h2 id="averages">Where averages mislead</h2>
    <div class="scroll" tabindex="0" role="region" aria-label="Ways of reckoning"><table>
      <thead><tr><th scope="col">reckoned by</th><th scope="col">good units a shift</th><th scope="col">what limits</th></tr></thead>
      <tbody>
        ${naive === null ? nothing : row(`${naive.gear} by the cure alone`, number(naive.units), naive.gear)}
        ${row('a spreadsheet of averages', number(spreadsheet), binding)}
        ${row('the most this crew and gear could make, nobody ever waiting', number(ceiling))}
        ${row('what the shifts made, on average', mean.estimate, mean.range)}
      </tbody></table></div>
    <p class="note">What lies between the last two lines is the price of waiting and variation.</p></section>`;
}

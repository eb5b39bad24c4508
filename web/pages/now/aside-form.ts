/** What stands aside and what is broken, as the count has it: holds and whose they are, gear out of order. */
import { html, type TemplateResult } from 'lit';
import type { NowState } from '../../../src/today/state.ts';
import { clockAfter, clockOfMinutes, minutesAfter, minutesOfClock } from '../../../src/scenario/clock.ts';
import { holdOf } from '../../../src/scenario/resolve.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Hold, Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import '../../parts/clock.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/text.ts';

const choicesOf = (list: readonly { id: string; name: string }[]): { value: string; label: string }[] =>
  list.map(({ id, name }) => ({ value: id, label: name }));

/** A file without products has one, called a piece. */
const productsOf = (scenario: Scenario): { value: string; label: string }[] =>
  choicesOf(shiftOf(scenario).products);

/** Gear the file lists; its benches are never out of order. */
const gearOf = (scenario: Scenario): { value: string; label: string }[] =>
  choicesOf(shiftOf(scenario).gear.filter((one) => one.kind === 'gear'));

/** An hour from now, or five minutes before the end. */
function anHourOn(scenario: Scenario, at: string): string {
  const { start, length } = shiftOf(scenario);
  const left = minutesAfter(at, clockAfter(start, length));
  return clockOfMinutes(minutesOfClock(at) + Math.max(0, Math.min(60, left - 5)));
}

type Set = (now: NowState) => void;
type Texted = PartEvent<'cw-change', string>;
type Numbered = PartEvent<'cw-change', number>;

/** The list with one entry changed, or taken out by null. */
const changed = <Entry>(all: readonly Entry[], at: number, entry: Entry | null): Entry[] =>
  all.flatMap((one, i) => (i !== at ? [one] : entry === null ? [] : [entry]));

export function asideForm(scenario: Scenario, now: NowState, set: Set): TemplateResult {
  return html`<details class="aside" ?open=${now.holds.length + now.broken.length > 0}>
    <summary>on hold, or out of order</summary>
    <div class="count">
      ${now.holds.map((hold, i) => holdFields(scenario, hold, (entry) => set({ ...now, holds: changed(now.holds, i, entry) })))}
      <button
        type="button"
        @click=${() => set({ ...now, holds: [...now.holds, { before: Object.keys(scenario.steps)[0]!, until: anHourOn(scenario, now.at), product: productsOf(scenario)[0]!.value }] })}
      >
        + pieces on hold
      </button>
      ${now.broken.map((one, i) => brokenFields(scenario, one, (entry) => set({ ...now, broken: changed(now.broken, i, entry) })))}
      ${
        gearOf(scenario).length === 0
          ? ''
          : html`<button
              type="button"
              @click=${() =>
                set({
                  ...now,
                  broken: [...now.broken, { gear: gearOf(scenario)[0]!.value, items: 1, minutes: 60 }],
                })}
            >
              + something out of order
            </button>`
      }
    </div>
  </details>`;
}

function holdFields(scenario: Scenario, hold: Hold, put: (hold: Hold | null) => void): TemplateResult {
  const steps = choicesOf(shiftOf(scenario).steps.filter((step) => step.kind === 'hands'));
  const products = productsOf(scenario);
  const known = holdOf(shiftOf(scenario), hold);
  return html`<div class="entry" role="group" aria-label="Pieces on hold">
    <cw-choice
      list
      label="Held before"
      .choices=${steps}
      value=${hold.before}
      @cw-change=${(event: Texted) => put({ ...hold, before: event.detail.value })}
    ></cw-choice>
    ${products.length < 2 ? '' : html`<cw-choice list label="Which product" .choices=${products} value=${known.product ?? ''} @cw-change=${(event: Texted) => put({ ...hold, product: event.detail.value })}></cw-choice>`}
    <cw-clock
      label="Until"
      .value=${hold.until}
      step="5"
      @cw-change=${(event: Texted) => put({ ...hold, until: event.detail.value })}
    ></cw-clock>
    <cw-text
      label="Whose decision"
      most="80"
      .value=${known.whose}
      @cw-change=${(event: Texted) => put({ ...hold, whose: event.detail.value })}
    ></cw-text>
    <button type="button" class="plain" @click=${() => put(null)}>no longer on hold</button>
  </div>`;
}

function brokenFields(
  scenario: Scenario,
  one: NowState['broken'][number],
  put: (one: NowState['broken'][number] | null) => void,
): TemplateResult {
  const gear = gearOf(scenario);
  return html`<div class="entry" role="group" aria-label="Out of order">
    <cw-choice
      list
      label="Out of order"
      .choices=${gear}
      value=${one.gear}
      @cw-change=${(event: Texted) => put({ ...one, gear: event.detail.value })}
    ></cw-choice>
    <cw-number
      inline
      label="how many"
      .value=${one.items}
      least="1"
      most="1000"
      whole
      @cw-change=${(event: Numbered) => put({ ...one, items: event.detail.value })}
    ></cw-number>
    <cw-number
      inline
      label="for about so many minutes more"
      .value=${one.minutes}
      unit="min"
      least="0"
      most="10000"
      step="5"
      @cw-change=${(event: Numbered) => put({ ...one, minutes: event.detail.value })}
    ></cw-number>
    <button type="button" class="plain" @click=${() => put(null)}>in order again</button>
  </div>`;
}

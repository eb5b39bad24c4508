/** What is in the cell at this minute, quickly counted in: one line a step, one line a person. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { goodSoFar, type NowState } from '../../../src/today/state.ts';
import { meanMinutes } from '../../../src/today/mean-minutes.ts';
import { nameOf } from '../../../src/scenario/resolve.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import '../../parts/clock.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/text.ts';
import '../../parts/toggle.ts';
import { asideForm } from './aside-form.ts';
import { curingAt, handSteps, inHandOf, waitingAt, withCuring, withInHand, withWaiting } from './counts.ts';

export const countStyle = css`
  .count {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--space-4);
    max-width: 34rem;
  }
  .count h2:focus {
    outline: none;
  }
  .rows h3 {
    font-size: var(--size);
    padding-bottom: var(--space-1);
  }
  .rows > :not(h3) {
    border-bottom: 1px solid var(--hairline);
  }
  .left {
    padding-left: var(--space-4);
  }
  .who {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1.1fr);
    column-gap: var(--space-2);
    align-items: center;
  }
  .who .left {
    grid-column: 1 / -1;
  }
  .aside > summary {
    display: flex;
    align-items: center;
    justify-content: space-between;
    min-height: var(--touch);
    font-weight: 600;
    cursor: pointer;
    list-style: none;
    border-bottom: 1px solid var(--hairline);
  }
  .aside > summary::after {
    content: '+' / '';
    font-weight: 400;
    font-size: 1.25rem;
  }
  .aside[open] > summary::after {
    content: '−' / '';
  }
  .aside > .count {
    padding: var(--space-3) 0;
  }
  .entry {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--space-3);
    border-left: 2px solid var(--hairline);
    padding-left: var(--space-3);
  }
`;

type Numbered = PartEvent<'cw-change', number>;

interface Count {
  now: NowState;
  note: string;
}

/** @param set is told of every change. */
export function countForm(
  scenario: Scenario,
  { now, note }: Count,
  set: (now: NowState, note?: string) => void,
): TemplateResult {
  const shift = shiftOf(scenario);
  const steps = Object.entries(scenario.steps);
  return html`<h2 id="count" tabindex="-1">Count it in</h2>
    <cw-clock
      label="It is"
      .value=${now.at}
      step="5"
      @cw-change=${(event: PartEvent<'cw-change', string>) => set({ ...now, at: event.detail.value })}
    ></cw-clock>
    <div class="rows" role="group" aria-labelledby="pieces">
      <h3 id="pieces">Pieces now</h3>
      <cw-number
        inline
        label="good so far"
        .value=${goodSoFar(now)}
        unit="units"
        least="0"
        most="1000"
        whole
        @cw-change=${(event: Numbered) => set({ ...now, goodByHour: [], good: event.detail.value })}
      ></cw-number>
      ${steps.map(([id, step]) =>
        step.kind === 'wait'
          ? cures(
              now,
              { step: id, name: nameOf(shift.steps, id), minutes: meanMinutes(shift, { at: id }) },
              set,
            )
          : html` <cw-number
              inline
              label="before “${nameOf(shift.steps, id)}”"
              .value=${waitingAt(now, id)}
              unit="pieces"
              least="0"
              most="1000"
              whole
              @cw-change=${(event: Numbered) => set(withWaiting(now, id, event.detail.value))}
            ></cw-number>`,
      )}
    </div>
    <div class="rows" role="group" aria-labelledby="who">
      <h3 id="who">Who is here, and has what in hand</h3>
      ${shift.people.map(({ id, name }) => inHand(scenario, now, id, name, set))}
    </div>
    ${asideForm(scenario, now, set)}
    <cw-text
      label="To know, for the handover"
      tall
      most="1000"
      .value=${note}
      @cw-change=${(event: PartEvent<'cw-change', string>) => set(now, event.detail.value)}
    ></cw-text>`;
}

interface Wait {
  step: string;
  name: string;
  /** What it takes on average. */
  minutes: number;
}

/** Pieces that nobody gave minutes to came one after the other, for all one knows. */
function cures(now: NowState, { step, name, minutes }: Wait, set: (now: NowState) => void): TemplateResult {
  const left = curingAt(now, step);
  const put = (all: number[]): void => set(withCuring(now, step, all));
  const leftOf = (count: number): number[] =>
    Array.from({ length: count }, (_, i) => left[i] ?? Math.round((minutes * (i + 1)) / (count + 1)));
  return html`<cw-number
      inline
      label="in “${name}” now"
      .value=${left.length}
      unit="pieces"
      least="0"
      most="200"
      whole
      @cw-change=${(event: Numbered) => put(leftOf(event.detail.value))}
    ></cw-number>
    ${left.map(
      (minutes, i) =>
        html`<cw-number
          inline
          class="left"
          label="minutes left, piece ${i + 1}"
          .value=${minutes}
          unit="min"
          least="0"
          most="10000"
          @cw-change=${(event: Numbered) => put(left.map((one, j) => (i === j ? event.detail.value : one)))}
        ></cw-number>`,
    )}`;
}

/** One line a person: the tick that they are here, and what they have in hand. */
function inHand(
  scenario: Scenario,
  now: NowState,
  id: string,
  name: string,
  set: (now: NowState) => void,
): TemplateResult {
  const hand = inHandOf(now, id);
  const choices = [
    { value: '', label: 'nothing' },
    ...handSteps(scenario, id).map((step) => ({ value: step, label: nameOf(shiftOf(scenario).steps, step) })),
  ];
  const here = !now.out.includes(id);
  return html`<div class="who">
    <cw-toggle
      label=${name}
      ?value=${here}
      @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
        set({
          ...withInHand(now, id, '', 0),
          out: event.detail.value ? now.out.filter((one) => one !== id) : [...now.out, id],
        })}
    ></cw-toggle>
    ${
      here
        ? html`<cw-choice
            list
            quiet
            label="${name} has in hand"
            .choices=${choices}
            .value=${hand?.step ?? ''}
            @cw-change=${(event: PartEvent<'cw-change', string>) => set(withInHand(now, id, event.detail.value, hand?.minutes ?? 0))}
          ></cw-choice>`
        : html`<span class="muted">not here</span>`
    }
    ${
      hand === null
        ? nothing
        : html`<cw-number
            inline
            class="left"
            label="minutes at it so far"
            .value=${hand.minutes}
            unit="min"
            least="0"
            most="1000"
            @cw-change=${(event: Numbered) => set(withInHand(now, id, hand.step, event.detail.value))}
          ></cw-number>`
    }
  </div>`;
}

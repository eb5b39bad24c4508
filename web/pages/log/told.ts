/** What is told of a day without a record of events: who was out, and how late the parts came. */
import { html, type TemplateResult } from 'lit';
import { comingLater } from '../../../src/scenario/changing/inputs.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { DayAsItWas } from '../../../src/today/why-missed.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/toggle.ts';
import { shiftOf } from '../common/resolved.ts';

export interface ToldOfDay {
  late: number;
  out: readonly string[];
}

export const NOTHING_TOLD: ToldOfDay = { late: 0, out: [] };

export function dayAsTold(scenario: Scenario, { late, out }: ToldOfDay, good: number): DayAsItWas {
  const { intake } = comingLater(scenario, late);
  return {
    good,
    ...(out.length === 0 ? {} : { out: [...out] }),
    ...(late === 0 || intake === undefined ? {} : { intake }),
  };
}

export const toldFields = (
  scenario: Scenario,
  told: ToldOfDay,
  change: (told: ToldOfDay) => void,
): TemplateResult =>
  html`<cw-number
      label="All parts came later by"
      .value=${told.late}
      unit="min"
      least="0"
      most="1440"
      step="10"
      @cw-change=${(event: PartEvent<'cw-change', number>) => change({ ...told, late: event.detail.value })}
    ></cw-number>
    ${shiftOf(scenario).people.map(
      ({ id, name }) =>
        html`<cw-toggle
          label=${`${name} was out`}
          .value=${told.out.includes(id)}
          @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
            change({
              ...told,
              out: event.detail.value ? [...told.out, id] : told.out.filter((one) => one !== id),
            })}
        ></cw-toggle>`,
    )}`;

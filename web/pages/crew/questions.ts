/** What is asked of the day: who is in, what is due, how sure, how much overtime. */
import { html, nothing, type TemplateResult } from 'lit';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/choice.ts';
import '../../parts/date.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/toggle.ts';
import type { Asked } from './asked.ts';

const COMES = [
  { value: 'in', label: 'in' },
  { value: 'out', label: 'out' },
  { value: 'late', label: 'late' },
  { value: 'perhaps', label: 'perhaps' },
];

export interface Form {
  /** The cell on the day. */
  scenario: Scenario;
  day: string;
  /** Who is away by the calendar, and why. */
  absent: Map<string, string>;
  asked: Asked;
}

/** The form; `set` is told of every change, `turn` of another day. */
export function questions(
  { scenario, day, absent, asked }: Form,
  set: (asked: Asked) => void,
  turn: (day: string) => void,
): TemplateResult {
  return html`<cw-date
      label="For the day"
      .value=${day}
      @cw-change=${(event: PartEvent<'cw-change', string>) => turn(event.detail.value)}
    ></cw-date>
    <h2>Who is in?</h2>
    ${shiftOf(scenario).people.map(({ id, name }) => personIn(asked, { id, name, away: absent.get(id) }, set))}
    <h2>What is due?</h2>
    <cw-number
      label="Good units due"
      .value=${asked.target}
      unit="units"
      least="0"
      most="100000"
      whole
      optional
      usual="the most that can be promised"
      bare
      @cw-change=${(event: PartEvent<'cw-change', number | null>) => set({ ...asked, target: event.detail.value })}
    ></cw-number>
    <cw-number
      label="Sure enough is"
      .value=${asked.confidence}
      unit="%"
      least="1"
      most="99"
      whole
      bare
      hint="The chance of making it that you ask for."
      @cw-change=${(event: PartEvent<'cw-change', number>) => set({ ...asked, confidence: event.detail.value })}
    ></cw-number>
    <cw-number
      label="Overtime, at most"
      .value=${asked.overtime}
      unit="min"
      least="0"
      most="480"
      step="15"
      bare
      hint="As local law and agreements allow. 0: none."
      @cw-change=${(event: PartEvent<'cw-change', number>) => set({ ...asked, overtime: event.detail.value })}
    ></cw-number>
    <cw-choice
      label="Of the crews that make it"
      .choices=${[
        { value: 'worth', label: 'worth most' },
        { value: 'cheapest', label: 'cheapest' },
      ]}
      value=${asked.cheapest ? 'cheapest' : 'worth'}
      @cw-change=${(event: PartEvent<'cw-change', string>) => set({ ...asked, cheapest: event.detail.value === 'cheapest' })}
    ></cw-choice>
    <cw-choice
      label="Changes of post in the day"
      .choices=${['0', '1', '2'].map((value) => ({ value, label: value === '0' ? 'none' : value }))}
      value=${String(asked.changes)}
      @cw-change=${(event: PartEvent<'cw-change', string>) => set({ ...asked, changes: Number(event.detail.value) as Asked['changes'] })}
    ></cw-choice>
    <cw-toggle
      label="Breaks may be taken one after the other"
      ?value=${asked.breaks}
      @cw-change=${(event: PartEvent<'cw-change', boolean>) => set({ ...asked, breaks: event.detail.value })}
    ></cw-toggle>`;
}

interface Somebody {
  id: string;
  name: string;
  /** Why, by the calendar; undefined: they are not. */
  away: string | undefined;
}

function personIn(asked: Asked, { id, name, away }: Somebody, set: (asked: Asked) => void): TemplateResult {
  const now = asked.attendance[id] ?? { kind: away === undefined ? 'in' : 'out' };
  const put = (attendance: Asked['attendance'][string]): void =>
    set({ ...asked, attendance: { ...asked.attendance, [id]: attendance } });
  const made: Record<string, Asked['attendance'][string]> = {
    in: { kind: 'in' },
    out: { kind: 'out' },
    late: { kind: 'late', minutes: 30 },
    perhaps: { kind: 'perhaps', chance: 0.5 },
  };
  return html`<cw-choice
      label=${name}
      .choices=${COMES}
      value=${now.kind}
      hint=${away === undefined ? '' : `By the calendar: ${away}.`}
      @cw-change=${(event: PartEvent<'cw-change', string>) => put(made[event.detail.value]!)}
    ></cw-choice>
    ${
      now.kind === 'late'
        ? html`<cw-number
            label="${name} comes late by"
            .value=${now.minutes}
            unit="min"
            least="0"
            most="480"
            step="5"
            bare
            @cw-change=${(event: PartEvent<'cw-change', number>) => put({ kind: 'late', minutes: event.detail.value })}
          ></cw-number>`
        : nothing
    }
    ${
      now.kind === 'perhaps'
        ? html`<cw-number
            label="${name} comes in so many days of a hundred"
            .value=${Math.round(now.chance * 100)}
            unit="%"
            least="0"
            most="100"
            whole
            bare
            @cw-change=${(event: PartEvent<'cw-change', number>) => put({ kind: 'perhaps', chance: event.detail.value / 100 })}
          ></cw-number>`
        : nothing
    }`;
}

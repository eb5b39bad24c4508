/** The calendar: which days are worked, who and what is away, what comes and what is due on which day. */
import { html, nothing, type TemplateResult } from 'lit';
import { dayWords, nextWorkingDay } from '../../../src/scenario/calendar.ts';
import { WEEKDAY_NAMES, WEEKDAYS, type Weekday } from '../../../src/scenario/days.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/date.ts';
import type { PartEvent } from '../../parts/events.ts';
import { today } from '../../shell/day.ts';
import type { Place } from '../../store/draft.ts';
import type { Fields } from './fields.ts';

type At = (string | number)[];
const at = (...keys: At): At => ['calendar', ...keys];

export function calendarPanel(fields: Fields, scenario: Scenario): TemplateResult {
  // A new entry is of the next working day: most are of one soon.
  const soon = nextWorkingDay(scenario, today.get());
  return html`<p class="hint">
      “Tomorrow” is the next working day: after today that is ${dayWords(soon)}. Crew, Week and Morning go by
      these days.
    </p>
    ${workingDays(fields)} ${namedDays(fields, 'holidays', 'Holidays', 'a holiday', soon)}
    ${namedDays(fields, 'alsoWorked', 'Worked all the same', 'a day that is worked', soon)}
    ${absences(fields, scenario, soon)} ${gearAway(fields, scenario, soon)}
    ${deliveries(fields, scenario, soon)} ${orders(fields, scenario, soon)}`;
}

function workingDays(fields: Fields): TemplateResult {
  const place = at('workingDays');
  const usual: readonly Weekday[] = DEFAULTS.calendar.workingDays;
  const worked = fields.at<Weekday[]>(place) ?? usual;
  const set = (day: Weekday, on: boolean): void => {
    const next = WEEKDAYS.filter((one) => (one === day ? on : worked.includes(one)));
    fields.change(
      `${WEEKDAY_NAMES[day]} ${on ? 'worked' : 'not worked'}`,
      place,
      next.join() === usual.join() ? undefined : next,
    );
  };
  return html`<fieldset class="several">
    <legend>Worked every week</legend>
    ${WEEKDAYS.map(
      (day) =>
        html`<cw-toggle
          label=${WEEKDAY_NAMES[day]}
          .value=${worked.includes(day)}
          @cw-change=${(event: PartEvent<'cw-change', boolean>) => set(day, event.detail.value)}
        ></cw-toggle>`,
    )}${fields.said(place)}
  </fieldset>`;
}

/** A day in a field. */
function date(
  fields: Fields,
  place: Place,
  label: string,
  { optional = false, hint = '' }: { optional?: boolean; hint?: string } = {},
): TemplateResult {
  return html`<cw-date
    data-place=${place.join('.')}
    label=${label}
    .value=${fields.at<string>(place) ?? null}
    ?optional=${optional}
    hint=${hint}
    wrong=${fields.wrong(place)}
    @cw-change=${({ detail: { value } }: PartEvent<'cw-change', string | null>) =>
      fields.change(`${label.toLowerCase()} ${value ?? 'left out'}`, place, value ?? undefined)}
  ></cw-date>`;
}

const namedDays = (
  fields: Fields,
  key: 'holidays' | 'alsoWorked',
  label: string,
  add: string,
  soon: string,
): TemplateResult =>
  fields.entries(at(key), {
    label,
    add,
    make: () => ({ day: soon }),
    none: key === 'holidays' ? 'None written down.' : 'No day besides the ones of every week.',
    one: (place) =>
      html`${date(fields, [...place, 'day'], 'Day')}${fields.text([...place, 'name'], 'What for')}`,
  });

const absences = (fields: Fields, scenario: Scenario, soon: string): TemplateResult =>
  fields.entries(at('absences'), {
    label: 'Leave and other absence',
    add: 'somebody away',
    make: () => ({ person: Object.keys(scenario.people)[0]!, from: soon }),
    none: 'Nobody is away.',
    one: (place) =>
      html`${fields.choice([...place, 'person'], 'Who', choicesOf(scenario.people), { otherwise: '', list: true })}
      ${span(fields, place)}${fields.text([...place, 'why'], 'Why')}`,
  });

function gearAway(fields: Fields, scenario: Scenario, soon: string): TemplateResult | typeof nothing {
  const gear = Object.keys(scenario.gear ?? {});
  if (gear.length === 0) return nothing;
  return fields.entries(at('gearAway'), {
    label: 'Clamps and gear away',
    add: 'something away',
    make: () => ({ gear: gear[0]!, from: soon }),
    none: 'Everything is there.',
    one: (place) =>
      html`${fields.choice([...place, 'gear'], 'What', choicesOf(scenario.gear ?? {}), { otherwise: '', list: true })}
      ${fields.number([...place, 'items'], 'How many', { whole: true, least: 1, most: 1000, otherwise: DEFAULTS.gear.itemsOut })}
      ${span(fields, place)}${fields.text([...place, 'why'], 'Why')}`,
  });
}

/** From one day to another, the last one in. */
const span = (fields: Fields, place: Place): TemplateResult =>
  html`${date(fields, [...place, 'from'], 'From')}${date(fields, [...place, 'to'], 'To, that day too', { optional: true, hint: 'Empty: one day.' })}`;

const deliveries = (fields: Fields, scenario: Scenario, soon: string): TemplateResult =>
  fields.entries(at('deliveries'), {
    label: 'Deliveries',
    add: 'a delivery',
    make: () => ({ day: soon, units: 10 }),
    none: 'Pieces come as “What comes in” says, every day.',
    one: (place) =>
      html`${coming(fields, scenario, place)}${fields.text([...place, 'name'], 'What it is called')}
      ${fields.toggle([...place, 'instead'], 'The usual pieces of that day do not come', { hint: 'Otherwise these come on top.' })}`,
  });

const orders = (fields: Fields, scenario: Scenario, soon: string): TemplateResult =>
  fields.entries(at('orders'), {
    label: 'Orders',
    add: 'an order',
    make: () => ({ name: orderName(scenario), units: 4, day: soon, due: soon }),
    none: 'Nothing is due by a day of its own.',
    one: (place) =>
      html`${fields.text([...place, 'name'], 'Its name')}${coming(fields, scenario, place)}
      ${date(fields, [...place, 'due'], 'Due on')}
      ${fields.clock([...place, 'dueAt'], 'Due at', { usual: 'the end of the shift' })}
      ${fields.toggle([...place, 'rush'], 'First in every line')}`,
  });

/** Pieces of a day: when, how many, of what. */
function coming(fields: Fields, scenario: Scenario, place: Place): TemplateResult {
  const products = choicesOf(scenario.products ?? {});
  return html`${date(fields, [...place, 'day'], 'Its pieces come on')}
  ${fields.clock([...place, 'at'], 'At', { usual: 'the start of the shift' })}
  ${fields.number([...place, 'units'], 'Pieces', { whole: true, least: 1 })}
  ${
    products.length < 2
      ? nothing
      : fields.choice(
          [...place, 'product'],
          'Product',
          [{ value: '', label: 'as the mix has it' }, ...products],
          {
            otherwise: '',
            list: true,
          },
        )
  }`;
}

const choicesOf = (
  group: Record<string, { name?: string | undefined }>,
): { value: string; label: string }[] =>
  Object.entries(group).map(([value, one]) => ({ value, label: one.name ?? value }));

/** Orders have names of their own. */
function orderName({ calendar }: Scenario): string {
  const taken = new Set((calendar?.orders ?? []).map(({ name }) => name));
  for (let number = 1; ; number++) if (!taken.has(`order ${number}`)) return `order ${number}`;
}

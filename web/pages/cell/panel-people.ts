/** One person: where they stand, what they can do, their hours and pay. */
import { html, nothing, type TemplateResult } from 'lit';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Person, Scenario } from '../../../src/scenario/schema.ts';
import type { PartEvent } from '../../parts/events.ts';
import { handsSteps, stepName, withLevel } from './cell-data.ts';
import { more, type Fields } from './fields.ts';
import { countedField } from './known-fields.ts';
import { stepChoices } from './panel-step.ts';

type At = (string | number)[];

export function personPanel(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const person = scenario.people[id]!;
  const at = (...keys: At): At => ['people', id, ...keys];
  const able = handsSteps(scenario)
    .map(([step]) => step)
    .filter((step) => Object.hasOwn(person.skills ?? {}, step));
  const covers = person.covers ?? able;
  const items = covers.map((step) => ({ id: step, label: stepName(scenario, step) }));
  return html` ${
    items.length === 0
      ? html`<p class="hint">Stands nowhere yet: tick a step below.</p>`
      : html`<cw-order
          label="Stands at, first choice first"
          removable
          .items=${items}
          hint="Takes a piece at the first of these where one can be begun."
          @cw-change=${(event: PartEvent<'cw-change', string[]>) => fields.change('where they stand', at('covers'), event.detail.value)}
        ></cw-order>`
  }
  ${fields.said(at('covers'))} ${otherSteps(fields, scenario, id, covers)}
  ${skillFields(fields, scenario, id, person)}
  ${fields.number(at('pay'), 'Pay an hour', { unit: scenario.money?.currency ?? DEFAULTS.money.currency, most: 1e9, step: 0.5, otherwise: DEFAULTS.person.pay })}
  ${attendance(fields, at, person)}
  ${more(
    'hours, breaks and times away',
    fields.clock(at('from'), 'Comes at', {
      usual: scenario.shift?.start ?? DEFAULTS.shift.start,
      hint: 'Empty: with the shift.',
    }),
    fields.clock(at('to'), 'Goes at', {
      usual: scenario.shift?.end ?? DEFAULTS.shift.end,
      hint: 'Empty: with the shift.',
    }),
    ownBreaks(fields, scenario, at, person),
    fields.entries<{ from: string; to: string }>(at('away'), {
      label: 'Away on another line',
      add: 'one more time away',
      none: 'Never.',
      make: () => ({ from: scenario.shift?.start ?? DEFAULTS.shift.start, to: '08:00' }),
      one: (one) =>
        html`${fields.clock([...one, 'from'], 'From')}${fields.clock([...one, 'to'], 'To')}${fields.number([...one, 'payShare'], 'Of that pay borne here', { unit: '%', most: 100, otherwise: DEFAULTS.person.awayPayShare })}`,
    }),
    fields.entries<{ from: string; covers: string[] }>(at('changes'), {
      label: 'Stands elsewhere from a time on',
      add: 'one more change',
      none: 'Stays where they are.',
      make: () => ({ from: '12:00', covers: covers.slice(0, 1) }),
      one: (one) =>
        html`${fields.clock([...one, 'from'], 'From')}${fields.several(
          [...one, 'covers'],
          'Stands at',
          stepChoices(
            scenario,
            handsSteps(scenario).map(([step]) => step),
          ),
          { word: 'from then at' },
        )}`,
    }),
    fields.caution('where a person stands'),
  )}
  ${more(
    'more about this person',
    fields.choice(
      at('rule'),
      'Takes next',
      [
        { value: 'in order', label: 'the first that can begin' },
        { value: 'oldest', label: 'what has waited longest' },
      ],
      { otherwise: DEFAULTS.person.rule },
    ),
    fields.toggle(at('overtime'), 'May be asked for overtime', { otherwise: DEFAULTS.person.overtime }),
    fields.number(at('hoursThisWeek'), 'Hours already worked this week', {
      unit: 'h',
      most: 168,
      otherwise: DEFAULTS.person.hoursThisWeek,
      hint: 'Those paid as overtime left out.',
    }),
    fields.number(at('daysThisWeek'), 'Days in a row already worked', {
      unit: 'days',
      most: 6,
      whole: true,
      otherwise: DEFAULTS.person.daysThisWeek,
    }),
    fields.caution('week of a person'),
  )}`;
}

function otherSteps(
  fields: Fields,
  scenario: Scenario,
  id: string,
  covers: string[],
): TemplateResult | typeof nothing {
  const others = handsSteps(scenario)
    .map(([step]) => step)
    .filter((step) => !covers.includes(step));
  const person = scenario.people[id]!;
  const add = (step: string): void =>
    fields.changeMany(`stands at ${stepName(scenario, step)} too`, [
      [
        ['people', id, 'covers'],
        [...covers, step],
      ],
      ...(person.skills !== undefined && !Object.hasOwn(person.skills, step)
        ? [[['people', id, 'skills', step], 3] as [At, unknown]]
        : []),
    ]);
  return others.length === 0
    ? nothing
    : html`<fieldset class="several">
        <legend>Could also stand at</legend>
        <div class="words">
          ${others.map(
            (step) =>
              html` <button type="button" class="small" @click=${() => add(step)}>
                + ${stepName(scenario, step)}
              </button>`,
          )}
        </div>
      </fieldset>`;
}

const LEVELS = [
  { value: '0', label: 'cannot' },
  { value: '1', label: '1, in training' },
  { value: '2', label: '2, with help' },
  { value: '3', label: '3, alone' },
  { value: '4', label: '4, can train others' },
];

function skillFields(fields: Fields, scenario: Scenario, id: string, person: Person): TemplateResult {
  const place = ['people', id, 'skills'];
  if (person.skills === undefined) {
    const covers = person.covers ?? [];
    return more(
      'what they can do',
      html`<p class="hint">Everything they stand at, alone.</p>
        <button
          type="button"
          class="add"
          @click=${() => fields.change('levels written down', place, Object.fromEntries(covers.map((step) => [step, 3])))}
        >
          write down levels
        </button>`,
    );
  }
  return more(
    'what they can do',
    ...handsSteps(scenario).map(([step]) => {
      const skill = person.skills?.[step];
      const level = skill === undefined ? 0 : typeof skill === 'number' ? skill : (skill.level ?? 3);
      const own = typeof skill === 'object';
      return html`<div class="skill">
        ${fields.choice([...place, step], stepName(scenario, step), LEVELS, {
          otherwise: '0',
          shown: String(level),
          list: true,
          keep: (value) =>
            fields.change(
              `${stepName(scenario, step)} at level ${value}`,
              [...place, step],
              value === '0' ? undefined : withLevel(skill, Number(value)),
            ),
        })}
        ${
          level === 0
            ? nothing
            : html`<cw-toggle
                label="An own pace and care here"
                .value=${own}
                @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
                  fields.change(
                    `own pace at ${stepName(scenario, step)}: ${event.detail.value ? 'yes' : 'no'}`,
                    [...place, step],
                    event.detail.value ? { level, factor: 1 } : level,
                  )}
              ></cw-toggle>`
        }
        ${
          own
            ? html`${fields.number([...place, step, 'factor'], 'Takes so many times as long', { least: 0.01, most: 20, step: 0.05, usual: 'as the level says' })}
              ${fields.number([...place, step, 'rework'], 'Has so many times as much sent back', { most: 20, step: 0.1, usual: 'as the level says' })}`
            : nothing
        }
      </div>`;
    }),
    html`<p class="hint">What a level means is set under “Skill levels”.</p>`,
  );
}

function attendance(fields: Fields, at: (...keys: At) => At, person: Person): TemplateResult {
  return more(
    'coming and being late',
    fields.number(at('attendance', 'percent'), 'Comes on so many days of a hundred', {
      unit: '%',
      most: 100,
      otherwise: DEFAULTS.person.attendance,
      ruled: true,
      to: 100,
      hint: '0: out. Common practice: three or four days in a hundred are missed.',
    }),
    [undefined, 0, 100].includes(person.attendance?.percent)
      ? nothing
      : countedField(fields, [...at('attendance'), 'known'], 'days'),
    fields.perhapsTime(at('attendance', 'late'), 'Is sometimes late', { quick: 2, usual: 5, slow: 15 }),
    person.attendance?.late === undefined
      ? nothing
      : fields.number(at('attendance', 'latePercent'), 'Late on so many days of a hundred', {
          unit: '%',
          most: 100,
          otherwise: DEFAULTS.person.latePercent,
        }),
  );
}

function ownBreaks(
  fields: Fields,
  scenario: Scenario,
  at: (...keys: At) => At,
  person: Person,
): TemplateResult {
  const own = person.breaks !== undefined;
  return html`<cw-toggle
      label="Breaks of their own"
      .value=${own}
      hint=${own ? '' : 'Otherwise those of the shift.'}
      @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
        fields.change(
          `breaks of their own: ${event.detail.value ? 'yes' : 'no'}`,
          at('breaks'),
          event.detail.value ? (scenario.shift?.breaks ?? []) : undefined,
        )}
    ></cw-toggle>
    ${own ? breakEntries(fields, at('breaks')) : nothing}`;
}

export const breakEntries = (fields: Fields, place: At): TemplateResult =>
  fields.entries<{ from: string; minutes: number }>(place, {
    label: 'Breaks',
    add: 'one more break',
    none: 'None.',
    make: () => ({ from: '10:00', minutes: 10 }),
    one: (one) =>
      html`${fields.clock([...one, 'from'], 'From')}${fields.number([...one, 'minutes'], 'For', { unit: 'min', least: 1, step: 5 })}
      ${fields.text([...one, 'name'], 'Called', { placeholder: DEFAULTS.break.name })}${fields.toggle([...one, 'paid'], 'Paid like work', { otherwise: DEFAULTS.break.paid })}`,
  });

/** One step: how long it takes, who stands there, what it needs and where its pieces go. */
import { ruleClocks } from '../../../src/scenario/step-rules.ts';
import { html, nothing, type TemplateResult } from 'lit';
import { inSentence } from '../../../src/words/words.ts';
import { isSanding } from '../../../src/scenario/rules/remarks.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario, Step } from '../../../src/scenario/schema.ts';
import type { PartEvent } from '../../parts/events.ts';
import { asKind } from '../../parts/time-words.ts';
import { benchesOf, handsSteps, isWait, standersAt, stepName, withLevel } from './cell-data.ts';
import { more, type Fields } from './fields.ts';
import { countedField, timeKnownFields } from './known-fields.ts';

const LEVELS = [
  { value: '1', label: '1, in training' },
  { value: '2', label: '2, with help' },
  { value: '3', label: '3, alone' },
  { value: '4', label: '4, can train others' },
];

export const stepChoices = (
  scenario: Scenario,
  ids = Object.keys(scenario.steps),
): { value: string; label: string }[] => ids.map((id) => ({ value: id, label: stepName(scenario, id) }));

export function stepPanel(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const step = scenario.steps[id]!;
  return isWait(step) ? waitPanel(fields, scenario, id) : handsPanel(fields, scenario, id, step);
}

const kindOf = (fields: Fields, scenario: Scenario, id: string): TemplateResult =>
  fields.choice(
    ['steps', id, 'kind'],
    'It needs',
    [
      { value: 'hands', label: 'hands' },
      { value: 'wait', label: 'only time' },
    ],
    {
      otherwise: DEFAULTS.step.kind,
      hint: 'A cure or a rest needs only time: the clock runs on through breaks, and nobody stands there.',
      keep: (value) =>
        value === 'wait'
          ? needsOnlyTime(fields, scenario, id)
          : fields.change('needs hands', ['steps', id, 'kind'], undefined),
    },
  );

/** Nobody stands at a wait: those who did, no longer do. */
function needsOnlyTime(fields: Fields, scenario: Scenario, id: string): void {
  const others = (steps: string[]): string[] => steps.filter((step) => step !== id);
  const wanted = Object.entries(scenario.people).flatMap(
    ([who, person]): [(string | number)[], unknown][] => [
      ...(person.covers?.includes(id) === true
        ? [[['people', who, 'covers'], others(person.covers)] as [string[], unknown]]
        : []),
      ...(person.skills !== undefined && Object.hasOwn(person.skills, id)
        ? [[['people', who, 'skills', id], undefined] as [string[], unknown]]
        : []),
      ...(person.changes?.some((change) => change.covers.includes(id)) === true
        ? [
            [
              ['people', who, 'changes'],
              person.changes.map((change) => ({ ...change, covers: others(change.covers) })),
            ] as [string[], unknown],
          ]
        : []),
    ],
  );
  // A cure is what the data sheet says: always the same until somebody says otherwise.
  fields.changeMany('needs only time', [
    [['steps', id, 'kind'], 'wait'],
    [['steps', id, 'time'], asKind(scenario.steps[id]!.time, 'fixed')],
    ...wanted,
  ]);
}

function waitPanel(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const at = (key: string): (string | number)[] => ['steps', id, key];
  return html`${fields.time(at('time'), 'How long it waits')}${timeKnownFields(fields, at('time'), ['steps', id, 'known', 'time'])}${fields.caution('wait')}${kindOf(fields, scenario, id)}
  ${more('more about this step', backFields(fields, scenario, id), asideFields(fields, scenario, id), fields.text(['steps', id, 'timesFrom', 'time'], 'Where this time comes from', { most: 500 }))}`;
}

function handsPanel(fields: Fields, scenario: Scenario, id: string, step: Step): TemplateResult {
  const at = (key: string): (string | number)[] => ['steps', id, key];
  const sanding = isSanding({ id, name: step.name ?? id, kind: 'hands' });
  return html` ${fields.time(at('time'), 'How long it takes', 'Hands on one piece, without the waiting.')}
  ${timeKnownFields(fields, at('time'), ['steps', id, 'known', 'time'])} ${whoStands(fields, scenario, id)}
  ${fields.number(at('benches'), 'Benches', { whole: true, most: 1000, to: 8, otherwise: benchesOf(step), ruled: true, hint: 'So many can be worked at once. None: it needs no bench of its own.' })}
  ${fields.number(at('rack'), 'Rack before it', { unit: 'slots', whole: true, usual: 'no limit', hint: 'Empty: no limit. 0: handed over in place.' })}
  ${fields.toggle(at('whole'), 'Finished before any break', { hint: 'Once begun it is not put down: glue does not wait.' })}
  ${step.whole === true ? plannedAt(fields, id, step) : nothing}
  ${sanding ? fields.caution('sanding') : nothing} ${kindOf(fields, scenario, id)}
  ${more(
    'more about this step',
    fields.choice(
      at('people'),
      'Hands needed at once',
      [
        { value: '1', label: 'one person' },
        { value: '2', label: 'two people' },
      ],
      {
        otherwise: '1',
        keep: (value) =>
          fields.change(
            `takes ${value === '2' ? 'two people' : 'one person'}`,
            at('people'),
            value === '2' ? 2 : undefined,
          ),
      },
    ),
    fields.caution('hands at once'),
    takesFields(fields, scenario, id),
    usesFields(fields, scenario, id, step),
    backFields(fields, scenario, id),
    fields.perhapsTime(
      at('repeatTime'),
      'Another time when it comes back',
      { quick: 3, usual: 4, slow: 6 },
      'The second and later visit of the same piece.',
    ),
    timeKnownFields(fields, at('repeatTime'), ['steps', id, 'known', 'repeatTime']),
    fields.choice(
      at('order'),
      'Who is next in its line',
      [
        { value: 'first come', label: 'first come' },
        { value: 'earliest due', label: 'earliest due' },
      ],
      { otherwise: DEFAULTS.step.order, hint: 'Rush pieces always go first.' },
    ),
    ...ruleClocks().map(({ place, label }) =>
      fields.clock(['steps', id, ...place], label, { usual: 'any time' }),
    ),
    asideFields(fields, scenario, id),
    fields.text(['steps', id, 'timesFrom', 'time'], 'Where the time comes from', { most: 500 }),
    fields.text(
      ['steps', id, 'timesFrom', 'repeatTime'],
      'Where the time for pieces that come back comes from',
      { most: 500 },
    ),
  )}`;
}

function plannedAt(fields: Fields, id: string, step: Step): TemplateResult {
  const place = ['steps', id, 'plannedAt'];
  const slow = typeof step.plannedAt === 'number';
  return html`${fields.choice(
    place,
    'Does one more still fit? Asked with',
    [
      { value: 'mean', label: 'the usual time' },
      { value: 'slow', label: 'a slow time' },
    ],
    {
      otherwise: DEFAULTS.step.plannedAt,
      shown: slow ? 'slow' : 'mean',
      keep: (value) =>
        fields.change(
          `fits by ${value === 'slow' ? 'a slow time' : 'the usual time'}`,
          place,
          value === 'slow' ? 95 : undefined,
        ),
      hint: 'Before a break or the end a piece is only begun when it still fits.',
    },
  )}${slow ? fields.number(place, 'Slow enough for so many pieces in a hundred', { unit: '%', least: 1, most: 99.9 }) : nothing}`;
}

/** Ticking somebody adds the step to what they cover, and to what they can do where the file lists it. */
function whoStands(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const there = new Map(standersAt(scenario, id).map((one) => [one.id, one]));
  return html`<fieldset class="several">
    <legend>Who stands here</legend>
    ${Object.entries(scenario.people).map(
      ([who, person]) =>
        html`<div class="stander">
          <cw-toggle
            label=${person.name ?? who}
            .value=${there.has(who)}
            @cw-change=${(event: PartEvent<'cw-change', boolean>) => stand(fields, scenario, who, id, event.detail.value)}
          ></cw-toggle>
          ${
            there.has(who) && person.skills !== undefined
              ? fields.of(person.name ?? who).choice(['people', who, 'skills', id], 'Level', LEVELS, {
                  otherwise: '3',
                  shown: String(there.get(who)!.level ?? 3),
                  list: true,
                  keep: (value) =>
                    fields
                      .of(person.name ?? who)
                      .change(
                        `${stepName(scenario, id)} at level ${value}`,
                        ['people', who, 'skills', id],
                        withLevel(person.skills?.[id], Number(value)),
                      ),
                })
              : nothing
          }
        </div>`,
    )}
    ${fields.said(['steps', id])}
    <p class="hint">
      Who does what first is set with each person. Training clears people for a task, not this.
    </p>
  </fieldset>`;
}

export function stand(fields: Fields, scenario: Scenario, who: string, step: string, there: boolean): void {
  const person = scenario.people[who]!;
  const able = handsSteps(scenario)
    .map(([id]) => id)
    .filter((id) => Object.hasOwn(person.skills ?? {}, id));
  const covers = person.covers ?? able;
  const wanted: [(string | number)[], unknown][] = [
    [['people', who, 'covers'], there ? [...covers, step] : covers.filter((one) => one !== step)],
  ];
  if (there && person.skills !== undefined && !Object.hasOwn(person.skills, step))
    wanted.push([['people', who, 'skills', step], 3]);
  if (!there && (person.changes ?? []).some((change) => change.covers.includes(step))) {
    wanted.push([
      ['people', who, 'changes'],
      (person.changes ?? []).map((change) => ({
        ...change,
        covers: change.covers.filter((one) => one !== step),
      })),
    ]);
  }
  fields
    .of(person.name ?? who)
    .changeMany(
      `${there ? 'stands' : 'no longer stands'} at ${inSentence(stepName(scenario, step))}`,
      wanted,
    );
}

/** From the step on, at the earliest: what is taken here is free again at the end of one of these. */
const laterSteps = (scenario: Scenario, id: string): string[] => {
  const ids = Object.keys(scenario.steps);
  return ids.slice(ids.indexOf(id));
};

function takesFields(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const gear = Object.entries(scenario.gear ?? {}).map(([value, one]) => ({
    value,
    label: one.name ?? value,
  }));
  if (gear.length === 0)
    return html`<p class="hint">
      There is no clamp set or other gear to take yet: put some in under “Clamps and gear”.
    </p>`;
  return fields.entries<{ gear: string; until: string }>(['steps', id, 'takes'], {
    label: 'Taken here, and kept with the piece',
    add: 'one more thing taken',
    none: 'Nothing.',
    make: () => ({ gear: gear[0]!.value, until: laterSteps(scenario, id).at(-1)! }),
    one: (at) =>
      html`${fields.choice([...at, 'gear'], 'What', gear, { otherwise: gear[0]!.value, list: true })}
      ${fields.choice([...at, 'until'], 'Free again at the end of', stepChoices(scenario, laterSteps(scenario, id)), { otherwise: id, list: true, keep: (value) => fields.change(`kept until ${stepName(scenario, value)}`, [...at, 'until'], value) })}`,
  });
}

function usesFields(fields: Fields, scenario: Scenario, id: string, step: Step): TemplateResult {
  const gear = Object.entries(scenario.gear ?? {});
  return html`${
    gear.length === 0
      ? nothing
      : html`<fieldset class="several">
          <legend>Used while it is worked at</legend>
          ${gear.map(
            ([value, one]) =>
              html`<cw-toggle
                label=${one.name ?? value}
                .value=${(step.uses ?? []).includes(value)}
                @cw-change=${(event: PartEvent<'cw-change', boolean>) => use(fields, id, step, value, event.detail.value)}
              ></cw-toggle>`,
          )}${fields.said(['steps', id, 'uses'])}
        </fieldset>`
  }`;
}

/**
 * Naming gear makes a step's own benches none unless they are written down; they are, so that ticking a box
 * changes nothing else.
 */
export function use(fields: Fields, id: string, step: Step, gear: string, used: boolean): void {
  const uses = used ? [...(step.uses ?? []), gear] : (step.uses ?? []).filter((one) => one !== gear);
  fields.changeMany(`${used ? 'uses' : 'no longer uses'} ${gear}`, [
    [['steps', id, 'uses'], uses.length === 0 ? undefined : uses],
    ...(step.benches === undefined
      ? [[['steps', id, 'benches'], benchesOf(step)] as [(string | number)[], unknown]]
      : []),
  ]);
}

function backFields(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  return html`${fields.entries<{ to: string; percent: number; cause?: string }>(['steps', id, 'rework'], {
    label: 'Sent back from here',
    add: 'something is sent back',
    none: 'Nothing.',
    make: () => ({ to: id, percent: 5 }),
    one: (at) =>
      html`${fields.number([...at, 'percent'], 'Of a hundred pieces', { unit: '%', most: 100 })}
      ${fields.choice([...at, 'to'], 'Back to', stepChoices(scenario), { otherwise: id, list: true, keep: (value) => fields.change(`back to ${stepName(scenario, value)}`, [...at, 'to'], value) })}
      ${countedField(fields, [...at, 'known'], 'pieces')} ${fields.text([...at, 'cause'], 'Why')}`,
  })}${fields.number(['steps', id, 'scrap'], 'Scrapped here', { unit: '%', most: 100, step: 0.5, otherwise: 0 })}
  ${(scenario.steps[id]?.scrap ?? 0) > 0 ? countedField(fields, ['steps', id, 'known', 'scrap'], 'pieces') : nothing}`;
}

function asideFields(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const aside = scenario.steps[id]?.aside === true;
  const others = Object.keys(scenario.steps).filter((one) => one !== id);
  return html`${fields.toggle(['steps', id, 'aside'], 'Off the main path', { hint: 'Only pieces that are sent back come here.' })}
  ${aside ? fields.choice(['steps', id, 'then'], 'From here it goes on to', [{ value: '', label: 'the out-rack' }, ...stepChoices(scenario, others)], { otherwise: '', list: true }) : nothing}`;
}

/** The day: the shift, what comes in, what stands there already, what is on hold, and what leaves. */
import { html, nothing, type TemplateResult } from 'lit';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { CarryOver, Intake, Scenario } from '../../../src/scenario/schema.ts';
import { handsSteps } from './cell-data.ts';
import { offerMovedDay } from './moved-day.ts';
import { more, type Fields } from './fields.ts';
import { breakEntries } from './panel-people.ts';
import { stepChoices } from './panel-step.ts';

type At = (string | number)[];
const productChoices = (scenario: Scenario): { value: string; label: string }[] => [
  { value: '', label: 'as the mix has it' },
  ...Object.entries(scenario.products ?? {}).map(([value, one]) => ({ value, label: one.name ?? value })),
];
const product = (fields: Fields, scenario: Scenario, at: At): TemplateResult | typeof nothing =>
  Object.keys(scenario.products ?? {}).length < 2
    ? nothing
    : fields.choice([...at, 'product'], 'Product', productChoices(scenario), { otherwise: '', list: true });

export function shiftPanel(fields: Fields, scenario: Scenario): TemplateResult {
  const at = (...keys: At): At => ['shift', ...keys];
  const overtime = scenario.shift?.overtime?.until ?? DEFAULTS.shift.overtime.until;
  return html` ${fields.clock(at('start'), 'Starts', { otherwise: DEFAULTS.shift.start, then: (from, to) => offerMovedDay(fields.store, from, to) })}${fields.clock(at('end'), 'Ends', { otherwise: DEFAULTS.shift.end, hint: 'At or before the start: the next day.' })}
  ${fields.number(at('target'), 'Good pieces due', { whole: true, usual: 'no number' })}
  ${breakEntries(fields, at('breaks'))}${fields.caution('breaks')}
  ${fields.choice(
    at('overtime', 'until'),
    'Overtime',
    [
      { value: 'none', label: 'none' },
      { value: 'target', label: 'until the number is made' },
      { value: 'empty', label: 'until the cell is empty' },
    ],
    { otherwise: DEFAULTS.shift.overtime.until },
  )}
  ${
    overtime === 'none'
      ? nothing
      : html`${fields.number(at('overtime', 'cap'), 'At most', { unit: 'min', step: 5, otherwise: DEFAULTS.shift.overtime.cap, ruled: true, to: 180 })}
        ${fields.several(
          at('overtime', 'who'),
          'Only these people (nobody ticked: everybody who may)',
          Object.entries(scenario.people).map(([value, one]) => ({ value, label: one.name ?? value })),
          { word: 'overtime with' },
        )}${fields.caution('overtime')}`
  }
  ${more(
    'more about the shift',
    fields.number(at('tidyUp'), 'Tidying up', {
      unit: 'min',
      step: 5,
      otherwise: DEFAULTS.shift.tidyUp,
      hint: 'No new piece so long before the end.',
    }),
    fields.choice(
      at('atEnd'),
      'At the end a piece in hand is',
      [
        { value: 'finish', label: 'finished' },
        { value: 'put down', label: 'put down' },
      ],
      { otherwise: DEFAULTS.shift.atEnd },
    ),
    fields.number(at('allowance'), 'Allowance on all hands times', {
      unit: 'times',
      least: 1,
      most: 3,
      step: 0.01,
      otherwise: DEFAULTS.shift.allowance,
      hint: 'With the breaks entered, common practice is 1.05 to 1.07: the 1.15 of a time standard has breaks in it.',
    }),
  )}`;
}

const KINDS = [
  { value: 'at start', label: 'all there at the start' },
  { value: 'beat', label: 'one every so many minutes' },
  { value: 'list', label: 'so many at these times' },
  { value: 'random', label: 'at irregular times' },
  { value: 'constant', label: 'always so many inside' },
];

/** What stands for an intake of another kind, keeping what the kinds share. */
function intakeOf(kind: string, now: Intake | undefined, start: string): Intake {
  // All that was there at the start comes in one delivery, to be taken apart.
  const units = now === undefined ? 60 : now.kind === 'at start' ? Math.max(1, now.units) : 10;
  const shared = {
    ...(now?.whenFull === undefined ? {} : { whenFull: now.whenFull }),
    ...(now?.late === undefined ? {} : { late: now.late }),
    ...(now?.dueAfter === undefined ? {} : { dueAfter: now.dueAfter }),
  };
  switch (kind) {
    case 'beat':
      return { kind: 'beat', every: 20, ...shared };
    case 'list':
      return { kind: 'list', arrivals: [{ at: start, units }], ...shared };
    case 'random':
      return { kind: 'random', gap: { curve: 'exponential', mean: 20 }, ...shared };
    case 'constant':
      return { kind: 'constant', inside: 6, ...shared };
    default:
      return { kind: 'at start', units: 60, ...shared };
  }
}

export function intakePanel(fields: Fields, scenario: Scenario): TemplateResult {
  const { intake } = scenario;
  const at = (...keys: At): At => ['intake', ...keys];
  const kind = intake?.kind ?? 'at start';
  return html` ${fields.choice(['intake', 'kind'], 'Pieces come', KINDS, { otherwise: DEFAULTS.intake.kind, list: true, keep: (value) => fields.change(KINDS.find((one) => one.value === value)!.label, ['intake'], intakeOf(value, intake, scenario.shift?.start ?? DEFAULTS.shift.start)) })}
  ${
    kind === 'at start'
      ? fields.number(at('units'), 'How many', {
          unit: 'pieces',
          whole: true,
          otherwise: DEFAULTS.intake.units,
          ruled: true,
          keep: (value) =>
            fields.change(`${value ?? DEFAULTS.intake.units} pieces at the start`, ['intake'], {
              ...(intake ?? { kind: 'at start' }),
              units: value ?? DEFAULTS.intake.units,
            }),
        })
      : nothing
  }
  ${kind === 'beat' ? html`${fields.number(at('every'), 'One every', { unit: 'min', least: 0.1, ruled: true })}${fields.number(at('units'), 'So many altogether', { whole: true, usual: 'no end' })}` : nothing}
  ${kind === 'random' ? html`${fields.time(at('gap'), 'From one to the next')}${fields.number(at('units'), 'So many altogether', { whole: true, usual: 'no end' })}` : nothing}
  ${kind === 'constant' ? fields.number(at('inside'), 'So many inside', { unit: 'pieces', whole: true, least: 1, ruled: true, hint: 'A new one comes in whenever one leaves.' }) : nothing}
  ${
    kind === 'list'
      ? fields.entries<{ at: string; units?: number }>(at('arrivals'), {
          label: 'Deliveries',
          add: 'one more delivery',
          none: 'None.',
          make: () => ({ at: scenario.shift?.start ?? DEFAULTS.shift.start, units: 8 }),
          one: (one) =>
            html`${fields.clock([...one, 'at'], 'At')}${fields.number([...one, 'units'], 'Pieces', { whole: true, least: 1, otherwise: 1 })}
            ${more('more', product(fields, scenario, one), fields.clock([...one, 'due'], 'Due at', { usual: 'no time' }), fields.number([...one, 'dueAfter'], 'or due so long after it has come', { unit: 'min', step: 30, usual: 'as all are' }), fields.toggle([...one, 'rush'], 'Rush: always first'), fields.text([...one, 'name'], 'Called'))}`,
        })
      : nothing
  }
  ${
    intake === undefined
      ? nothing
      : more(
          'due, late, or no room',
          fields.number(at('dueAfter'), 'Each is due so long after it has come', {
            unit: 'min',
            step: 30,
            usual: 'no time',
          }),
          fields.number(at('late'), 'Everything comes later by', {
            unit: 'min',
            step: 10,
            otherwise: DEFAULTS.intake.late,
          }),
          fields.choice(
            at('whenFull'),
            'When the first rack is full',
            [
              { value: 'hold', label: 'it waits outside' },
              { value: 'divert', label: 'it goes elsewhere' },
            ],
            { otherwise: DEFAULTS.intake.whenFull },
          ),
        )
  }`;
}

const STATES = [
  { value: 'waiting', label: 'waiting' },
  { value: 'curing', label: 'curing' },
  { value: 'in hand', label: 'in hand' },
  { value: 'put down', label: 'put down half done' },
  { value: 'blocked', label: 'done, nowhere to put it' },
];

export function carryPanel(fields: Fields, scenario: Scenario): TemplateResult {
  return html`<p class="hint">What last night left: compare with the clamps loaded as they are, not empty.</p>
    ${fields.entries<CarryOver>(['carryOver'], {
      label: 'Stands in the cell at the start',
      add: 'something stands there',
      none: 'Nothing: racks and clamps are empty.',
      make: () => ({ at: Object.keys(scenario.steps)[0]!, units: 1 }),
      one: (one, entry) =>
        html` ${fields.number([...one, 'units'], 'Pieces', { whole: true, least: 1, most: 10_000, otherwise: 1 })}
        ${fields.choice([...one, 'at'], 'At', stepChoices(scenario), { otherwise: '', list: true })}
        ${fields.choice([...one, 'state'], 'It is', STATES, { otherwise: 'waiting', list: true })}
        ${more(
          'more',
          product(fields, scenario, one),
          entry.state === undefined || entry.state === 'waiting' || entry.state === 'blocked'
            ? nothing
            : fields.number([...one, 'minutes'], entry.state === 'in hand' ? 'Already worked' : 'Left', {
                unit: 'min',
                usual: entry.state === 'in hand' ? 'none' : 'a full time',
              }),
          entry.state === 'in hand'
            ? fields.choice(
                [...one, 'person'],
                'Whose',
                [
                  { value: '', label: 'as the crew order has it' },
                  ...Object.entries(scenario.people).map(([value, who]) => ({
                    value,
                    label: who.name ?? value,
                  })),
                ],
                { otherwise: '', list: true },
              )
            : nothing,
          entry.state === 'blocked'
            ? fields.choice(
                [...one, 'to'],
                'Should go to',
                [{ value: '', label: 'the next step' }, ...stepChoices(scenario)],
                { otherwise: '', list: true },
              )
            : nothing,
          fields.number([...one, 'arrived'], 'Came so long before the start', { unit: 'min', otherwise: 0 }),
          fields.number([...one, 'waited'], 'Has stood in this line, or blocked, for', {
            unit: 'min',
            otherwise: 0,
          }),
          fields.clock([...one, 'due'], 'Due at', { usual: 'no time' }),
          fields.number([...one, 'dueAfter'], 'or due so long after it came', {
            unit: 'min',
            step: 30,
            usual: 'no time',
          }),
          fields.toggle([...one, 'rush'], 'Rush: always first'),
          fields.text([...one, 'name'], 'Called'),
          Object.keys(scenario.gear ?? {}).length === 0
            ? nothing
            : fields.several(
                [...one, 'gear'],
                'Holds (nothing ticked: what its place says)',
                Object.entries(scenario.gear ?? {}).map(([value, gear]) => ({
                  value,
                  label: gear.name ?? value,
                })),
                { word: 'holds' },
              ),
          ...handsSteps(scenario).map(([step, own]) =>
            fields.number([...one, 'visits', step], `Times already at ${own.name ?? step}`, {
              whole: true,
              most: 1000,
              usual: 'once at each before',
            }),
          ),
        )}`,
    })}`;
}

export const holdsPanel = (fields: Fields, scenario: Scenario): TemplateResult =>
  fields.entries<{ before: string; until: string; product: string }>(['holds'], {
    label: 'On hold',
    add: 'one more hold',
    none: 'Nothing is on hold.',
    make: () => ({
      before: handsSteps(scenario)[0]?.[0] ?? '',
      until: '09:00',
      product: Object.keys(scenario.products ?? { piece: {} })[0]!,
    }),
    one: (one, entry) =>
      html`${fields.choice(
          [...one, 'before'],
          'Stands aside before',
          stepChoices(
            scenario,
            handsSteps(scenario).map(([id]) => id),
          ),
          { otherwise: '', list: true },
        )}${fields.clock([...one, 'until'], 'Until')}
        ${product(fields, scenario, one)}${fields.text([...one, 'whose'], 'Who has to decide')}
        <cw-text
          label="Only these pieces, by name"
          .value=${((entry as { units?: string[] }).units ?? []).join(', ')}
          hint="Names with commas between; empty: all of them."
          @cw-change=${(event: CustomEvent<{ value: string }>) => {
            const names = event.detail.value
              .split(',')
              .map((name) => name.trim())
              .filter((name) => name !== '');
            fields.change('the pieces on hold', [...one, 'units'], names.length === 0 ? undefined : names);
          }}
        ></cw-text
        >${fields.said([...one, 'units'])}`,
  });

export function outRackPanel(fields: Fields, scenario: Scenario): TemplateResult {
  const there = scenario.outRack !== undefined;
  return html`<cw-toggle
      label="Finished pieces leave on racks"
      .value=${there}
      hint=${there ? '' : 'Otherwise each leaves as it is done.'}
      @cw-change=${(event: CustomEvent<{ value: boolean }>) => fields.change(event.detail.value ? 'pieces leave on racks' : 'pieces leave one by one', ['outRack'], event.detail.value ? { size: 10, racks: 2, back: 15 } : undefined)}
    ></cw-toggle>
    ${
      there
        ? html`${fields.number(['outRack', 'size'], 'Pieces on a rack', { whole: true, least: 1, most: 10_000 })}${fields.number(['outRack', 'racks'], 'Racks', { whole: true, least: 1, most: 1000, otherwise: DEFAULTS.outRack.racks })}
          ${fields.number(['outRack', 'back'], 'A rack is back after', { unit: 'min', otherwise: DEFAULTS.outRack.back })}
          ${fields.number(['outRack', 'standing'], 'Pieces on a part-filled one at the start', { whole: true, otherwise: DEFAULTS.outRack.standing })}`
        : nothing
    }`;
}

/** Everything else of the cell in a few words a line; each line opens what stands behind it. */
import { html, nothing, type TemplateResult } from 'lit';
import { counted, listed, plain } from '../../../src/words/words.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { calendarWords } from './calendar-words.ts';
import { isWait, spotKey, type Spot } from './cell-data.ts';
import type { Kind } from './references.ts';
import { intakeWords, overtimeWords, personWords, shiftWords } from './words.ts';

interface Line {
  spot: Spot;
  name: string;
  words: string;
}

interface Section {
  heading: string;
  lines: Line[];
  add?: { kind: Kind; words: string };
}

export function sectionsOf(scenario: Scenario): Section[] {
  const currency = scenario.money?.currency ?? DEFAULTS.money.currency;
  return [
    {
      heading: 'The crew',
      add: { kind: 'people', words: 'one more person' },
      lines: Object.entries(scenario.people).map(([id, person]) => ({
        spot: { kind: 'people', id },
        name: person.name ?? id,
        words: [
          personWords(scenario, person),
          ...hours(scenario, id),
          ...(person.pay === undefined ? [] : [`${currency}${plain(person.pay)} an hour`]),
        ].join('; '),
      })),
    },
    {
      heading: 'Clamps and gear',
      add: { kind: 'gear', words: 'one more kind of gear' },
      lines: Object.entries(scenario.gear ?? {}).map(([id, gear]) => ({
        spot: { kind: 'gear', id },
        name: gear.name ?? id,
        words: [
          `${plain(gear.count)} of them`,
          tiedUp(scenario, id),
          ...(gear.price === undefined ? [] : [`one more costs ${currency}${plain(gear.price)}`]),
        ].join('; '),
      })),
    },
    {
      heading: 'Products',
      add: { kind: 'products', words: 'one more product' },
      lines: Object.entries(scenario.products ?? {}).map(([id, product]) => ({
        spot: { kind: 'products', id },
        name: product.name ?? id,
        words: share(scenario, product.share ?? 1),
      })),
    },
    {
      heading: 'The day',
      lines: [
        line('shift', 'The shift', `${shiftWords(scenario)}; ${overtimeWords(scenario)}`),
        line('intake', 'What comes in', intakeWords(scenario.intake)),
        line('carryOver', 'There at the start', carryWords(scenario)),
        line(
          'holds',
          'On hold',
          (scenario.holds ?? []).length === 0 ? 'nothing' : counted(scenario.holds!.length, 'hold'),
        ),
        line(
          'outRack',
          'Out-rack',
          scenario.outRack === undefined
            ? 'each piece leaves as it is done'
            : `racks of ${scenario.outRack.size}`,
        ),
        line(
          'nextShifts',
          'Shifts that follow',
          (scenario.nextShifts ?? []).length === 0 ? 'none' : plain(scenario.nextShifts!.length),
        ),
        line('calendar', 'The calendar', calendarWords(scenario)),
      ],
    },
    {
      heading: 'Set once',
      lines: [
        line('about', 'The name of it', scenario.name),
        line(
          'money',
          'Money and rules of pay',
          scenario.money?.margin === undefined
            ? 'what a piece brings in is not said'
            : `a good piece brings in ${currency}${plain(scenario.money.margin)}`,
        ),
        line(
          'limits',
          'Limits on people',
          Object.keys(scenario.limits?.vibration ?? {}).length === 0
            ? 'none written down'
            : 'vibration of tools written down',
        ),
        line('skillLevels', 'Skill levels', 'what in training, with help, alone mean'),
        line(
          'study',
          'How sure to be',
          `to within ${plain(scenario.study?.precision ?? DEFAULTS.study.precision)} units a shift`,
        ),
        line(
          'options',
          'Options',
          Object.keys(scenario.options ?? {}).length === 0
            ? 'none yet'
            : counted(Object.keys(scenario.options!).length, 'option'),
        ),
        line('file', 'The file itself', 'everything, as text'),
      ],
    },
  ];
}

const line = (kind: string, name: string, words: string): Line => ({ spot: { kind, id: '' }, name, words });

function hours(scenario: Scenario, id: string): string[] {
  const { from, to, away = [], attendance } = scenario.people[id]!;
  return [
    ...(from === undefined && to === undefined
      ? []
      : [
          `${from ?? scenario.shift?.start ?? DEFAULTS.shift.start} to ${to ?? scenario.shift?.end ?? DEFAULTS.shift.end}`,
        ]),
    ...(away.length === 0 ? [] : [`away ${away.length === 1 ? 'once' : `${away.length} times`}`]),
    ...(attendance?.percent === 0 ? ['out'] : []),
  ];
}

function tiedUp(scenario: Scenario, gear: string): string {
  const name = (id: string): string => scenario.steps[id]?.name ?? id;
  const takes = Object.entries(scenario.steps).flatMap(([id, step]) =>
    (step.takes ?? [])
      .filter((take) => take.gear === gear)
      .map((take) => `from ${name(id)} to the end of ${name(take.until)}`),
  );
  const uses = Object.entries(scenario.steps)
    .filter(([, step]) => (step.uses ?? []).includes(gear))
    .map(([id]) => `during ${name(id)}`);
  return takes.length + uses.length === 0 ? 'no step needs it yet' : `tied up ${listed([...takes, ...uses])}`;
}

function share(scenario: Scenario, own: number): string {
  const total = Object.values(scenario.products ?? {}).reduce((sum, one) => sum + (one.share ?? 1), 0);
  return total > 0 ? `${plain(Math.round((own / total) * 1000) / 10)}% of the mix` : 'none of the mix';
}

function carryWords(scenario: Scenario): string {
  const all = (scenario.carryOver ?? []).map(({ at, units = 1, state }) => {
    const step = scenario.steps[at];
    const place =
      state === 'curing' || (step !== undefined && isWait(step)) ? 'curing' : `before ${step?.name ?? at}`;
    return `${units} ${place}`;
  });
  return all.length === 0 ? 'nothing: racks and clamps are empty' : listed(all);
}

export function ledger(
  scenario: Scenario,
  chosen: string,
  pick: (spot: Spot) => void,
  add: (kind: Kind) => void,
): TemplateResult[] {
  return sectionsOf(scenario).map(
    ({ heading, lines, add: more }) =>
      html`<section class="part">
        <h2>${heading}</h2>
        <ul>
          ${lines.map(
            ({ spot, name, words }) =>
              html`<li>
                <button
                  type="button"
                  class="line"
                  data-spot=${spotKey(spot)}
                  aria-current=${spotKey(spot) === chosen ? 'true' : 'false'}
                  @click=${() => pick(spot)}
                >
                  <span class="name">${name}</span><span class="about">${words}</span>
                </button>
              </li>`,
          )}
        </ul>
        ${more === undefined ? nothing : html`<button type="button" class="add" @click=${() => add(more.kind)}>+ ${more.words}</button>`}
      </section>`,
  );
}

/** Clamp sets and other gear, and products. */
import { html, nothing, type TemplateResult } from 'lit';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { PartEvent } from '../../parts/events.ts';
import { handsSteps, stepName } from './cell-data.ts';
import { more, type Fields } from './fields.ts';
import { timeKnownFields } from './known-fields.ts';
import { stepChoices, use } from './panel-step.ts';

export function gearPanel(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const at = (...keys: (string | number)[]): (string | number)[] => ['gear', id, ...keys];
  return html` ${fields.number(at('count'), 'How many there are', { whole: true, most: 1000, to: 8, ruled: true, hint: 'What ties one up: glue-up, cure, waiting for hands, unclamping.' })}
  ${takenAt(fields, scenario, id)}
  ${fields.number(at('price'), 'What one more costs to buy', { unit: scenario.money?.currency ?? DEFAULTS.money.currency, most: 1e9, step: 100, otherwise: 0 })}
  ${more(
    'used for one step only',
    html`<fieldset class="several">
      <legend>Used while worked at</legend>
      ${handsSteps(scenario).map(
        ([step, one]) =>
          html`<cw-toggle
            label=${one.name ?? step}
            .value=${(one.uses ?? []).includes(id)}
            @cw-change=${(event: PartEvent<'cw-change', boolean>) => use(fields.of(one.name ?? step), step, one, id, event.detail.value)}
          ></cw-toggle>`,
      )}
    </fieldset>`,
  )}
  ${more(
    'breakdowns and times out of order',
    html`<cw-toggle
      label="It breaks down"
      .value=${scenario.gear?.[id]?.fails !== undefined}
      @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
        fields.change(
          `breaks down: ${event.detail.value ? 'yes' : 'no'}`,
          at('fails'),
          event.detail.value
            ? { every: { curve: 'exponential', mean: 2400 }, repair: { quick: 10, usual: 20, slow: 60 } }
            : undefined,
        )}
    ></cw-toggle>`,
    scenario.gear?.[id]?.fails === undefined
      ? nothing
      : html`${fields.time(at('fails', 'every'), 'Shift time between two breakdowns')}${fields.time(at('fails', 'repair'), 'Time to mend it')}`,
    fields.entries<{ from: string; minutes: number }>(at('out'), {
      label: 'Planned times out of order',
      add: 'one more time',
      none: 'None.',
      make: () => ({ from: '10:00', minutes: 60 }),
      one: (one) =>
        html`${fields.clock([...one, 'from'], 'From')}${fields.number([...one, 'minutes'], 'For', { unit: 'min', least: 1, step: 5 })}${fields.number([...one, 'items'], 'How many of them', { whole: true, least: 1, most: 1000, otherwise: DEFAULTS.gear.itemsOut })}`,
    }),
  )}`;
}

interface Take {
  step: string;
  index: number;
  until: string;
}

/** Where a clamp set is taken and where it is free again, from the side of the clamp set. */
function takenAt(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const hands = handsSteps(scenario).map(([step]) => step);
  const all = Object.keys(scenario.steps);
  const takes: Take[] = all.flatMap((step) =>
    (scenario.steps[step]!.takes ?? []).flatMap((take, index) =>
      take.gear === id ? [{ step, index, until: take.until }] : [],
    ),
  );
  const takesOf = (step: string): { gear: string; until: string }[] => scenario.steps[step]?.takes ?? [];
  const without = ({ step, index }: Take): { gear: string; until: string }[] | undefined => {
    const left = takesOf(step).filter((_, i) => i !== index);
    return left.length === 0 ? undefined : left;
  };
  const move = (take: Take, to: string): void => {
    const until = all.indexOf(take.until) < all.indexOf(to) ? to : take.until;
    fields.changeMany(`taken at ${stepName(scenario, to)}`, [
      [['steps', take.step, 'takes'], without(take)],
      [
        ['steps', to, 'takes'],
        [...takesOf(to), { gear: id, until }],
      ],
    ]);
  };
  const add = (): void => {
    const step = hands.find((one) => /glu|clamp/i.test(`${one} ${stepName(scenario, one)}`)) ?? hands[0];
    if (step === undefined) return;
    const later = all.slice(all.indexOf(step));
    const until = later.find((one) => /unclamp/i.test(`${one} ${stepName(scenario, one)}`)) ?? later.at(-1)!;
    fields.change(
      `taken at ${stepName(scenario, step)}`,
      ['steps', step, 'takes'],
      [...takesOf(step), { gear: id, until }],
    );
  };
  return html`<fieldset class="entries">
    <legend>Where it is tied up</legend>
    ${
      takes.length === 0
        ? html`<p class="hint">Nowhere yet: no step takes it, so it does not count.</p>`
        : takes.map(
            (take) =>
              html`<div class="entry">
                <cw-choice
                  list
                  label="Taken at"
                  .choices=${stepChoices(scenario, hands)}
                  value=${take.step}
                  @cw-change=${(event: PartEvent<'cw-change', string>) => move(take, event.detail.value)}
                ></cw-choice>
                <cw-choice
                  list
                  label="Free again at the end of"
                  .choices=${stepChoices(scenario, all.slice(all.indexOf(take.step)))}
                  value=${take.until}
                  @cw-change=${(event: PartEvent<'cw-change', string>) => fields.change(`free again after ${stepName(scenario, event.detail.value)}`, ['steps', take.step, 'takes', take.index, 'until'], event.detail.value)}
                ></cw-choice>
                ${fields.said(['steps', take.step, 'takes'])}
                <button
                  type="button"
                  class="plain small out"
                  @click=${() => fields.change(`no longer taken at ${stepName(scenario, take.step)}`, ['steps', take.step, 'takes'], without(take))}
                >
                  take out
                </button>
              </div>`,
          )
    }
    <button type="button" class="add" @click=${add}>
      ${takes.length === 0 ? '+ say where it is taken' : '+ taken at another step too'}</button
    >${fields.caution('gear taken')}
  </fieldset>`;
}

export function productPanel(fields: Fields, scenario: Scenario, id: string): TemplateResult {
  const at = (...keys: (string | number)[]): (string | number)[] => ['products', id, ...keys];
  const steps = Object.entries(scenario.steps);
  const product = scenario.products?.[id] ?? {};
  return html` ${fields.number(at('share'), 'Share of the mix', { most: 1e6, otherwise: DEFAULTS.product.share, hint: 'Beside the shares of the others: 70 and 30, or 2 and 1.' })}
  ${more(
    'times of its own',
    ...steps.map(
      ([step, one]) =>
        html`${fields.perhapsTime(at('times', step), one.name ?? step, one.time)}
        ${timeKnownFields(fields, at('times', step), at('known', step))}
        ${product.times?.[step] === undefined ? nothing : fields.text(at('timesFrom', step), 'Where this time comes from', { most: 500 })}`,
    ),
    fields.caution('own times of a product'),
  )}
  ${more('comes back', fields.toggle(at('returned'), 'Its pieces come back from a later department: counted once already, no new good units'))}
  ${more('longer or shorter than the others', ...steps.map(([step, one]) => fields.number(at('factors', step), one.name ?? step, { unit: 'times', least: 0.01, most: 20, step: 0.05, otherwise: DEFAULTS.product.factor })))}
  ${more(
    'its way through the cell',
    fields.several(at('skips'), 'Does not go through', stepChoices(scenario), { word: 'skips' }),
    fields.choice(
      at('enters'),
      'Comes in at',
      [{ value: '', label: 'the first step of its way' }, ...stepChoices(scenario)],
      { otherwise: '', list: true },
    ),
  )}`;
}

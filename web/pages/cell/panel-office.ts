/** What is set once: money, pay rules, limits, skill levels, how sure to be, the file itself. */
import { html, nothing, type TemplateResult } from 'lit';
import { isSanding } from '../../../src/scenario/rules/remarks.ts';
import { COUNTED_OVER, MEMORY_PERCENT } from '../../../src/scenario/known.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { handsSteps } from './cell-data.ts';
import { more, type Fields } from './fields.ts';

type At = (string | number)[];

export function moneyPanel(fields: Fields, scenario: Scenario): TemplateResult {
  const at = (...keys: At): At => ['money', ...keys];
  const currency = scenario.money?.currency ?? DEFAULTS.money.currency;
  return html` ${fields.number(at('margin'), 'One extra good piece brings in', { unit: currency, most: 1e9, usual: 'not said', hint: 'Material off.' })}
  ${fields.toggle(at('sellsMore'), 'More good pieces than are due can be sold')}
  ${fields.number(at('benchPrice'), 'One more bench costs', { unit: currency, most: 1e9, step: 50, usual: 'not said' })}
  ${fields.text(at('currency'), 'Currency', { most: 8, placeholder: '$' })}
  ${more('payback', fields.number(at('shiftsPerYear'), 'Shifts a year', { least: 1, most: 2000, otherwise: DEFAULTS.money.shiftsPerYear }), fields.number(at('discount'), 'Money a year from now is worth less by', { unit: '%', most: 100, otherwise: DEFAULTS.money.discount, step: 0.5 }))}
  ${more(
    'rules of pay',
    payRule(fields, scenario),
    fields.number(['pay', 'overtimeFactor'], 'Overtime is paid', {
      unit: 'times',
      least: 1,
      most: 10,
      step: 0.1,
      otherwise: DEFAULTS.pay.overtimeFactor,
    }),
    afterRule(fields, scenario, 'weeklyAfter', 'By the week', '40 h a week', 168, 45),
    fields.number(['pay', 'doubleAfter'], 'Double time after', { unit: 'h a day', most: 24, usual: 'never' }),
    fields.number(['pay', 'doubleFactor'], 'Double time is', {
      unit: 'times',
      least: 1,
      most: 10,
      step: 0.1,
      otherwise: DEFAULTS.pay.doubleFactor,
    }),
    fields.toggle(['pay', 'seventhDay'], 'The seventh day in a row is paid as overtime, after 8 h double'),
    fields.caution('overtime pay'),
  )}`;
}

const payRule = (fields: Fields, scenario: Scenario): TemplateResult =>
  afterRule(fields, scenario, 'dailyAfter', 'Overtime pay by the day', 'after their own end', 24, 8);

function afterRule(
  fields: Fields,
  scenario: Scenario,
  key: 'dailyAfter' | 'weeklyAfter',
  label: string,
  usual: string,
  most: number,
  offer: number,
): TemplateResult {
  const place = ['pay', key];
  const value = scenario.pay?.[key];
  const shown = value === undefined ? 'usual' : value === null ? 'never' : 'hours';
  return html`${fields.choice(
    place,
    label,
    [
      { value: 'usual', label: usual },
      { value: 'hours', label: 'after so many hours' },
      { value: 'never', label: 'never' },
    ],
    {
      otherwise: 'usual',
      shown,
      list: true,
      keep: (next) =>
        fields.change(
          `${label.toLowerCase()}: ${next}`,
          place,
          next === 'usual' ? undefined : next === 'never' ? null : offer,
        ),
    },
  )}${shown === 'hours' ? fields.number(place, 'After', { unit: 'h', most }) : nothing}`;
}

export function limitsPanel(fields: Fields, scenario: Scenario): TemplateResult {
  const place = ['limits'];
  const steps = handsSteps(scenario);
  return html`<p class="hint">
      A plan that adds work with shaking tools shows what it adds. Figures of the tool are its maker’s.
    </p>
    ${steps.filter(([id, step]) => isSanding({ id, name: step.name ?? id, kind: 'hands' }) || scenario.limits?.vibration?.[id] !== undefined).map(([id, step]) => vibration(fields, id, step.name ?? id))}
    ${fields.caution('limit of vibration')}
    ${more('other steps', ...steps.filter(([id, step]) => !isSanding({ id, name: step.name ?? id, kind: 'hands' }) && scenario.limits?.vibration?.[id] === undefined).map(([id, step]) => vibration(fields, id, step.name ?? id)))}
    ${fields.number([...place, 'vibrationPoints'], 'Most points of exposure a day in an offered plan', { least: 1, most: 10_000, step: 10, otherwise: DEFAULTS.limits.vibrationPoints })}
    ${fields.number([...place, 'hoursPerDay'], 'Most hours a day', { unit: 'h', least: 1, most: 24, usual: 'no limit' })}${fields.caution('limit of hours')}`;
}

const vibration = (fields: Fields, id: string, name: string): TemplateResult =>
  html`${fields.number(['limits', 'vibration', id], `${name}: vibration of the tool`, { unit: 'm/s²', most: 100, step: 0.5, usual: 'none' })}
  ${fields.number(['limits', 'trigger', id], `${name}: of the time the trigger is held`, { unit: '%', most: 100, step: 5, otherwise: DEFAULTS.limits.trigger })}`;

export function levelsPanel(fields: Fields, scenario: Scenario): TemplateResult {
  const levels = ['1, in training', '2, with help', '3, alone', '4, can train others'];
  const usual = { factors: [1.6, 1.25, 1, 1], rework: [1, 1, 1, 1] };
  const row = (key: 'factors' | 'rework', i: number, label: string, least: number): TemplateResult => {
    const now = scenario.skillLevels?.[key] ?? usual[key];
    return fields.number(['skillLevels', key, i], label, {
      unit: 'times',
      least,
      most: 20,
      step: 0.05,
      otherwise: now[i]!,
      keep: (value) =>
        fields.change(
          `level ${levels[i]}: ${value} times`,
          ['skillLevels', key],
          now.map((one, j) => (j === i ? (value ?? one) : one)),
        ),
    });
  };
  return html`<p class="hint">
      How much longer a piece takes, and how much more of it is sent back, at each level.
    </p>
    ${levels.map(
      (level, i) =>
        html`<h4>${level}</h4>
          ${row('factors', i, 'Takes', 0.01)}${row('rework', i, 'Sent back', 0)}`,
    )}`;
}

export const studyPanel = (fields: Fields): TemplateResult =>
  html` ${fields.number(['study', 'precision'], 'Sure to within', { unit: 'units', least: 0.01, most: 1e6, step: 0.05, otherwise: DEFAULTS.study.precision, hint: 'Half of this takes about four times as many shifts.' })}
  ${fields.number(['study', 'difference'], 'A difference matters from', { unit: 'units', least: 0.01, most: 1e6, step: 0.1, otherwise: DEFAULTS.study.difference })}
  ${fields.number(['study', 'promise'], 'A promise is kept on so many shifts of a hundred', { unit: '%', least: 1, most: 99.9, otherwise: DEFAULTS.study.promise })}
  ${fields.number(['study', 'confidence'], 'Ranges hold so many times in a hundred', { unit: '%', least: 50, most: 99.99, otherwise: DEFAULTS.study.confidence })}
  ${fields.number(['study', 'memory'], 'A time from memory is right to within', { unit: '%', least: 0.1, most: 90, otherwise: MEMORY_PERCENT, hint: 'Its mean, either way, 95 times in 100, where the step says nothing else.' })}
  ${fields.number(['study', 'counted'], 'A share from memory is as good as counted over', { unit: 'pieces or days', whole: true, least: 1, most: 1e9, otherwise: COUNTED_OVER })}
  ${fields.toggle(['study', 'timesKnown'], 'As if the times were exactly known', { hint: 'Ranges then say what luck alone leaves open.' })}
  ${fields.number(['study', 'most'], 'Most shifts tried for each option', { whole: true, least: 30, most: 10_000_000, step: 1000, otherwise: DEFAULTS.study.most })}${fields.caution('study')}`;

export const aboutPanel = (fields: Fields): TemplateResult =>
  html` ${fields.text(['name'], 'What this cell is called')}
  ${fields.text(['about'], 'About it', { most: 4000, tall: true })}
  ${fields.toggle(['invented'], 'The figures are made up', { hint: 'Said wherever an answer is shown.' })}
  ${more('the seed', fields.text(['seed'], 'Seed', { most: 200, placeholder: 'clampwright', hint: 'Any text. The same text gives the same shifts, here and on the command line.' }))}`;

export const followingPanel = (fields: Fields): TemplateResult =>
  html`<p class="hint">
      Each shift that follows: its “name”, “days” after the first, and “changes” to the first. What is left in
      the cell goes over to it.
    </p>
    ${fields.asText(['nextShifts'], 'Shifts that follow, as text', 'For example [ { "name": "Late shift", "days": 0, "changes": { "shift": { "start": "14:30", "end": "22:30" } } } ]. Empty: none.')}`;

export const optionsPanel = (fields: Fields): TemplateResult =>
  html`<p class="hint">
      Options are made and changed on the page <a href="#/compare">Compare</a>. Here they are as they stand in
      the file.
    </p>
    ${fields.asText(['options'], 'Options, as text', 'By short name: “name”, “note”, “price” and “changes” to the cell. Empty: none.')}`;

export const filePanel = (fields: Fields): TemplateResult =>
  fields.asText([], 'The whole file', 'It is checked as you type, and kept once it is fine.');

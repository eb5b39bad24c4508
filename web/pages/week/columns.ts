/** The days of a week side by side: whose crew, what it makes, what stands over, what is due. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { absentOn, dayWords, shortDay } from '../../../src/scenario/calendar.ts';
import { nameOf } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { OrderAnswer, WeekAnswer } from '../../../src/today/week.ts';
import { chanceWithRange, levelCells } from '../../../src/words/study-words.ts';
import { counted, fixed, listed, plain } from '../../../src/words/words.ts';
import { placed } from '../../parts/placed.ts';
import { shiftOf } from '../common/resolved.ts';

export const columnStyle = css`
  .days {
    list-style: none;
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(8.5rem, 1fr));
    gap: var(--space-6) var(--space-4);
    margin: 0 0 var(--space-8);
    padding: 0;
  }
  .days > li {
    border-top: 2px solid var(--ink);
    padding: var(--space-2) 0 0;
    min-width: 0;
  }
  .days h2 {
    font-size: var(--size-large);
    font-weight: 600;
    margin-bottom: 0;
  }
  .days p {
    margin: 0 0 var(--space-2);
    font-size: var(--size-small);
    line-height: 1.45;
  }
  .days .made {
    font: 500 var(--size-heading) / 1.2 var(--serif);
    font-variant-numeric: lining-nums tabular-nums;
    margin: var(--space-2) 0 0;
  }
  .scale {
    position: relative;
    height: 12px;
    margin: var(--space-1) 0 var(--space-2);
    border-bottom: 1px solid var(--hairline);
  }
  .scale span {
    position: absolute;
    bottom: 0;
  }
  .scale .range {
    height: 8px;
    background: var(--muted);
    opacity: 0.45;
  }
  .scale .middle {
    width: 2px;
    height: 12px;
    margin-left: -1px;
    background: var(--ink);
  }
  .scale .due {
    width: 0;
    height: 12px;
    border-left: 2px dashed var(--ink);
  }
  @media (max-width: 559px) {
    .days {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    .days {
      grid-template-columns: repeat(5, minmax(0, 1fr));
      gap: var(--space-3);
    }
    .scale .range {
      print-color-adjust: exact;
    }
  }
`;

const CREWS = { book: 'plan of the book', planned: 'planned here', file: 'posts of the file' };

/** `filed` is the cell with its calendar. */
export function dayColumns(filed: Scenario, week: WeekAnswer): TemplateResult {
  const top = Math.max(1, ...week.shifts.map(({ goodSpread }) => goodSpread.oneInTen), ...duesOf(week));
  return html`<ol class="days">
    ${week.days.map((_, i) => column(filed, week, i, top))}
  </ol>`;
}

const duesOf = ({ days }: WeekAnswer): number[] =>
  days.flatMap(({ scenario }) => {
    const { target } = shiftOf(scenario);
    return target === null ? [] : [target];
  });

function column(filed: Scenario, week: WeekAnswer, i: number, top: number): TemplateResult {
  const { day, crew, scenario } = week.days[i]!;
  const { goodSpread, scalars } = week.shifts[i]!;
  const { target, people } = shiftOf(scenario);
  const out = [...absentOn(filed, day).keys()].map((id) => nameOf(people, id));
  const { nineInTen, half, oneInTen } = goodSpread;
  const [nine, five, one] = levelCells(goodSpread);
  const due = week.orders.filter(({ order }) => order.due === day);
  return html`<li aria-label=${dayWords(day)}>
    <h2>${shortDay(day)}</h2>
    <p class="muted">${CREWS[crew]}${out.length === 0 ? '' : `, without ${listed(out)}`}</p>
    <p class="made">half ${five}</p>
    ${scale({ nineInTen, half, oneInTen }, target, top)}
    <p>nine in ten ${nine}, one in ten ${one}</p>
    ${target === null ? nothing : html`<p>${plain(target)} due: ${chanceWithRange(scalars.targetMet)}</p>`}
    <p>${fixed(scalars.inside.estimate, 1)} pieces stand over the night</p>
    <p>${fixed(scalars.overtime.estimate, 0)} min of overtime, all together</p>
    ${due.map((one) => html`<p>${orderWords(one)}</p>`)}
  </li>`;
}

function scale(
  { nineInTen, half, oneInTen }: { nineInTen: number; half: number; oneInTen: number },
  target: number | null,
  top: number,
): TemplateResult {
  const at = (value: number): string => `${((100 * value) / top).toFixed(2)}%`;
  return html`<div class="scale" aria-hidden="true">
    <span class="range" style=${placed({ left: at(nineInTen), width: at(oneInTen - nineInTen) })}></span>
    <span class="middle" style=${placed({ left: at(half) })}></span>
    ${target === null ? nothing : html`<span class="due" style=${placed({ left: at(target) })}></span>`}
  </div>`;
}

const orderWords = ({ order, chance }: OrderAnswer): string =>
  `${order.name} (${counted(order.units, 'piece')}) due${order.dueAt === undefined ? '' : ` ${order.dueAt}`}: ${chance === null ? 'after this week' : chanceWithRange(chance)}`;

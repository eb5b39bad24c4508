/** The figures of all options in one table, a row each. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { decimalsAlike, differenceAlike, rangeAlike } from '../../../src/words/alike.ts';
import { chanceCell, chanceHead, levelCells, shiftsInARow } from '../../../src/words/study-words.ts';
import { counted, fixed, inSentence, money, percent } from '../../../src/words/words.ts';
import type { Interval } from '../../../src/study/intervals/interval.ts';
import type { CaseSummary, PairSummary } from '../../../src/study/summary.ts';

export interface LedgerRow {
  id: string;
  name: string;
  /** Null while nothing has been run of it. */
  one: CaseSummary | null;
  pair: PairSummary | undefined;
}

export const ledgerStyle = css`
  .scroll {
    overflow-x: auto;
    margin-bottom: var(--space-4);
  }
  table {
    border-collapse: collapse;
    min-width: 100%;
    font-size: var(--size-small);
    line-height: 1.4;
  }
  th,
  td {
    text-align: right;
    vertical-align: baseline;
    font-weight: 400;
    padding: var(--space-2) 0 var(--space-2) var(--space-4);
    border-bottom: 1px solid var(--hairline);
    white-space: nowrap;
  }
  th:first-child {
    text-align: left;
    padding-left: 0;
    min-width: 8rem;
    white-space: normal;
  }
  thead th {
    color: var(--muted);
    border-bottom-color: var(--muted);
    vertical-align: bottom;
  }
  tbody th {
    font-weight: 600;
  }
  .slide {
    display: none;
  }
  /* On a phone the names stay while the figures are slid along. */
  @media screen and (max-width: 559px) {
    .slide {
      display: block;
    }
    table {
      border-collapse: separate;
      border-spacing: 0;
    }
    th:first-child {
      position: sticky;
      left: 0;
      background: var(--paper);
    }
  }
  @media print {
    .scroll {
      overflow: visible;
    }
    table {
      font-size: 7.5pt;
    }
    th,
    td {
      padding: 1mm 0 1mm 3mm;
    }
    th:first-child {
      min-width: 0;
    }
    tr {
      break-inside: avoid;
    }
  }
  td small {
    display: block;
    font-size: 1em;
    color: var(--muted);
  }
  caption {
    text-align: left;
    color: var(--muted);
    padding-bottom: var(--space-2);
  }
`;

export function ledger(rows: LedgerRow[], currency: string): TemplateResult {
  const cases = rows.flatMap(({ one }) => (one === null ? [] : [one]));
  const dated = cases.filter(({ target }) => target !== null);
  const chance = dated.length === 0 ? null : inSentence(chanceHead(dated));
  const shifts = shiftsInARow({ cases });
  const each = shifts === 1 ? '' : ' a shift';
  const decimals = {
    good: decimalsAlike(cases.map(({ good }) => good)),
    difference: decimalsAlike(rows.flatMap(({ pair }) => pair?.good ?? [])),
  };
  return html`<p class="muted small slide">
      Slide the table sideways: overtime and cost stand further along.
    </p>
    <div class="scroll" tabindex="0" role="region" aria-label="The figures of every choice">
      <table>
        <thead>
          <tr>
            <th scope="col">${shifts === 1 ? 'a shift' : `over ${counted(shifts, 'shift')}`}</th>
            <th scope="col">9 in 10, half,<br />1 in 10 make</th>
            ${chance === null ? nothing : html`<th scope="col">${chance}</th>`}
            <th scope="col">on average${each}</th>
            <th scope="col">against now${each}</th>
            <th scope="col">overtime${each},<br />all together</th>
            <th scope="col">a good<br />unit costs</th>
          </tr>
        </thead>
        <tbody>
          ${rows.map((row) => rowOf(row, currency, chance !== null, decimals))}
        </tbody>
      </table>
    </div>`;
}

/** Decimals are alike down a column. */
interface Decimals {
  good: number;
  difference: number;
}

function rowOf(
  { name, one, pair }: LedgerRow,
  currency: string,
  withChance: boolean,
  decimals: Decimals,
): TemplateResult {
  if (one === null || one.count < 2)
    return html`<tr>
      <th scope="row">${name}</th>
      <td colspan=${withChance ? 6 : 5} class="muted">being run</td>
    </tr>`;
  const { spread, target, good, overtime, overtimeChance, measures, costPerGood } = one;
  const mean = rangeAlike(good, decimals.good);
  return html`<tr>
    <th scope="row">${name}</th>
    <td>${levelCells(spread).map((level, i) => (i === 0 ? level : html`<br />${level}`))}</td>
    ${withChance ? html`<td>${target === null ? '–' : html`${chanceCell(target.chance)}<small>${chanceRange(target.chance)}</small>`}</td>` : nothing}
    <td>${mean.estimate}<small>${mean.range}</small></td>
    <td>${pair === undefined ? '–' : difference(pair, decimals.difference)}</td>
    <td>
      ${fixed(overtime.estimate, 0)} min<small
        >in ${overtimeChance.estimate === 0 ? chanceCell(overtimeChance) : percent(overtimeChance.estimate)}
        of shifts</small
      >${overtime.estimate < 0.5 ? nothing : html`<small>${fixed(measures.finishing.estimate, 0)} finishing, ${fixed(measures.plannedOvertime.estimate, 0)} planned</small>`}
    </td>
    <td>${Number.isFinite(costPerGood) && one.cost.estimate > 0 ? money(costPerGood, currency, 2) : '–'}</td>
  </tr>`;
}

/** Empty where all or none of the shifts made it: the cell itself then says what is left open. */
const chanceRange = ({ estimate, low, high }: Interval): string =>
  estimate === 0 || estimate === 1 ? '' : `${percent(low, 'down')} to ${percent(high, 'up')}`;

function difference({ good }: PairSummary, decimals: number): TemplateResult {
  const { estimate, range } = differenceAlike(good, decimals);
  return html`${estimate}<small>${range}</small>`;
}

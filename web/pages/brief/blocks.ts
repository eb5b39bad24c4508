/** The blocks of a page to hand on, as the page itself shows and prints them. */
import { css, html, nothing, type TemplateResult } from 'lit';
import { alignments, cleaned, type Block, type TableBlock } from '../../../src/document/document.ts';
import '../../parts/picture.ts';
import { placed } from '../../parts/placed.ts';

export const blockStyle = css`
  .blocks h2 {
    font-size: var(--size-large);
    font-weight: 600;
    margin: var(--space-6) 0 var(--space-2);
  }
  .blocks cw-picture {
    margin: var(--space-4) 0;
  }
  .columns {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 420px), 1fr));
    gap: 0 var(--space-8);
  }
  .blocks .small {
    line-height: 1.45;
  }
  .blocks ul,
  .blocks ol {
    margin: 0 0 var(--space-3);
    padding-left: 1.1em;
  }
  .blocks li {
    padding-bottom: var(--space-1);
  }
  .blocks dl {
    margin: 0 0 var(--space-3);
  }
  .blocks dl div {
    display: grid;
    grid-template-columns: 5.5rem 1fr;
    gap: var(--space-4);
    padding: var(--space-1) 0;
    border-bottom: 1px solid var(--hairline);
  }
  .blocks dt {
    color: var(--muted);
  }
  .blocks dd {
    margin: 0;
  }
  .scroll {
    overflow-x: auto;
  }
  .blocks table {
    border-collapse: collapse;
    font-size: var(--size-small);
    margin-bottom: var(--space-3);
  }
  .blocks caption {
    text-align: left;
    color: var(--muted);
    padding-bottom: var(--space-1);
  }
  .blocks th,
  .blocks td {
    text-align: left;
    vertical-align: baseline;
    font-weight: 400;
    padding: var(--space-1) var(--space-3) var(--space-1) 0;
    border-bottom: 1px solid var(--hairline);
  }
  .blocks thead th {
    color: var(--muted);
  }
  .blocks .right {
    text-align: right;
  }
  .blocks .short {
    white-space: nowrap;
  }
  .blocks .wordy tbody th {
    font-weight: 600;
  }
  /* On a phone a table of words is read row by row, each cell under its head. */
  @media screen and (max-width: 559px) {
    table.wordy,
    .wordy caption,
    .wordy tbody {
      display: block;
    }
    /* A picture made for paper keeps a size at which it can be read, and is slid along. */
    .made {
      overflow-x: auto;
    }
    .made cw-picture {
      min-width: 640px;
    }
    .wordy thead {
      position: absolute;
      clip-path: inset(50%);
      width: 1px;
      height: 1px;
      overflow: hidden;
    }
    .wordy tr {
      display: block;
      padding: var(--space-2) 0;
      border-bottom: 1px solid var(--hairline);
    }
    .blocks .wordy :is(th, td) {
      display: block;
      border: 0;
      padding: 0;
      text-align: left;
    }
    .wordy td[data-head]::before {
      content: attr(data-head) ': ' / '';
      color: var(--muted);
    }
  }
  .note {
    border-left: 4px solid var(--ink);
    padding-left: var(--space-3);
  }
  /* On paper everything follows the size at which the page fits one sheet. */
  @media print {
    .blocks {
      --at: calc(var(--print-size, 9) * 0.9pt);
      font-size: var(--at);
      line-height: 1.3;
    }
    .blocks p,
    .blocks ul,
    .blocks dl,
    .blocks table {
      margin-bottom: 1.2mm;
      max-width: none;
    }
    .blocks .small,
    .blocks caption,
    .blocks table {
      font-size: calc(var(--at) * 0.88);
      line-height: 1.25;
    }
    .blocks h2 {
      font-size: calc(var(--at) * 1.2);
      margin: 2mm 0 0.6mm;
    }
    .blocks li,
    .blocks dl div {
      padding: 0 0 0.3mm;
    }
    .blocks td,
    .blocks th {
      padding: 0.3mm 3mm 0.3mm 0;
    }
    .scroll {
      overflow: visible;
    }
    .blocks .right {
      white-space: nowrap;
    }
    .blocks .wordy {
      width: 100%;
      font-size: var(--at);
    }
    .blocks tr,
    .blocks li,
    .blocks h2 {
      break-inside: avoid;
    }
    .blocks h2 {
      break-after: avoid;
    }
    .blocks cw-picture {
      margin: 1mm 0;
      max-width: 140mm;
    }
    .columns {
      grid-template-columns: 1fr 1fr;
      gap: 0 8mm;
    }
  }
`;

/** @param size of the text on paper, points. */
export const blocks = (all: readonly Block[], size: number): TemplateResult =>
  html`<div class="blocks" style=${placed({ '--print-size': String(size) })}>${all.map(blockOf)}</div>`;

function blockOf(block: Block): TemplateResult {
  switch (block.kind) {
    case 'heading':
      return html`<h2>${cleaned(block.text)}</h2>`;
    case 'paragraph':
      return html`<p class=${block.small === true ? 'small muted' : ''}>${cleaned(block.text)}</p>`;
    case 'note':
      return html`<p class="note">${cleaned(block.text)}</p>`;
    case 'table':
      return tableOf(block);
    case 'picture':
      return html`<div class="made" tabindex="0" role="region" aria-label=${cleaned(block.description)}>
        <cw-picture .draw=${drawerOf(block.svg)} .table=${block.table ?? null}></cw-picture>
      </div>`;
    case 'list': {
      const items = block.items.map((item) => html`<li>${cleaned(item)}</li>`);
      const size = block.small === true ? 'small' : '';
      return block.ordered === true
        ? html`<ol class=${size}>
            ${items}
          </ol>`
        : html`<ul class=${size}>
            ${items}
          </ul>`;
    }
    case 'facts':
      return html`<dl>
        ${block.facts.map(
          ({ name, value }) =>
            html`<div>
              <dt>${cleaned(name)}</dt>
              <dd>${cleaned(value)}</dd>
            </div>`,
        )}
      </dl>`;
    case 'columns':
      return html`<div class="columns">
        ${block.columns.map((column) => html`<div>${column.map(blockOf)}</div>`)}
      </div>`;
  }
}

/** Letters from which a cell is words to read, not a figure to compare. */
const WORDY = 24;
/** Letters up to which a cell stays on one line. */
const SHORT = 16;

function tableOf(table: TableBlock): TemplateResult {
  const align = alignments(table);
  const wordy = table.rows.some((row) =>
    row.some((cell, i) => i > 0 && align[i] === 'left' && cell.length > WORDY),
  );
  const heads = table.head.map(cleaned);
  // The roles are said again: laid out row by row, a table is none to some browsers.
  return html`<div
    class="scroll"
    tabindex="0"
    role="region"
    aria-label=${cleaned(table.caption ?? `Figures: ${heads.filter((head) => head !== '').join(', ')}`)}
  >
    <table role="table" class=${wordy ? 'wordy' : ''}>
      ${
        table.caption === undefined
          ? nothing
          : html`<caption>
              ${cleaned(table.caption)}
            </caption>`
      }
      <thead role="rowgroup">
        <tr role="row">
          ${heads.map((cell, i) => (cell === '' ? html`<td role="cell"></td>` : html`<th role="columnheader" scope="col" class=${align[i]!}>${cell}</th>`))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        ${table.rows.map(
          (row) =>
            html`<tr role="row">
              ${row.map((cell, i) =>
                i === 0
                  ? html`<th role="rowheader" scope="row" class=${classOf(align[i]!, cell)}>
                      ${cleaned(cell)}
                    </th>`
                  : html`<td role="cell" class=${classOf(align[i]!, cell)} data-head=${heads[i] || nothing}>
                      ${cleaned(cell)}
                    </td>`,
              )}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

const classOf = (align: string, cell: string): string => (cell.length <= SHORT ? `${align} short` : align);

const drawers = new Map<string, () => string>();

/** The same picture keeps its drawer, and so is not drawn again. */
function drawerOf(svg: string): () => string {
  const known = drawers.get(svg);
  if (known !== undefined) return known;
  if (drawers.size > 20) drawers.clear();
  const made = (): string => svg;
  drawers.set(svg, made);
  return made;
}

/** What the columns and the words of a list are, for people to put right. */
import { html, nothing, type TemplateResult } from 'lit';
import { resolve } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { Role } from '../../../src/timing/header-words.ts';
import type { Mapping } from '../../../src/timing/mapping.ts';
import type { PartEvent } from '../../parts/events.ts';
import type { TimesAnswer } from '../../work/lists.ts';

const ROLES: { role: Role; label: string }[] = [
  { role: 'step', label: 'the step' },
  { role: 'minutes', label: 'the minutes' },
  { role: 'start', label: 'the start' },
  { role: 'end', label: 'the end' },
  { role: 'product', label: 'the product' },
  { role: 'person', label: 'the person' },
  { role: 'date', label: 'the date' },
  { role: 'rating', label: 'the rating' },
];

type Change = (mapping: Mapping) => void;

/** The first rows as they stand, and what each column was taken for. */
export function listColumns(
  { head, mapping: taken }: TimesAnswer,
  said: Mapping | null,
  change: Change,
): TemplateResult {
  const mapping = said ?? taken;
  const { columns } = mapping;
  const choices = [
    { value: '', label: 'nothing' },
    ...ROLES.map(({ role, label }) => ({ value: role, label })),
  ];
  const roleAt = (column: number): string => ROLES.find(({ role }) => columns[role] === column)?.role ?? '';
  const put = (column: number, role: string): void => {
    const rest = Object.fromEntries(
      Object.entries(columns).filter(([one, at]) => at !== column && one !== role),
    ) as Mapping['columns'];
    change({ ...mapping, columns: role === '' ? rest : { ...rest, [role]: column } });
  };
  return html`<section aria-labelledby="rows">
    <h2 id="rows">What the columns are</h2>
    <div class="scroll" tabindex="0" role="region" aria-labelledby="rows">
      <table>
        <thead>
          <tr>
            ${head.header.map(
              (name, column) =>
                html`<th scope="col">
                  <cw-choice
                    list
                    label=${name}
                    .choices=${choices}
                    .value=${roleAt(column)}
                    @cw-change=${(event: PartEvent<'cw-change', string>) => put(column, event.detail.value)}
                  ></cw-choice>
                </th>`,
            )}
          </tr>
        </thead>
        <tbody>
          ${head.first.map(
            (row) =>
              html`<tr>
                ${row.map((cell) => html`<td>${cell}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    <p class="muted small">${head.length.toLocaleString('en-US')} rows. ${head.notes.join(' ')}</p>
  </section>`;
}

const KINDS = { step: 'steps', product: 'products', person: 'people' } as const;
/** More than this many unknown words are no words but a column taken for another. */
const MOST_WORDS = 12;

/** Words of the list that the cell does not know, and what each stands for; words put right stay there. */
export function listWords(
  scenario: Scenario,
  { mapping: taken, read }: TimesAnswer,
  { said, withNames, change }: { said: Mapping | null; withNames: boolean; change: Change },
): TemplateResult | typeof nothing {
  const mapping = said ?? taken;
  const shift = resolve(scenario);
  const asked = [
    ...(['step', 'product', 'person'] as const).flatMap((role) =>
      Object.keys(mapping[KINDS[role]]).map((text) => ({ role, text, rows: null, nearest: null })),
    ),
    ...read.unknown.filter(({ role, text }) => !Object.hasOwn(mapping[KINDS[role]], text)),
  ].filter(({ role }) => role !== 'person' || withNames);
  if (asked.length === 0) return nothing;
  return html`<section aria-labelledby="words">
    <h2 id="words">Words that the cell does not know</h2>
    ${asked.slice(0, MOST_WORDS).map(({ role, text, rows, nearest }) => {
      const kind = KINDS[role];
      const put = (id: string): void => {
        const { [text]: _before, ...others } = mapping[kind];
        change({ ...mapping, [kind]: id === '' ? others : { ...others, [text]: id } });
      };
      const count = rows === null ? '' : `, ${rows} ${rows === 1 ? 'row' : 'rows'}`;
      return html`<cw-choice
        list
        label=${`${role} “${text}”${count}${nearest === null ? '' : `; the nearest is “${nearest}”`}`}
        .choices=${[
          { value: '', label: role === 'step' ? 'not read' : 'nothing the cell has' },
          ...shift[kind].map(({ id, name }) => ({ value: id, label: name })),
        ]}
        .value=${mapping[kind][text] === undefined ? '' : mapping[kind][text]}
        @cw-change=${(event: PartEvent<'cw-change', string>) => put(event.detail.value)}
      ></cw-choice>`;
    })}
    ${asked.length > MOST_WORDS ? html`<p class="muted small">and ${asked.length - MOST_WORDS} more</p>` : nothing}
  </section>`;
}

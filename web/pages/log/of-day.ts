/** Everything the book has of a day, each entry to be taken back. */
import { html, nothing, type TemplateResult } from 'lit';
import { contentOf, type Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { dayWords, shortDay } from '../../../src/scenario/calendar.ts';
import { entriesOf } from '../../store/book.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { takeOut } from '../common/kept-in-book.ts';

const WORDS: Record<string, string> = {
  plan: 'a plan of the crew',
  forecast: 'a forecast',
  handover: 'the handover',
  record: 'a record of events',
  target: 'what is due',
  note: 'a note',
  times: 'times read off a record',
};

/** An entry in a few words. */
export function entryWords(entry: Entry): string {
  const count = contentOf(entry, 'count');
  if (count !== null) return `the count of ${count.at}`;
  const result = contentOf(entry, 'result');
  if (result !== null) return `the result: ${result.good} good`;
  const hold = contentOf(entry, 'hold');
  if (hold !== null) return `“${hold.name}” ${hold.over === true ? 'decided' : 'put aside'}`;
  return WORDS[entry.kind] ?? `an entry of a later version (${entry.kind})`;
}

export function ofDay(store: CellStore, day: string): TemplateResult | typeof nothing {
  const own = standing(entriesOf(store)).filter((entry) => entry.day === day && entry.kind !== 'correction');
  if (own.length === 0) return nothing;
  return html`<section aria-labelledby="of-day">
    <h2 id="of-day">In the book of ${dayWords(day)}</h2>
    <ul class="kept">
      ${own.map(
        (entry) =>
          html`<li>
            <span
              >${entryWords(entry)}
              <span class="muted small"
                >written ${shortDay(entry.at.slice(0, 10))}, ${entry.at.slice(11, 16)}</span
              ></span
            >
            <button
              type="button"
              class="plain small"
              aria-label=${`Take back: ${entryWords(entry)}`}
              @click=${() => void takeOut(store, [entry.id], `Taken back: ${entryWords(entry)}.`)}
            >
              take it back
            </button>
          </li>`,
      )}
    </ul>
  </section>`;
}

/** A record of events as Parquet: the columns of the comma-separated form, times in milliseconds besides. */
import type { EventRow } from '../record/event-row.ts';
import { ColumnWriter, type Column, type Sink } from './parquet.ts';

const TEXTS = ['event', 'unit', 'product', 'step', 'person', 'second', 'gear', 'detail'] as const;
const COLUMNS: readonly Column[] = [
  { name: 'milliseconds', kind: 'number' },
  { name: 'item', kind: 'whole' },
  ...TEXTS.map((name): Column => ({ name, kind: 'text' })),
];
/** Rows of a stretch. */
const STRETCH = 50_000;

/** What an event does not say is null. `milliseconds` count from the start of the first shift. */
export async function writeEventColumns(
  events: readonly EventRow[],
  about: Record<string, string>,
  sink: Sink,
): Promise<void> {
  const writer = new ColumnWriter(COLUMNS, sink, `clampwright ${about['version'] ?? ''}`.trim());
  for (let from = 0; from < events.length; from += STRETCH) {
    const part = events.slice(from, from + STRETCH);
    await writer.write(part.length, {
      milliseconds: Float64Array.from(part, ({ time }) => time),
      item: part.map(({ item }) => (item === 0 ? null : item)),
      ...Object.fromEntries(TEXTS.map((name) => [name, part.map((one) => one[name] || null)])),
    });
  }
  await writer.finish(about);
}

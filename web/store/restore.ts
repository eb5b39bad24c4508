/** What is put back or set aside of cells that were left in a hurry. */
import type { SetAside } from './database.ts';
import { thingOf } from './database-shelf.ts';
import type { Entry } from './history.ts';
import { clearLeft, leftJournals, livingTabs } from './journal.ts';
import type { CellRecord } from './record.ts';
import type { Shelf } from './shelf.ts';

/**
 * Cells that were worked on while the browser gave no database, and whole in a tab's journal: onto the shelf,
 * the newest of each. One that is there already stays as it is.
 */
export async function restoreWhole(shelf: Shelf): Promise<void> {
  const left = leftJournals(await livingTabs())
    .filter(({ journal }) => journal?.whole !== undefined)
    .sort((a, b) => b.journal!.whole!.changedAt - a.journal!.whole!.changedAt);
  for (const { cell, journal } of left) {
    const put = shelf.update(cell, (now) => now ?? journal!.whole!);
    const done = await put.then(
      () => shelf.lasting,
      () => false,
    );
    if (done) clearLeft(left.filter((one) => one.cell === cell));
  }
}

/** Changes whose place another tab took out, as things that can be looked at and saved. */
export const lostThings = (entries: Entry[], record: CellRecord): SetAside[] =>
  entries.map((entry) =>
    thingOf(`“${record.name}”: ${entry.say} (its place was taken out meanwhile)`, entry),
  );

/** A thing as text to be saved: readable whatever it is. */
export function textOf(thing: SetAside): string {
  return `${typeof thing.value === 'string' ? thing.value : written(thing.value)}\n`;
}

function written(value: unknown): string {
  const above: unknown[] = [];
  const text = JSON.stringify(
    value,
    function (this: unknown, _key: string, part: unknown) {
      if (part === undefined) return '(nothing)';
      if (typeof part === 'bigint' || typeof part === 'function' || typeof part === 'symbol')
        return String(part);
      if (typeof part === 'number' && !Number.isFinite(part)) return String(part);
      if (typeof part !== 'object' || part === null) return part;
      // A ring would never end: only what stands above this place makes one.
      while (above.length > 0 && above.at(-1) !== this) above.pop();
      if (above.includes(part) || above.length > 200) return '(as above)';
      above.push(part);
      if (part instanceof Map) return { map: [...part] };
      if (part instanceof Set) return { set: [...part] };
      return part;
    },
    2,
  );
  return text ?? '(nothing)';
}

/** The cells of this browser at the start, and in words what could not be kept or read. */
import { say, unsay } from '../parts/notice.ts';
import { Cells } from '../store/cells.ts';
import type { SetAside } from '../store/database.ts';
import { openShelf } from '../store/database-shelf.ts';
import type { Json } from '../store/draft.ts';
import { plainName, saveFile } from '../store/files.ts';
import type { Kept } from '../store/keeper.ts';
import { textOf } from '../store/restore.ts';
import { MemoryShelf } from '../store/shelf.ts';

export const NOT_KEPT: Record<Extract<Kept, { kind: 'failed' }>['why'], string> = {
  full: 'This browser’s storage is full: changes are not being kept. Save to a file, or throw old cells away.',
  silent:
    'This browser’s storage does not answer: changes are not being kept just now. Save to a file to be sure.',
  refused: 'Changes cannot be kept just now. Save to a file to be sure.',
};

const NOW_LASTING =
  'This browser’s storage answers now: what you do here is kept, and your other cells are in the list.';

const REFUSED =
  'This browser keeps nothing for this page (a private window, perhaps). Save to a file what is to last.';
const SILENT =
  'This browser’s storage does not answer, so nothing is kept for now, and cells kept before are not shown. Save to a file what is to last.';
const BROKEN =
  'What this browser keeps for this page could not be opened. It was left as it is, and nothing new is kept: save to a file what is to last.';

export function sayLasting(): void {
  unsay(SILENT);
  say(NOW_LASTING);
}

/** A cell always comes to hand, whatever has become of the storage. */
export async function openCells(first: Json): Promise<Cells> {
  const opened = await openShelf();
  try {
    const cells = await Cells.open({ opened, first });
    if (opened.refusal !== null) say(opened.refusal.kind === 'silent' ? SILENT : REFUSED, { kind: 'wrong' });
    return cells;
  } catch (error) {
    console.error(error);
    say(BROKEN, { kind: 'wrong' });
    return Cells.open({ opened: { shelf: new MemoryShelf(), refusal: { kind: 'refused' } }, first });
  }
}

export const saveAside = (thing: SetAside): void =>
  saveFile(`${plainName(thing.name) || 'set-aside'}.txt`, textOf(thing), 'text/plain');

export function sayAside(things: SetAside[]): void {
  const [first, ...more] = things;
  if (first === undefined) return;
  const others = more.length === 0 ? '' : more.length === 1 ? ' and one more' : ` and ${more.length} more`;
  say(
    `This could not be used and was set aside: ${first.name}${others}. The rest is as it was; what was set aside stays under “Your cells”.`,
    {
      kind: 'wrong',
      act: {
        label: more.length === 0 ? 'save it as text' : 'save them as text',
        run: () => things.forEach(saveAside),
      },
    },
  );
}

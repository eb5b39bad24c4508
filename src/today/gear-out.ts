/** Gear that is out of order at the count, by a record of events, and for how much longer. */
import { compileTime } from '../duration/compile.ts';
import type { EventRow } from '../record/event-row.ts';
import type { ResolvedGear, ResolvedShift } from '../scenario/resolve.ts';
import { meanBeyond } from './mean-minutes.ts';
import type { NowState } from './state.ts';

interface Out {
  kind: ResolvedGear;
  /** From 1. */
  item: number;
  /** ms. */
  since: number;
}

/** Follows a record; kinds that the file does not have are nobody's gear. */
export class GearOut {
  private readonly out = new Map<string, Out>();

  constructor(private readonly shift: ResolvedShift) {}

  hear({ event, gear, item, time }: EventRow): void {
    if (event !== 'gear out' && event !== 'gear mended') return;
    const kind = this.shift.gear.find(({ id, kind: what }) => id === gear && what === 'gear');
    if (kind === undefined) return;
    const key = `${gear} ${item}`;
    if (event === 'gear mended') this.out.delete(key);
    else this.out.set(key, { kind, item: Number(item), since: time });
  }

  /** What is out of order now (ms), those that come back at one time together. */
  at(now: number): NowState['broken'] {
    const found = new Map<string, NowState['broken'][number]>();
    for (const one of this.out.values()) {
      const minutes = minutesLeft(one, now);
      if (minutes <= 0) continue;
      const key = `${one.kind.id} ${minutes}`;
      const same = found.get(key);
      if (same === undefined) found.set(key, { gear: one.kind.id, items: 1, minutes });
      else same.items++;
    }
    return [...found.values()];
  }
}

/** Of a planned time the rest of it; of a failure the mean of what its repair may still take. */
function minutesLeft({ kind, item, since }: Out, now: number): number {
  const had = (now - since) / 60_000;
  // A piece that holds the gear is finished first: the time out of order begins when it goes out.
  const planned = kind.out.findLast(({ from, items }) => from <= since / 60_000 && item <= items);
  const exactly = kind.out.some(({ from }) => from === since / 60_000);
  if (planned !== undefined && (kind.fails === null || exactly)) return planned.minutes - had;
  return kind.fails === null || kind.fails === undefined
    ? 0
    : meanBeyond(compileTime(kind.fails.repair), had);
}

/** What stands on the out-rack that is being filled, and which racks are away, by a record of events. */
import type { EventRow } from '../record/event-row.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { NowState } from './state.ts';

export class OutRacks {
  private readonly rack: ResolvedShift['outRack'];
  private standing: number;
  /** When each that left is back, ms. */
  private back: number[];

  constructor({ outRack }: Pick<ResolvedShift, 'outRack'>) {
    this.rack = outRack;
    this.standing = outRack === null ? 0 : outRack.standing;
    this.back = outRack === null ? [] : outRack.away.map((minutes) => minutes * 60_000);
  }

  hear({ event, time }: EventRow): void {
    if (this.rack === null) return;
    if (event === 'good' || event === 'out again') this.standing++;
    if (event !== 'rack sent') return;
    this.standing = 0;
    this.back.push(time + this.rack.back * 60_000);
  }

  told(until: number): Pick<NowState, 'outRack'> {
    if (this.rack === null) return {};
    const away = this.back.filter((back) => back > until).map((back) => (back - until) / 60_000);
    return { outRack: { standing: this.standing, away } };
  }
}

/** The file with the out-racks as they were counted; where nobody counted them, all empty and here. */
export function outRackFrom(
  { outRack }: Pick<Scenario, 'outRack'>,
  counted: NowState['outRack'],
): Pick<Scenario, 'outRack'> {
  if (outRack === undefined) return {};
  const { standing: _standing, away: _away, ...rack } = outRack;
  const { standing = 0, away = [] } = counted ?? {};
  return {
    outRack: {
      ...rack,
      ...(standing === 0 ? {} : { standing }),
      ...(away.length === 0 ? {} : { away }),
    },
  };
}

/** A line of exponential stations with racks between them and blocking after the work, as a Markov chain. */
import { throughput, timeToEnd, type Move } from './chain.ts';

interface LineState {
  /** Units still to begin at the first station; null: there is always one. */
  supply: number | null;
  stations: ('idle' | 'busy' | 'blocked')[];
  /** In the rack before each station. */
  waiting: number[];
}

/** @param racks slots before each station but the first. */
function line(
  rates: number[],
  racks: number[],
  units: number | null,
): { start: LineState; movesOf: (state: LineState) => Move<LineState>[] } {
  const slots = [0, ...racks];
  const settle = (state: LineState): LineState => {
    const { stations, waiting } = state;
    for (let changed = true; changed;) {
      changed = false;
      for (let at = stations.length - 1; at >= 0; at--) {
        const last = at === stations.length - 1;
        if (
          stations[at] === 'blocked' &&
          (last || waiting[at + 1]! < slots[at + 1]! || stations[at + 1] === 'idle')
        ) {
          stations[at] = 'idle';
          if (!last) waiting[at + 1]!++;
          changed = true;
        }
        const there = at === 0 ? state.supply !== 0 : waiting[at]! > 0;
        if (stations[at] === 'idle' && there) {
          stations[at] = 'busy';
          if (at > 0) waiting[at]!--;
          else if (state.supply !== null) state.supply--;
          changed = true;
        }
      }
    }
    return state;
  };
  const start = settle({
    supply: units,
    stations: rates.map(() => 'idle' as const),
    waiting: rates.map(() => 0),
  });
  const movesOf = (state: LineState): Move<LineState>[] =>
    rates.flatMap((rate, at) => {
      if (state.stations[at] !== 'busy') return [];
      const after: LineState = {
        supply: state.supply,
        stations: [...state.stations],
        waiting: [...state.waiting],
      };
      after.stations[at] = 'blocked';
      return [{ to: settle(after), rate, leaves: at === rates.length - 1 }];
    });
  return { start, movesOf };
}

/** Units a unit of time of a line that never runs short of work. */
export function lineThroughput(rates: number[], racks: number[]): number {
  const { start, movesOf } = line(rates, racks, null);
  return throughput(start, movesOf);
}

/** Mean time at which the last of `units`, all there at the start, is done. */
export function lineEnd(rates: number[], racks: number[], units: number): number {
  const { start, movesOf } = line(rates, racks, units);
  return timeToEnd(start, movesOf);
}

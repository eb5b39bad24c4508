/** Markov chains solved exactly. */

/**
 * Stationary chances of a chain from its rates or chances `rows[from][to]` (the diagonal does not matter), by
 * the elimination of Grassmann, Taksar and Heyman (Operations Research 33, 1985), which subtracts nothing and
 * so loses no digits.
 */
export function stationary(given: ArrayLike<number>[]): number[] {
  const rows = given.map((row) => Float64Array.from(row));
  const size = rows.length;
  for (let last = size - 1; last > 0; last--) {
    let out = 0;
    for (let to = 0; to < last; to++) out += rows[last]![to]!;
    for (let from = 0; from < last; from++) {
      const share = (rows[from]![last]! /= out);
      if (share === 0) continue;
      for (let to = 0; to < last; to++) rows[from]![to]! += share * rows[last]![to]!;
    }
  }
  const chances = [1];
  for (let state = 1; state < size; state++) {
    let sum = 0;
    for (let from = 0; from < state; from++) sum += chances[from]! * rows[from]![state]!;
    chances.push(sum);
  }
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  return chances.map((chance) => chance / total);
}

export interface Move<State> {
  to: State;
  rate: number;
  /** Something left the line by this move. */
  leaves: boolean;
}

/** All states that can be reached, by their spelling, with their moves. */
export function explore<State>(
  start: State,
  movesOf: (state: State) => Move<State>[],
): { states: State[]; moves: { to: number; rate: number; leaves: boolean }[][] } {
  const places = new Map<string, number>([[JSON.stringify(start), 0]]);
  const states = [start];
  const moves: { to: number; rate: number; leaves: boolean }[][] = [];
  for (let at = 0; at < states.length; at++) {
    moves.push(
      movesOf(states[at]!).map(({ to, rate, leaves }) => {
        const key = JSON.stringify(to);
        if (!places.has(key)) {
          places.set(key, states.length);
          states.push(to);
        }
        return { to: places.get(key)!, rate, leaves };
      }),
    );
  }
  return { states, moves };
}

/** Departures per unit of time in the long run. */
export function throughput<State>(start: State, movesOf: (state: State) => Move<State>[]): number {
  const { states, moves } = explore(start, movesOf);
  const rows = states.map(() => new Float64Array(states.length));
  moves.forEach((list, from) => list.forEach(({ to, rate }) => (rows[from]![to]! += rate)));
  return stationary(rows).reduce(
    (sum, chance, at) =>
      sum + chance * moves[at]!.reduce((rates, move) => rates + (move.leaves ? move.rate : 0), 0),
    0,
  );
}

/** Mean time until nothing can happen any more, in a chain that never comes back to a state. */
export function timeToEnd<State>(start: State, movesOf: (state: State) => Move<State>[]): number {
  const { moves } = explore(start, movesOf);
  const known = new Map<number, number>();
  const from = (at: number): number => {
    const told = known.get(at);
    if (told !== undefined) return told;
    const list = moves[at]!;
    const all = list.reduce((sum, move) => sum + move.rate, 0);
    const time = all === 0 ? 0 : (1 + list.reduce((sum, move) => sum + move.rate * from(move.to), 0)) / all;
    known.set(at, time);
    return time;
  };
  return from(0);
}

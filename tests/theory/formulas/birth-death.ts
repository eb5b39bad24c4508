/** Birth-and-death chains and the queues that are such chains. */

/** Stationary chances of 0 ... up.length for rates up (n to n + 1) and down (n + 1 to n). */
export function birthDeath(up: number[], down: number[]): number[] {
  const weights = [1];
  up.forEach((rate, n) => weights.push((weights[n]! * rate) / down[n]!));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

const expectation = (chances: number[], of: (n: number) => number): number =>
  chances.reduce((sum, chance, n) => sum + chance * of(n), 0);

/**
 * Machine interference: joints a minute from `sets` clamp sets that cure for `cure` minutes and are handled
 * for `hands` minutes by one of `people`, first come first served; p(n) ~ sets! / (sets - n)! (hands /
 * cure)^n / (1 ... min(n, people)). Exponential handling; the cure may have any distribution of this mean.
 */
export function finiteSource(sets: number, cure: number, hands: number, people: number): number {
  const each = Array.from({ length: sets }, (_, n) => n);
  const chances = birthDeath(
    each.map((n) => (sets - n) / cure),
    each.map((n) => Math.min(n + 1, people) / hands),
  );
  return expectation(chances, (n) => Math.min(n, people)) / hands;
}

/**
 * Share of arrivals that find all `servers` busy at `offered` erlangs (Erlang 1917, by the usual recurrence).
 */
export function erlangLoss(servers: number, offered: number): number {
  let share = 1;
  for (let busy = 1; busy <= servers; busy++) share = (offered * share) / (busy + offered * share);
  return share;
}

/**
 * Mean number waiting with random arrivals, exponential work, `servers` people and no limit (Erlang's second
 * formula).
 */
export function waiting(arrivals: number, work: number, servers: number): number {
  const offered = arrivals / work;
  const load = offered / servers;
  const lost = erlangLoss(servers, offered);
  return ((lost / (1 - load * (1 - lost))) * load) / (1 - load);
}

/** The same with room for `room` units in all: units let in per unit of time, and the mean number inside. */
export function limited(
  arrivals: number,
  work: number,
  servers: number,
  room: number,
): { accepted: number; inside: number } {
  const each = Array.from({ length: room }, (_, n) => n);
  const chances = birthDeath(
    each.map(() => arrivals),
    each.map((n) => Math.min(n + 1, servers) * work),
  );
  return { accepted: arrivals * (1 - chances[room]!), inside: expectation(chances, (n) => n) };
}

/**
 * Mean number inside at time `time`, one server, from empty: the chain's transient solution by
 * uniformization.
 */
export function insideFromEmpty(arrivals: number, work: number, time: number): number {
  const size = 400;
  const rate = arrivals + work;
  let chances = new Float64Array(size);
  chances[0] = 1;
  let [weight, sum] = [Math.exp(-rate * time), 0];
  for (let jump = 0; jump < 20 * rate * time + 100; jump++) {
    sum += weight * chances.reduce((mean, chance, n) => mean + chance * n, 0);
    const next = new Float64Array(size);
    for (let n = 0; n < size; n++) {
      next[Math.min(size - 1, n + 1)]! += (chances[n]! * arrivals) / rate;
      next[Math.max(0, n - 1)]! += (chances[n]! * work) / rate;
    }
    chances = next;
    weight *= (rate * time) / (jump + 1);
  }
  return sum;
}

/** Flow shops with fixed times. */

/**
 * Taillard's instances (European Journal of Operational Research 64, 1993): times by machine and job, drawn
 * machine by machine.
 */
export function taillardTimes(seed: number, jobs: number, machines: number): number[][] {
  let state = seed;
  return Array.from({ length: machines }, () =>
    Array.from({ length: jobs }, () => {
      state = (state * 16807) % 2147483647;
      return 1 + Math.floor((state / 2147483647) * 99);
    }),
  );
}

/**
 * End of the last job, every machine taking the jobs in `order` (numbers from 0), with room for all between
 * the machines.
 */
export function makespan(times: number[][], order: number[]): number {
  const free = times.map(() => 0);
  for (const job of order) {
    let ready = 0;
    times.forEach((row, machine) => (ready = free[machine] = Math.max(ready, free[machine]!) + row[job]!));
  }
  return free.at(-1)!;
}

/** Johnson 1954: the order that ends first on two machines. */
export function johnsonOrder([first, second]: number[][]): number[] {
  const jobs = first!.map((_, job) => job);
  const early = jobs.filter((job) => first![job]! < second![job]!).sort((a, b) => first![a]! - first![b]!);
  const late = jobs.filter((job) => first![job]! >= second![job]!).sort((a, b) => second![b]! - second![a]!);
  return [...early, ...late];
}

/** Things made of other things, and made again only where one of those is another. */

/** Whether every one is the very same as before. */
export const same = (before: readonly unknown[], now: readonly unknown[]): boolean =>
  before.length === now.length && now.every((one, i) => Object.is(one, before[i]));

/**
 * The same function, which makes its value anew only where an argument is another than last time. For what a
 * page draws: most drawings only show how far the work has come.
 */
export function lastOf<Given extends readonly unknown[], Made>(
  make: (...given: Given) => Made,
): (...given: Given) => Made {
  let last: { given: Given; made: Made } | null = null;
  return (...given) => {
    if (last === null || !same(last.given, given)) last = { given, made: make(...given) };
    return last.made;
  };
}

/** The same function, deaf for so many milliseconds after each time it acted. */
export function nowAndThen<Given extends unknown[]>(
  every: number,
  act: (...given: Given) => void,
): (...given: Given) => void {
  let acted = -Infinity;
  return (...given) => {
    if (performance.now() - acted < every) return;
    acted = performance.now();
    act(...given);
  };
}

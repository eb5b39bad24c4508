/**
 * A round end for a rule on which `value` stands at about the half: 2 gives 5, 14.5 gives 30, 30 gives 60.
 */
export function niceTop(value: number): number {
  const wanted = Math.max(1, Math.abs(value) * 1.9);
  const power = 10 ** Math.floor(Math.log10(wanted));
  return ([1, 2, 3, 4, 5, 6, 8, 10].find((one) => one * power >= wanted) ?? 10) * power;
}

/**
 * Optimal computing budget allocation: how a fixed number of replications is best spread over the candidates
 * to tell the best from the rest (Chen, Lin, Yucesan and Chick 2000; Chen and Lee, Stochastic Simulation
 * Optimization, 2011). A rule of thumb for "I have this much time", without a guarantee: where one is
 * promised, KN is used.
 * @param means, variances by candidate, the variances over 0. @param total replications to give out.
 * @returns shares of the total, not rounded..
 */
export function budgetAllocation(
  means: number[],
  variances: number[],
  total: number,
  better: 'more' | 'less' = 'more',
): number[] {
  if (means.length !== variances.length || means.length === 0)
    throw new RangeError('one mean and one variance a candidate');
  const sign = better === 'more' ? 1 : -1;
  const best = means.reduce((at, mean, i) => (sign * mean > sign * means[at]! ? i : at), 0);
  // A gap of nothing would take everything: a tie counts as a gap a thousandth of the spread.
  const gap = (i: number): number =>
    Math.max(Math.abs(means[best]! - means[i]!), 1e-3 * Math.sqrt(variances[i]! + variances[best]!));
  const parts = means.map((_, i) => (i === best ? 0 : variances[i]! / gap(i) ** 2));
  const others = parts.reduce((sum, part, i) => sum + (i === best ? 0 : part ** 2 / variances[i]!), 0);
  parts[best] = means.length === 1 ? 1 : Math.sqrt(variances[best]! * others);
  const all = parts.reduce((sum, part) => sum + part, 0);
  return parts.map((part) => (total * part) / all);
}

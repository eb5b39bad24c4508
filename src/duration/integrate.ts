import { exp } from '../random/exact.ts';

const STEP = 0.0625;
const REACH = 3.4;

/**
 * Places (distance from the nearer end, as a share of the length) and weights of the tanh-sinh rule on one
 * half of the stretch.
 */
const rule = makeRule();

function makeRule(): { distance: number; weight: number }[] {
  const points: { distance: number; weight: number }[] = [];
  for (let i = 0; i * STEP <= REACH; i++) {
    const t = i * STEP;
    const sinh = (exp(t) - exp(-t)) / 2;
    const cosh = (exp(t) + exp(-t)) / 2;
    const twice = Math.PI * sinh;
    const distance = 1 / (1 + exp(twice));
    points.push({ distance, weight: STEP * Math.PI * cosh * distance * (1 - distance) });
  }
  return points;
}

/**
 * Integral of `f` from `from` to `to` by the tanh-sinh rule (Takahasi and Mori 1974), 109 points: about 1e-11
 * relative for a smooth function, even one with a singular slope at either end.
 */
export function integrate(f: (x: number) => number, from: number, to: number): number {
  const length = to - from;
  let sum = f(from + length / 2) * rule[0]!.weight;
  for (let i = 1; i < rule.length; i++) {
    const { distance, weight } = rule[i]!;
    sum += weight * (f(from + length * distance) + f(to - length * distance));
  }
  return sum * length;
}

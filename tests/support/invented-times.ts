/**
 * Makes the demo's list of observed times: drawn from the demo's own curves, so nothing in it was measured,
 * and every row says so. `scenarios/chair-works-times-invented.csv` is what this gives for
 * `scenarios/chair-works.json`; a test holds the two together.
 */
import { compileTime } from '../../src/duration/compile.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Time } from '../../src/duration/time.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { luckOf } from '../../src/timing/luck.ts';

const FIRST_DAY = Date.UTC(2025, 2, 3);
const DAYS = 5;

interface Place {
  step: string;
  product: string | null;
  repeat: boolean;
  time: Time;
}

/** @param each observations for every time of a hands step: its own, its repeat visits', a product's own. */
export function inventedTimes(scenario: Scenario, each = 25, seed = 'invented times'): string {
  const shift = resolve(scenario);
  const places = shift.steps
    .filter((step) => step.kind === 'hands')
    .flatMap((step): Place[] => [
      { step: step.id, product: null, repeat: false, time: step.time },
      ...shift.products
        .filter((product) => product.tasks[step.id]!.own)
        .map((product): Place => ({
          step: step.id,
          product: product.id,
          repeat: false,
          time: product.tasks[step.id]!.time,
        })),
      ...(step.repeatTime === null
        ? []
        : [{ step: step.id, product: null, repeat: true, time: step.repeatTime }]),
    ]);
  const rows = places.flatMap((place, stream) => {
    const luck = luckOf(seed, 0, stream);
    const products =
      place.product === null
        ? shift.products.filter((product) => !product.tasks[place.step]!.own)
        : shift.products.filter((one) => one.id === place.product);
    const covering = shift.people.filter((person) => person.cover[0]!.steps.includes(place.step));
    const people =
      covering.length > 0
        ? covering
        : shift.people.filter((person) => person.skills[place.step] !== undefined);
    return Array.from({ length: each }, (_, i) => {
      const product = pick(
        products,
        products.map((one) => one.share),
        luck(3 * i),
      );
      const person = pick(
        people,
        people.map(() => 1),
        luck(3 * i + 1),
      );
      const minutes =
        compileTime(place.time).quantile(luck(3 * i + 2)) *
        product.tasks[place.step]!.factor *
        (person.skills[place.step]?.factor ?? 1);
      const date = new Date(FIRST_DAY + Math.floor((i * DAYS) / each) * 86_400_000)
        .toISOString()
        .slice(0, 10);
      return [
        date,
        place.step,
        product.id,
        person.name,
        minutes.toFixed(1),
        place.repeat ? 'yes' : 'no',
        'invented',
      ].join(',');
    });
  });
  return `date,step,product,person,minutes,repeat,note\n${rows.join('\n')}\n`;
}

function pick<T>(from: readonly T[], weights: readonly number[], luck: number): T {
  let rest = luck * weights.reduce((sum, weight) => sum + weight, 0);
  const place = weights.findIndex((weight) => (rest -= weight) < 0);
  return from[place < 0 ? from.length - 1 : place]!;
}

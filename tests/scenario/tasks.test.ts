import { describe, expect, it } from 'vitest';
import { applyOption } from '../../src/scenario/options.ts';
import { resolve, taskOf } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../support/shops.ts';

const cells: [string, Scenario][] = [
  ...SHIPPED.map((name): [string, Scenario] => [name, shipped(name)]),
  ...SHOPS.map((name): [string, Scenario] => [name, shop(name)]),
].flatMap(([name, scenario]): [string, Scenario][] => [
  [name, scenario],
  ...Object.keys(scenario.options ?? {}).map((option): [string, Scenario] => [
    `${name} ${option}`,
    applyOption(scenario, option),
  ]),
]);

/** The same question, read off the file alone by the words of its schema. */
function readOff(scenario: Scenario, product: string, step: string): unknown {
  const own = scenario.products?.[product] ?? {};
  const given = scenario.steps[step]!;
  const first = own.times?.[step] ?? given.time;
  const ids = Object.keys(scenario.steps);
  const onwards = ids
    .slice(ids.indexOf(step) + 1)
    .find((id) => scenario.steps[id]!.aside !== true && own.skips?.includes(id) !== true);
  return {
    time: first,
    repeat: given.repeatTime ?? first,
    own: own.times !== undefined && step in own.times,
    factor: own.factors?.[step] ?? 1,
    next: given.aside === true ? (given.then ?? null) : (onwards ?? null),
  };
}

describe("what a product's time at a step is", () => {
  it.each(cells)('%s: as the file says', (_, scenario) => {
    const shift = resolve(scenario);
    for (const product of shift.products)
      for (const step of shift.steps)
        expect(taskOf(shift, product.id, step.id)).toEqual(readOff(scenario, product.id, step.id));
  });

  it('a piece of nobody knows which product has the step’s own time, factor 1', () => {
    const scenario = shop('stair-parts');
    const shift = resolve(scenario);
    expect(shift.products.length).toBeGreaterThan(1);
    for (const step of shift.steps)
      expect(taskOf(shift, null, step.id)).toMatchObject({ time: step.time, own: false, factor: 1 });
  });

  it('a piece of no named product is the only product there is', () => {
    const scenario: Scenario = {
      format: 1,
      name: 'one product',
      products: { leaf: { times: { sand: 9 }, factors: { check: 2 } } },
      steps: { sand: { time: 5 }, check: { time: 3 } },
      people: { ann: { covers: ['sand', 'check'] } },
    };
    const shift = resolve(scenario);
    expect(taskOf(shift, null, 'sand')).toMatchObject({ time: 9, own: true, next: 'check' });
    expect(taskOf(shift, null, 'check')).toMatchObject({ factor: 2, next: null });
    expect(() => taskOf(shift, null, 'polish')).toThrow(/no step "polish"/);
  });
});

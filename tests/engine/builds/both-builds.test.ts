/**
 * The core runs as WebAssembly and, where that is refused, as plain JavaScript: one source, the same bits.
 * Here it runs as both, and as WebAssembly that checks every bound. `npm run builds` does so with more cells.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PURPOSE } from '../../../src/random/keys.ts';
import { threefry, words } from '../../../src/random/threefry.ts';
import * as coreRandom from '../../../src/core/random.ts';
import { compiledCore } from '../../../src/core/compile.mjs';
import { currentCore, plainCore, wasmCore } from '../../../src/engine/core.ts';
import { applyOption, shiftsOf } from '../../../src/scenario/options.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { generatedCells } from '../../support/generated-cells.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../../support/shops.ts';
import { toldBy } from './told.ts';
import { holds } from '../../support/holds.ts';

const fast = wasmCore();
const checked = wasmCore(await compiledCore({ checked: true }));

function expectAlike(shifts: ResolvedShift[], replications: number[]): void {
  const plain = toldBy(plainCore(), shifts, replications);
  expect(toldBy(fast, shifts, replications)).toEqual(plain);
  expect(toldBy(checked, shifts, replications)).toEqual(plain);
}

const scenarios: [string, Scenario][] = [
  ...SHIPPED.map((name): [string, Scenario] => [name, shipped(name)]),
  ...SHOPS.map((name): [string, Scenario] => [name, shop(name)]),
];

describe('both builds of the core tell the same, to the bit', () => {
  test.each(scenarios)('%s and its options', (_, scenario) => {
    expectAlike(shiftsOf(scenario), [0, 1, 4_294_967_295]);
    for (const option of Object.keys(scenario.options ?? {}))
      expectAlike(shiftsOf(applyOption(scenario, option)), [0, 1]);
  });

  test('two hundred generated cells', () => {
    holds(
      fc.property(generatedCells, fc.nat({ max: 100_000 }), (scenario, replication) => {
        expectAlike(shiftsOf(scenario), [replication]);
      }),
      { numRuns: 200, seed: 20_261_127 },
    );
  });

  test('node compiles WebAssembly, and that is what runs', () => {
    expect(currentCore().kind).toBe('WebAssembly');
  });
});

test('the hash of the core is the one of src/random, and so are the purposes of draws', () => {
  holds(
    fc.property(fc.integer(), fc.integer(), fc.integer(), fc.integer(), (a, b, c, d) => {
      expect(coreRandom.threefry(a, b, c, d)).toBe(threefry(a, b, c, d));
      expect(coreRandom.secondWord()).toBe(words[1]);
    }),
    { seed: 20_261_127 },
  );
  const { TASK, PRODUCT, GAP, ATTENDANCE, LATENESS, GEAR_FAILURE } = coreRandom;
  expect({ TASK, PRODUCT, GAP, ATTENDANCE, LATENESS, GEAR_FAILURE, SHIFT: PURPOSE.SHIFT }).toEqual(PURPOSE);
});

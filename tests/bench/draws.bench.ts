/** What a random time costs: `npx vitest bench tests/bench/draws.bench.ts`; each round is 1,000 draws. */
import { bench, describe } from 'vitest';
import { compileTime, CompiledTime, sample } from '../../src/duration/compile.ts';
import { curveOf, type Time } from '../../src/duration/time.ts';
import { counter, PURPOSE } from '../../src/random/keys.ts';
import { threefry, words } from '../../src/random/threefry.ts';

const DRAWS = 1000;
const times: Time[] = [
  { quick: 6, usual: 8, slow: 12 },
  { mean: 8, cv: 0.5 },
  { curve: 'gamma', mean: 8, cv: 0.3 },
  { curve: 'weibull', shape: 2, scale: 5 },
  { curve: 'triangular', least: 3, likeliest: 5, most: 20 },
];
const made = times.map(compileTime);
let replication = 0;
export let kept = 0;

describe('1,000 draws', () => {
  bench('both words', () => {
    replication++;
    for (let unit = 0; unit < DRAWS; unit++)
      kept ^= threefry(7, replication, unit, counter(PURPOSE.TASK, 3, 0)) ^ words[1]!;
  });
  bench('both words and a time, five curves in turn', () => {
    replication++;
    for (let unit = 0; unit < DRAWS; unit++)
      kept += sample(made[unit % 5]!, threefry(7, replication, unit, counter(PURPOSE.TASK, 3, 0)));
  });
  for (const time of times) {
    bench(`a time from a table not yet filled, ${JSON.stringify(time)}`, () => {
      const fresh = new CompiledTime(curveOf(time).distribution(time));
      replication++;
      for (let unit = 0; unit < DRAWS; unit++)
        kept += sample(fresh, threefry(7, replication, unit, counter(PURPOSE.TASK, 3, 0)));
    });
  }
});

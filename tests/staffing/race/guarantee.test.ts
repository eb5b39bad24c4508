import { expect, test } from 'vitest';
import { withBundle } from '../../support/bundle.mjs';
import type * as Guarantee from './guarantee.ts';

const { rehearse, SMALL_PROBLEMS } = await withBundle(
  'tests/staffing/race/guarantee.ts',
  (guarantee: typeof Guarantee) => guarantee,
);

// The short form of `npm run crew-guarantee`.
test.each(SMALL_PROBLEMS.map((problem) => [problem.name, problem] as const))(
  'keeps its promise: %s',
  async (_, problem) => {
    const kept = await rehearse(problem, 25, 1500);
    expect(kept.share.high).toBeGreaterThan(0.95);
    expect(kept.right / kept.repeats).toBeGreaterThanOrEqual(0.9);
    expect(kept.capped).toBe(0);
    expect(kept.shifts).toBeLessThan(kept.equal);
  },
);

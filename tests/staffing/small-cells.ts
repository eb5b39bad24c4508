/** Small cells whose plans can all be run, and the best of them found by running them long. */
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { runJob } from '../../src/record/job.ts';
import { layoutOf } from '../../src/record/layout.ts';
import { scalarAt } from '../../src/record/report.ts';
import { compile } from '../../src/engine/compile.ts';
import { withDraft, type Draft } from '../../src/staffing/draft.ts';
import { drawnInputs } from '../../src/study/inputs/drawn.ts';
import type { Day } from '../../src/staffing/question.ts';

/** Two people, three steps, one clamp: an hour and a half of a small glue-up. */
export const TWO_PEOPLE: Scenario = {
  format: 1,
  name: 'Two people',
  seed: 'two people',
  steps: {
    glue: { time: { mean: 8, cv: 0.3 }, whole: true, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 12 },
    unclamp: { time: { mean: 3, cv: 0.3 } },
    sand: { time: { mean: 9, cv: 0.4 } },
  },
  gear: { clamp: { count: 2 } },
  people: {
    ada: { pay: 24, covers: ['glue'], skills: { glue: 3, unclamp: 3 } },
    bo: { pay: 20, covers: ['unclamp', 'sand'], skills: { unclamp: 3, sand: 3 } },
  },
  shift: { start: '06:00', end: '08:30', target: 8 },
  intake: { kind: 'at start', units: 20 },
};

export interface TrueFigures {
  /** Share of the shifts that make each number, by number. */
  chance: (level: number) => number;
  cost: number;
  good: number;
  /** Mean good units up to so many. */
  upTo: (wanted: number) => number;
}

/** What a draft makes and costs over so many shifts, on luck that nothing else uses. */
export function longRun(day: Day, draft: Draft, count: number): TrueFigures {
  const shifts = [resolve(withDraft(day, draft))];
  const layout = layoutOf(compile(shifts[0]!));
  const varied = drawnInputs(shifts, 5_000_000, count);
  const rows = runJob({ shifts, from: 5_000_000, count, ...(varied && { varied }) }).rows[0]!;
  const good: number[] = [];
  let cost = 0;
  for (let row = 0; row < count; row++) {
    good.push(rows[row * layout.size + scalarAt(layout, 'good')]!);
    cost += rows[row * layout.size + scalarAt(layout, 'cost')]! / count;
  }
  const mean = (of: (units: number) => number): number => good.reduce((sum, one) => sum + of(one), 0) / count;
  return {
    cost,
    good: mean((one) => one),
    upTo: (wanted) => mean((one) => Math.min(one, wanted)),
    chance: (level) => good.filter((one) => one >= level).length / count,
  };
}

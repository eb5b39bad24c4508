/** The inside of the worker that adds up where the minutes went by reason. */
import type { ReasonSums } from '../../src/record/why/sums.ts';
import { sumReasons } from '../../src/study/reasons.ts';
import { serve } from '../../src/work/serve.ts';
import { port } from './inside.ts';
import type { ReasonsQuestion } from './reasons.ts';

serve<ReasonsQuestion, ReasonSums[]>(port, {
  answer: ({ shifts, count }) => sumReasons(shifts, count),
});

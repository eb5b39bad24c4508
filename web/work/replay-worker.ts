/** The inside of the worker that writes down one shift, minute by minute. */
import { recordReplay, type ReplayShift } from '../../src/record/replay.ts';
import { serve } from '../../src/work/serve.ts';
import { port } from './inside.ts';
import type { ReplayQuestion } from './replay.ts';

serve<ReplayQuestion, ReplayShift[]>(port, {
  answer: ({ shifts, replication }) => recordReplay(shifts, replication),
});

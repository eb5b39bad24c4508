/** The inside of the worker that writes down one shift, minute by minute. */
import { recordReplay, type ReplayShift } from '../../src/record/replay.ts';
import { serve } from './desk-inside.ts';
import type { ReplayQuestion } from './replay.ts';

serve<ReplayQuestion, ReplayShift[]>(({ shifts, replication }) => recordReplay(shifts, replication));

/** What a shard says of itself, as JSON among the texts about the file (see `aboutOf`). */
import { createHash } from 'node:crypto';
import type { Stretch } from './parquet.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';

export const ABOUT = 'clampwright';

/** What is asked, all of it: shards of the same question can be put together. */
export interface ShardQuestion {
  /** The command: "run", "compare", ... */
  command: string;
  /** What stood behind it, but where it is run and what of it. */
  words: Record<string, unknown>;
  /** The scenario: its text, and the name it was read under. */
  scenario: { shown: string; text: string; demo: boolean };
  seed: string;
}

/** A stretch of rows: replications `from` on of one shift of one day. */
export interface RowStretch extends Stretch {
  day: number;
  shift: number;
  from: number;
  count: number;
  /** Of its bytes: CRC-32. */
  sum: number;
}

export interface ShardAbout {
  format: 1;
  version: string;
  question: ShardQuestion;
  from: number;
  count: number;
  /** By number of the day: what it is (`dayKey`). */
  days: string[];
  stretches: RowStretch[];
}

/** Two days are the same where all that a run depends on is. */
export const dayKey = (shifts: readonly ResolvedShift[]): string =>
  createHash('sha256').update(JSON.stringify(shifts)).digest('hex');

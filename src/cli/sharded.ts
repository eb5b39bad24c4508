/** The questions that can be worked out in shards: their commands, and how what was typed is asked again. */
import type { Command } from 'commander';
import { compareCommand, compareQuestion, type CompareWords } from './commands/compare.ts';
import { gridCommand, gridQuestion, type GridWords } from './commands/grid.ts';
import { limitsCommand, limitsQuestion } from './commands/limits.ts';
import { gearAsked, oneMoreCommand, oneMoreQuestion, type OneMoreWords } from './commands/one-more.ts';
import { runCommand, runQuestion, type RunWords } from './commands/run.ts';
import type { Question } from './running.ts';
import type { StudyWords } from './settings.ts';
import { readInput, type FileWord } from './input.ts';
import { shiftsOf } from '../scenario/options.ts';
import { remedyDays } from '../study/by-reason.ts';
import { moreGear } from '../scenario/changing/more.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { eachRequest, extrasOf } from '../study/one-more.ts';

export interface Sharded {
  command: () => Command;
  question: (file: FileWord, words: StudyWords) => Promise<Question>;
  /** Days that are asked for or not depending on what comes out: all that it may come to. */
  perhaps?: (file: FileWord, words: StudyWords) => Promise<ResolvedShift[][]>;
}

export const SHARDED: Record<string, Sharded> = {
  run: { command: runCommand, question: (file, words) => runQuestion(file, words as RunWords) },
  compare: {
    command: compareCommand,
    question: (file, words) => compareQuestion(file, words as CompareWords),
  },
  'one-more': { command: oneMoreCommand, question: oneMoreQuestion, perhaps: withAndWithout },
  limits: { command: limitsCommand, question: limitsQuestion, perhaps: rightedDays },
  grid: { command: gridCommand, question: (file, words) => gridQuestion(file, words as GridWords) },
};

/** A reason is tried where it takes minutes at all, which few shifts may not show. */
async function rightedDays(file: FileWord, words: StudyWords): Promise<ResolvedShift[][]> {
  const { scenario } = await readInput(file, words);
  return remedyDays(shiftsOf(scenario));
}

/** What holds the cell back is asked with one more of the gear where that gains, without it where not. */
async function withAndWithout(file: FileWord, words: OneMoreWords): Promise<ResolvedShift[][]> {
  const { scenario } = await readInput(file, words);
  return [scenario, moreGear(scenario, gearAsked(scenario, words.gear), 1)].flatMap((cell) =>
    eachRequest(cell, extrasOf(cell)).cases.map(({ shifts }) => shifts),
  );
}

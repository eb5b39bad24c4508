/** Every command, in the order of the help. One more command is one file in commands/ and one line here. */
import type { Command } from 'commander';
import { briefCommand } from './commands/brief.ts';
import { checkCommand } from './commands/check.ts';
import { compareCommand } from './commands/compare.ts';
import { completionCommand } from './commands/completion.ts';
import { crewCommand } from './commands/crew.ts';
import { gridCommand } from './commands/grid.ts';
import { handoverCommand } from './commands/handover.ts';
import { learnCommand } from './commands/learn.ts';
import { ledgerCommand } from './commands/ledger.ts';
import { limitsCommand } from './commands/limits.ts';
import { logCommand } from './commands/log.ts';
import { mergeCommand } from './commands/merge.ts';
import { measuresCommand } from './commands/measures.ts';
import { morningCommand } from './commands/morning.ts';
import { newCommand } from './commands/new.ts';
import { nowCommand } from './commands/now.ts';
import { oneMoreCommand } from './commands/one-more.ts';
import { questionsCommand } from './commands/questions.ts';
import { recordCommand } from './commands/record.ts';
import { replayCommand } from './commands/replay.ts';
import { resultCommand } from './commands/result.ts';
import { rowsCommand } from './commands/rows.ts';
import { runCommand } from './commands/run.ts';
import { schemaCommand } from './commands/schema.ts';
import { startCommand } from './commands/start.ts';
import { timesCommand } from './commands/times.ts';
import { weekCommand } from './commands/week.ts';

export const COMMANDS: (() => Command)[] = [
  runCommand,
  crewCommand,
  weekCommand,
  compareCommand,
  gridCommand,
  oneMoreCommand,
  limitsCommand,
  replayCommand,
  learnCommand,
  ledgerCommand,
  briefCommand,
  morningCommand,
  nowCommand,
  handoverCommand,
  resultCommand,
  timesCommand,
  logCommand,
  recordCommand,
  newCommand,
  checkCommand,
  questionsCommand,
  schemaCommand,
  measuresCommand,
  rowsCommand,
  mergeCommand,
  startCommand,
  completionCommand,
];

/** Every command, in the order of the help. One more command is one file in commands/ and one line here. */
import type { Command } from 'commander';
import { runCommand } from './commands/run.ts';
import { startCommand } from './commands/start.ts';
import { oneMoreCommand } from './commands/one-more.ts';

export const COMMANDS: (() => Command)[] = [
  runCommand,
  oneMoreCommand,
  startCommand,
];

import { Command, Option } from 'commander';
import { say } from '../print.ts';
import { serve, type Serving } from '../serve.ts';
import { addStudyWords, cautionsOption, fileArgument, optionOption, wholeFrom } from '../settings.ts';
import { VERSION } from '../../report/version.ts';
import { Trouble, COMMAND_WRONG } from '../trouble.ts';
import { oneMoreQuestion, type OneMoreWords } from './one-more.ts';
import { answered } from '../running.ts';

const PAGES = new URL('../web/', import.meta.url);

interface Words extends OneMoreWords {
  port: number;
  serve: boolean;
}

/** The demo's answer, then the planner in the browser. */
export function startCommand(): Command {
  const command = new Command('start')
    .description('the answer for the demo shop (or a file), then the planner in your browser')
    .addArgument(fileArgument())
    .addOption(new Option('--gear <id>', 'one more of which gear (default: the first a step takes along)'))
    .addOption(optionOption())
    .addOption(
      new Option('--port <number>', 'the first port tried').argParser(wholeFrom(0, 65_485)).default(4173),
    )
    .option('--no-serve', 'only the answer');
  return addStudyWords(command)
    .addOption(cautionsOption())
    .action((file: string | undefined, words: Words) => start(file, words));
}

async function start(file: string | undefined, words: Words): Promise<void> {
  const whole = await answered(words.threads, await oneMoreQuestion(file, words));
  if (!whole || !words.serve) return;
  const serving = await serve(PAGES, words.port, `clampwright ${VERSION}`).catch((error: Error) => {
    throw new Trouble(COMMAND_WRONG, error.message);
  });
  if (serving.kind === 'running already') {
    say(`\nThe planner is running already, at ${serving.address} (this machine only).`);
    return;
  }
  say(`\nThe planner is at ${serving.address} (this machine only). Ctrl-C ends it.`);
  if (serving.instead !== null)
    say(
      `${serving.instead} is taken by another program. What the browser keeps belongs to an address: what was kept under that one is not seen under this one. To have it back, end the other program and start again.`,
    );
  await untilStopped(serving);
}

function untilStopped(serving: Extract<Serving, { kind: 'serving' }>): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const)
      process.once(signal, () => void serving.close().then(resolve));
  });
}

import { Command, Option } from 'commander';
import { VERSION } from '../../report/version.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { gridPage } from '../../report/pages/grid-page.ts';
import { gridTable } from '../../report/parts/grid-table.ts';
import { runGrid, type GridAnswer } from '../../study/grid.ts';
import { AXIS_TAKES, AxisWrong, axisOf, gridOf, usualAxes } from '../../whatif/grid.ts';
import { WhatIfWrong } from '../../whatif/make.ts';
import { mayWriteChoices, tableOption, writeTable, type ChoicesFiles } from '../choices-files.ts';
import { readInput, type FileWord } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { answered, type Question } from '../running.ts';
import {
  fileArgument,
  cautionsOption,
  forceOption,
  jsonOption,
  optionOption,
  seedOption,
  threadsOption,
  timesKnownOption,
  wholeFrom,
  withOption,
  type StudyWords,
} from '../settings.ts';
import { commandWrong, Trouble } from '../trouble.ts';
import { addWhatIfs } from '../what-if-words.ts';

export interface GridWords extends StudyWords, Pick<ChoicesFiles, 'table' | 'force'> {
  across?: string;
  down?: string;
  count: number;
}

const USUAL = 400;
const STOPPED = 130;

/** Two things to vary, a field each. */
export function gridCommand(): Command {
  const command = new Command('grid')
    .description(
      'two things to vary, a field each: pieces, the chance of the target and money, the cheapest that makes it',
    )
    .addArgument(fileArgument())
    .addOption(new Option('--across <thing=values>', `what varies across: ${AXIS_TAKES}`))
    .addOption(new Option('--down <thing=values>', 'what varies down, written the same way'))
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(
      new Option('-n, --count <shifts>', 'shifts of each field')
        .argParser(wholeFrom(30, 1_000_000))
        .default(USUAL),
    )
    .addOption(tableOption())
    .addOption(forceOption())
    .addOption(timesKnownOption())
    .addOption(threadsOption())
    .addOption(cautionsOption())
    .addOption(jsonOption());
  return addWhatIfs(command).action(
    async (file: string | undefined, words: GridWords) =>
      void (await answered(words.threads, await gridQuestion(file, words))),
  );
}

export async function gridQuestion(file: FileWord, words: GridWords): Promise<Question> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const usual = usualAxes(scenario);
  const { down, across, question } = asked(() => {
    const axes = {
      down: axisOf(scenario, words.down ?? usual.down),
      across: axisOf(scenario, words.across ?? usual.across),
    };
    return { ...axes, question: gridOf(scenario, axes.down, axes.across, words.count) };
  });
  await mayWriteChoices(words);
  return {
    answer: async ({ runner, signal, onLook }) => {
      const answer = await runGrid(question, runner, onLook('Each field'), signal);
      if (answer === null)
        throw new Trouble(
          STOPPED,
          'Stopped by hand before every field was played: nothing is said. A smaller --count is quicker.',
        );
      if (words.table !== undefined) {
        const of = { cell: input.base.name, changed: input.applied };
        await writeTable(words.table, gridTable(of, down, across, answer), words.force === true);
      }
      return () => print(answer);
    },
  };

  function print(answer: GridAnswer): boolean {
    const typed = ['--across', across.typed, '--down', down.typed];
    const repeat = { command: repeatCommand(['grid'], input, words, typed), count: words.count };
    const cautions = cautionsOf(scenario);
    if (words.json === true)
      printJson({
        command: 'grid',
        version: VERSION,
        file: input.file,
        applied: input.applied,
        seed: input.seed,
        partial: answer.partial,
        down,
        across,
        grid: answer,
        cautions,
        remarks: input.remarks,
        again: repeat.command,
      });
    else printPage(gridPage({ input, down, across, grid: answer, cautions, repeat }));
    if (words.table !== undefined) say(`Written: ${words.table}`);
    return !answer.partial;
  }
}

function asked<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof AxisWrong || error instanceof WhatIfWrong ? commandWrong(error.message) : error;
  }
}

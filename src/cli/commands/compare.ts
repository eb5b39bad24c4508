import { Command, Option } from 'commander';
import type { Scenario } from '../../scenario/schema.ts';
import { comparison } from '../../study/from-scenario.ts';
import { runStudy } from '../../study/study.ts';
import { summarize } from '../../study/summary.ts';
import { optionIds, readInput } from '../input.ts';
import { cautionsOf } from '../pages/foot.ts';
import { comparePage } from '../pages/compare-page.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { running } from '../running.ts';
import { addStudyWords, askedOf, collect, fileArgument, type StudyWords } from '../settings.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../version.ts';

interface Words extends StudyWords {
  options?: string[];
}

/** Options of a file, each against the file as it is, on the same luck. */
export function compareCommand(): Command {
  const command = new Command('compare')
    .description('options of the file, each against things as they are, on the same luck')
    .addArgument(fileArgument())
    .addOption(new Option('--options <ids>', 'which options, with commas between (default: all the file has)').argParser(collect));
  return addStudyWords(command).action((file: string | undefined, words: Words) => compare(file, words));
}

async function compare(file: string | undefined, words: Words): Promise<void> {
  const { scenario, ...input } = await readInput(file, { seed: words.seed });
  const options = optionIds(scenario, words.options ?? Object.keys(scenario.options ?? {}));
  if (options.length === 0) {
    throw commandWrong('The file has no options to compare. Add some under "options", or try one more of each thing: clampwright limits');
  }
  const changed = words.with === undefined ? scenario : await changedBase(file, words, scenario);
  const request = comparison(changed, options);
  const asked = askedOf(words);
  const study = await running(words.threads, async ({ runner, signal, onLook }) => summarize(await runStudy(
    { ...request, settings: { ...request.settings, ...asked.settings }, ...(asked.count === undefined ? {} : { count: asked.count }) },
    runner, onLook('Each choice'), signal,
  )));
  const whole = { ...input, scenario: changed, base: changed };
  const cautions = cautionsOf(changed, changed, options);
  const repeat = { command: repeatCommand(['compare'], whole, words, ['--options', options.join(',')]), count: study.count };
  if (words.json === true) {
    printJson({ command: 'compare', version: VERSION, file: input.file, seed: input.seed, options, partial: study.kind === 'partial', study, cautions, remarks: input.remarks, again: repeat.command });
  } else {
    printPage(comparePage({ input: whole, options, study, cautions, repeat }));
  }
}

/** The changes of `--with` under every choice; each choice is checked again on top of them. */
async function changedBase(file: string | undefined, words: Words, scenario: Scenario): Promise<Scenario> {
  const { scenario: changed } = await readInput(file, { with: words.with, seed: words.seed });
  const base = { ...changed, ...(scenario.options === undefined ? {} : { options: scenario.options }) };
  for (const id of optionIds(base, words.options ?? Object.keys(base.options ?? {}))) {
    await readInput(file, { with: words.with, option: [id], seed: words.seed });
  }
  return base;
}

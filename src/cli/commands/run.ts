import { Command } from 'commander';
import { shiftsOf } from '../../scenario/options.ts';
import { baseCase, settingsOf } from '../../study/from-scenario.ts';
import { oneMoreOfEach, type OneMoreOfEach } from '../../study/one-more.ts';
import { runStudy } from '../../study/study.ts';
import { summarize } from '../../study/summary.ts';
import { readInput } from '../input.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { runPage } from '../../report/pages/run-page.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { running, type Run } from '../running.ts';
import { addStudyWords, askedOf, fileArgument, optionOption, type StudyWords } from '../settings.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends StudyWords {
  why: boolean;
}

/** How many units, do we make the number, what holds us back. */
export function runCommand(): Command {
  const command = new Command('run')
    .description('what the cell makes: good units, the chance of the target, what holds you back')
    .addArgument(fileArgument())
    .addOption(optionOption())
    .option('--no-why', 'leave out what holds you back (one more of each thing is tried to find it)');
  return addStudyWords(addWhatIfs(command)).action((file: string | undefined, words: Words) =>
    run(file, words),
  );
}

async function run(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const asked = askedOf(words);
  const { study, each } = await running(words.threads, async (made) => {
    const settings = { ...settingsOf(scenario), ...asked.settings };
    const count = asked.count === undefined ? {} : { count: asked.count };
    const state = await runStudy(
      { cases: [baseCase(scenario)], pairs: [], settings, ...count },
      made.runner,
      made.onLook('The cell as it is'),
      made.signal,
    );
    return { study: summarize(state), each: await why(made) };
  });

  async function why(made: Run): Promise<OneMoreOfEach | null> {
    if (!words.why || made.signal.aborted) return null;
    return oneMoreOfEach(scenario, made.runner, asked, made.onLook('One more of each'), made.signal);
  }

  const cautions = cautionsOf(scenario);
  const repeat = {
    command: repeatCommand(['run'], input, words, words.why ? [] : ['--no-why']),
    count: study.count,
  };
  if (words.json === true) {
    printJson({
      command: 'run',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial: study.kind === 'partial' || (each?.study.kind ?? 'final') !== 'final',
      study,
      each,
      cautions,
      remarks: input.remarks,
      again: repeat.command,
    });
  } else {
    printPage(runPage({ input, shifts: shiftsOf(scenario), study, each, cautions, repeat }));
  }
}

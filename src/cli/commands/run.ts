import { Command } from 'commander';
import { shiftsOf } from '../../scenario/options.ts';
import { baseCase, settingsOf } from '../../study/from-scenario.ts';
import { oneMoreOfEach, type OneMoreOfEach } from '../../study/one-more.ts';
import { standardKpis } from '../../study/standard-kpis.ts';
import { REASON_SHIFTS, sumReasons } from '../../study/reasons.ts';
import { runStudy } from '../../study/study.ts';
import { summarize, type StudySummary } from '../../study/summary.ts';
import { readInput, type FileWord, type Input } from '../input.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { minutesJson } from '../../report/parts/reasons.ts';
import { stoodJson, tellStood } from '../../report/parts/stood.ts';
import { runPage } from '../../report/pages/run-page.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { answered, endless, type Question, type Run } from '../running.ts';
import {
  addStudyWords,
  askedOf,
  cautionsOption,
  fileArgument,
  optionOption,
  type StudyWords,
} from '../settings.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

export interface RunWords extends StudyWords {
  why: boolean;
}

/** How many units, do we make the number, what holds us back. */
export function runCommand(): Command {
  const command = new Command('run')
    .description('what the cell makes: good units, the chance of the target, what holds you back')
    .addArgument(fileArgument())
    .addOption(optionOption())
    .option(
      '--no-why',
      'leave out what holds you back (one more of each thing is tried to find it) and why things stood',
    );
  return addStudyWords(addWhatIfs(command))
    .addOption(cautionsOption())
    .action(
      async (file: string | undefined, words: RunWords) =>
        void (await answered(words.threads, await runQuestion(file, words))),
    );
}

export async function runQuestion(file: FileWord, words: RunWords): Promise<Question> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const asked = askedOf(words);
  async function why(made: Run): Promise<OneMoreOfEach | null> {
    if (!words.why || made.signal.aborted) return null;
    return oneMoreOfEach(scenario, made.runner, asked, made.onLook('One more of each'), made.signal);
  }
  return {
    answer: async (made) => {
      const settings = { ...settingsOf(scenario), ...asked.settings };
      const count = asked.count === undefined ? {} : { count: asked.count };
      const state = await runStudy(
        { cases: [baseCase(scenario)], pairs: [], settings, ...count },
        made.runner,
        made.onLook('The cell as it is'),
        made.signal,
      );
      const study = summarize(state);
      const each = await why(made);
      return () => print(input, words, study, each);
    },
  };
}

function print(input: Input, words: RunWords, study: StudySummary, each: OneMoreOfEach | null): boolean {
  const { scenario } = input;
  const cautions = cautionsOf(scenario);
  const repeat = {
    command: repeatCommand(['run'], input, words, words.why ? [] : ['--no-why']),
    count: study.count,
  };
  const shifts = shiftsOf(scenario);
  const told = words.why
    ? tellStood(
        shifts,
        endless(() => sumReasons(shifts, Math.min(REASON_SHIFTS, study.count))),
      )
    : null;
  const partial = study.kind === 'partial' || (each?.study.kind ?? 'final') !== 'final';
  if (words.json === true) {
    printJson({
      command: 'run',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial,
      study,
      kpis: study.count === 0 ? [] : standardKpis(study.cases[0]!),
      each,
      minutes: told === null ? null : minutesJson(told.shifts, told.sums),
      stood: told === null ? null : stoodJson(told),
      cautions,
      remarks: input.remarks,
      again: repeat.command,
    });
  } else {
    printPage(runPage({ input, shifts, study, each, stood: told, cautions, repeat }));
  }
  return !partial;
}

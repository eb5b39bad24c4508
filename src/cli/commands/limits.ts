import { Command } from 'commander';
import type { Block, Page } from '../../document/document.ts';
import { differenceSentence } from '../../words/sentences.ts';
import { studySure } from '../../words/study-words.ts';
import { holdsBackSentence } from '../../words/verdicts.ts';
import { waysBlocks } from '../../report/ways.ts';
import { shiftsOf } from '../../scenario/options.ts';
import { differenceThatMatters } from '../../study/from-scenario.ts';
import { limitsOf } from '../../study/loosened.ts';
import type { Runner } from '../../record/job.ts';
import { oneMoreOfEach, type OneMoreOfEach } from '../../study/one-more.ts';
import { REASON_SHIFTS, sumReasons } from '../../study/reasons.ts';
import { stoodOf, TRIAL_SHIFTS, tryRemedies } from '../../study/by-reason.ts';
import { minutesJson } from '../../report/parts/reasons.ts';
import { stoodBlocks, stoodJson, tellStood, type StoodTold } from '../../report/parts/stood.ts';
import { readInput, type FileWord, type Input } from '../input.ts';
import { bestWords, eachTable } from '../../report/pages/each.ts';
import { cautionsOf, foot, openingWords, type Repeat } from '../../report/pages/foot.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { answered, endless, type Question } from '../running.ts';
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

/** One more of each thing, one at a time: what each gains. */
export function limitsCommand(): Command {
  const command = new Command('limits')
    .description('one more of each thing, one at a time: what each gains, the most first')
    .addArgument(fileArgument())
    .addOption(optionOption());
  return addStudyWords(addWhatIfs(command))
    .addOption(cautionsOption())
    .action(
      async (file: string | undefined, words: StudyWords) =>
        void (await answered(words.threads, await limitsQuestion(file, words))),
    );
}

export async function limitsQuestion(file: FileWord, words: StudyWords): Promise<Question> {
  const input = await readInput(file, words);
  return {
    answer: async ({ runner, signal, onLook }) => {
      const each = await oneMoreOfEach(
        input.scenario,
        runner,
        askedOf(words),
        onLook('One more of each thing'),
        signal,
        limitsOf(input.scenario),
      );
      const told = await stoodAt(input, each, runner, signal);
      return () => print(input, words, each, told);
    },
  };
}

/** Where the minutes went by reason, each reason tried alone; null where nothing was run. */
async function stoodAt(
  { scenario }: Input,
  { study: { count } }: OneMoreOfEach,
  runner: Runner,
  signal: AbortSignal,
): Promise<StoodTold | null> {
  if (count < 1) return null;
  const shifts = shiftsOf(scenario);
  const sums = endless(() => sumReasons(shifts, Math.min(REASON_SHIFTS, count)));
  const most = Math.min(TRIAL_SHIFTS, count);
  return tellStood(shifts, sums, await tryRemedies(shifts, stoodOf(shifts, sums), most, runner, signal));
}

function print(input: Input, words: StudyWords, each: OneMoreOfEach, told: StoodTold | null): boolean {
  const repeat = { command: repeatCommand(['limits'], input, words), count: each.study.count };
  if (words.json === true) {
    printJson({
      command: 'limits',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial: each.study.kind !== 'final',
      ...each,
      minutes: told === null ? [] : minutesJson(told.shifts, told.sums),
      stood: told === null ? null : stoodJson(told),
      cautions: cautionsOf(input.scenario),
      remarks: input.remarks,
      again: repeat.command,
    });
  } else {
    printPage(limitsPage(input, each, told, repeat));
  }
  return each.study.kind === 'final';
}

function limitsPage(input: Input, each: OneMoreOfEach, told: StoodTold | null, repeat: Repeat): Page {
  const { scenario } = input;
  const matters = differenceThatMatters(scenario);
  const title = `${scenario.name}: what would one more buy?`;
  const answer =
    each.study.kind === 'final'
      ? `${holdsBackSentence(each.constraint, matters)} ${bestWords(each, matters)}`
      : `PARTIAL: stopped by hand, so nothing is named as what holds you back. ${partialWords(each)}`;
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      { kind: 'paragraph', text: answer },
      {
        kind: 'paragraph',
        text: studySure(each.study),
      },
      { kind: 'paragraph', text: openingWords(input) },
      ...(each.study.count === 0
        ? []
        : eachTable(
            each,
            scenario,
            'One more of each thing, or one thing loosened, alone, on the same luck: good units a shift.',
            true,
          )),
      ...ways(input, each),
      ...(told === null ? [] : stoodBlocks(told)),
      ...foot(input, repeat, cautionsOf(scenario)),
    ],
  };
}

/** One shift only: several in a row have no one ceiling. */
function ways({ scenario }: Input, { study }: OneMoreOfEach): Block[] {
  const shifts = shiftsOf(scenario);
  const made = study.cases[0]?.good.estimate;
  if (shifts.length > 1 || made === undefined || study.count === 0) return [];
  return waysBlocks([{ label: 'As it is', shift: shifts[0]!, made }]);
}

const partialWords = ({ rows, study }: OneMoreOfEach): string =>
  study.count === 0 || rows[0] === undefined
    ? ''
    : differenceSentence({ kind: 'thing', words: rows[0].name }, rows[0].gain);

import { Command, Option } from 'commander';
import { nearest } from '../../scenario/reading/fault.ts';
import { nameOf, resolve } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { askOneMore, type OneMoreAnswer } from '../../study/clamp-question.ts';
import { readInput, type FileWord, type Input } from '../input.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { morePage } from '../../report/pages/more-page.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { answered, type Question } from '../running.ts';
import {
  addStudyWords,
  askedOf,
  cautionsOption,
  fileArgument,
  optionOption,
  type StudyWords,
} from '../settings.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

export interface OneMoreWords extends StudyWords {
  gear?: string;
}

/** What a third clamp set does, and what holds us back then. */
export function oneMoreCommand(): Command {
  const command = new Command('one-more')
    .description(
      'what one more clamp set (or other gear) does, what a second one adds, and what holds you back then',
    )
    .addArgument(fileArgument())
    .addOption(
      new Option(
        '--gear <id>',
        'one more of which gear (default: the first a step takes along, such as the clamp sets)',
      ),
    )
    .addOption(optionOption());
  return addStudyWords(addWhatIfs(command))
    .addOption(cautionsOption())
    .action(
      async (file: string | undefined, words: OneMoreWords) =>
        void (await answered(words.threads, await oneMoreQuestion(file, words))),
    );
}

export async function oneMoreQuestion(file: FileWord, words: OneMoreWords): Promise<Question> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const gear = gearAsked(scenario, words.gear);
  return {
    answer: async ({ runner, signal, onLook }) => {
      const looks = {
        more: onLook(`${nameOf(resolve(scenario).gear, gear)}: now, one more, two more`),
        each: onLook('One more of each thing'),
        usual: onLook('Usual days in a row'),
      };
      const asked = askedOf(words);
      const answer = await askOneMore(
        scenario,
        gear,
        runner,
        asked,
        (state, stage) => looks[stage](state),
        signal,
      );
      return () => print(input, words, gear, answer);
    },
  };
}

function print(input: Input, words: OneMoreWords, gear: string, answer: OneMoreAnswer): boolean {
  const { scenario } = input;
  const cautions = cautionsOf(scenario);
  const repeat = {
    command: repeatCommand(['one-more'], input, words, ['--gear', gear]),
    count: answer.study.count,
  };
  const partial = answer.verdict === null || answer.then?.study.kind !== 'final';
  if (words.json === true) {
    printJson({
      command: 'one-more',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial,
      ...answer,
      cautions,
      remarks: input.remarks,
      again: repeat.command,
    });
  } else {
    printPage(morePage({ input, answer, cautions, repeat }));
  }
  return !partial;
}

export function gearAsked(scenario: Scenario, asked: string | undefined): string {
  const shift = resolve(scenario);
  const ids = shift.gear.filter((gear) => gear.kind === 'gear').map((gear) => gear.id);
  if (asked !== undefined) {
    if (ids.includes(asked)) return asked;
    const near = nearest(asked, ids);
    throw commandWrong(
      `The file has no gear "${asked}"; it has ${ids.join(', ') || 'none'}.${near === null ? '' : ` Did you mean "${near}"?`}`,
    );
  }
  const taken = shift.steps.flatMap((step) => step.takes)[0]?.gear ?? ids[0];
  if (taken === undefined)
    throw commandWrong(
      'The file has no gear to have one more of; "clampwright limits" tries one more of everything there is.',
    );
  return taken;
}

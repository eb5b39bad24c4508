import { Command } from 'commander';
import { cautionsOf } from '../../report/pages/foot.ts';
import { ledgerPage } from '../../report/pages/ledger-page.ts';
import { doFirst } from '../../report/parts/first-then.ts';
import { VERSION } from '../../report/version.ts';
import { ledgerOf } from '../../study/ledger.ts';
import { readInput } from '../input.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { running } from '../running.ts';
import {
  addStudyWords,
  askedOf,
  cautionsOption,
  fileArgument,
  optionOption,
  type StudyWords,
} from '../settings.ts';
import { addWhatIfs } from '../what-if-words.ts';

/** Everything that can be done, the cheapest first. */
export function ledgerCommand(): Command {
  const command = new Command('ledger')
    .description(
      'what to do first, what to buy then, what to leave: everything that can be done, cheapest first',
    )
    .addArgument(fileArgument())
    .addOption(optionOption());
  return addStudyWords(addWhatIfs(command))
    .addOption(cautionsOption())
    .action((file: string | undefined, words: StudyWords) => ledger(file, words));
}

async function ledger(file: string | undefined, words: StudyWords): Promise<void> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const found = await running(words.threads, ({ runner, signal, onLook }) =>
    ledgerOf(scenario, runner, askedOf(words), onLook('Everything that can be done'), signal),
  );
  const cautions = cautionsOf(scenario);
  const repeat = {
    command: repeatCommand(['ledger'], input, words),
    count: found?.usual.study.count ?? 0,
  };
  if (words.json === true) {
    printJson({
      command: 'ledger',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial: found === null,
      says: found === null ? [] : doFirst(scenario, found),
      ledger: found,
      cautions,
      remarks: input.remarks,
      again: repeat.command,
    });
  } else {
    printPage(ledgerPage({ input, ledger: found, cautions, repeat }));
  }
}

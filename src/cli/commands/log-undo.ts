/** Taking back what was said of a day, and batches put aside: further entries of the book. */
import { Command, Option } from 'commander';
import { standing } from '../../book/standing.ts';
import { KINDS, type Kind } from '../../book/kinds.ts';
import { bookOption, sayInBook, tellKept, typedDay } from '../book-entries.ts';
import { readInput } from '../input.ts';
import { say } from '../print.ts';
import { fileArgument } from '../settings.ts';
import { commandWrong } from '../trouble.ts';

const dateOption = (): Option =>
  new Option('--date <day>', 'the day, YYYY-MM-DD').argParser(typedDay).makeOptionMandatory();

interface Undo {
  log: string;
  date: string;
  kind?: Kind;
  because?: string;
}

export function undoCommand(): Command {
  return new Command('undo')
    .description('take back what was said last of a day; it stays in the book, struck out')
    .addArgument(fileArgument())
    .addOption(bookOption())
    .addOption(dateOption())
    .addOption(
      new Option(
        '--kind <kind>',
        'the last of this kind (correction: takes the last taking back back)',
      ).choices(KINDS),
    )
    .addOption(new Option('--because <text>', 'why it is taken back'))
    .action(undo);
}

async function undo(file: string | undefined, words: Undo): Promise<void> {
  const { scenario } = await readInput(file);
  let undone = '';
  const book = await sayInBook(words.log, scenario.name, ({ entries }) => {
    const last = standing(entries).findLast(
      ({ day, kind }) =>
        day === words.date && (words.kind === undefined ? kind !== 'correction' : kind === words.kind),
    );
    if (last === undefined)
      throw commandWrong(
        `The book has ${words.kind === undefined ? 'nothing' : `no ${words.kind}`} of ${words.date} to take back.`,
      );
    undone = `the ${last.kind} of ${last.day}, made ${last.at.slice(0, 16).replace('T', ' ')}`;
    const why = words.because === undefined ? {} : { why: words.because };
    return [{ day: words.date, kind: 'correction', content: { undoes: last.id, ...why } }];
  });
  tellKept(book);
  say(`Taken back: ${undone}. What was said before it holds again.`);
}

interface Hold {
  log: string;
  date: string;
  name: string;
  before?: string;
  whose?: string;
  over?: true;
}

export function holdCommand(): Command {
  return new Command('hold')
    .description('put a batch aside until somebody decides, or say that it is decided')
    .addArgument(fileArgument())
    .addOption(bookOption())
    .addOption(dateOption())
    .addOption(
      new Option('--name <text>', 'what is held: "bent chairs, gap at the back"').makeOptionMandatory(),
    )
    .addOption(new Option('--before <step>', 'the step before which it stands'))
    .addOption(new Option('--whose <name>', 'who decides'))
    .option('--over', 'it is decided: nothing is held any more')
    .action(hold);
}

async function hold(file: string | undefined, words: Hold): Promise<void> {
  const { scenario } = await readInput(file);
  const { name, before, whose, over } = words;
  if (before !== undefined && !Object.hasOwn(scenario.steps, before))
    throw commandWrong(
      `--before: there is no step "${before}"; there are ${Object.keys(scenario.steps).join(', ')}.`,
    );
  const content = {
    name,
    ...(before === undefined ? {} : { before }),
    ...(whose === undefined ? {} : { whose }),
    ...(over === undefined ? {} : { over }),
  };
  tellKept(await sayInBook(words.log, scenario.name, () => [{ day: words.date, kind: 'hold', content }]));
}

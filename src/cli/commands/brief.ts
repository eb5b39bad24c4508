import { basename, extname, join, dirname } from 'node:path';
import { Command, Option } from 'commander';
import {
  buildBrief,
  makeBrief,
  picturesOf,
  studyOf,
  type BriefQuestion,
  type BriefStage,
} from '../../report/brief.ts';
import { toHtml } from '../../document/document-html.ts';
import { onOneSheet } from '../../document/one-sheet.ts';
import { toMarkdown } from '../../document/document-markdown.ts';
import { toText } from '../../document/document-text.ts';
import type { Page } from '../../document/document.ts';
import { mayReplace, replaceFile } from '../disk/replace-file.ts';
import { bookOption, bookToAnswerFrom } from '../book-entries.ts';
import { today } from '../clock.ts';
import { coverageOfBook, logOfBook } from '../../timing/log-book.ts';
import type { LogCoverage } from '../../timing/log-coverage.ts';
import { readInput, optionIds, type Input } from '../input.ts';
import { quoted } from '../../report/pages/foot.ts';
import { COLUMNS, print, printJson, say } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { running } from '../running.ts';
import {
  addStudyWords,
  askedOf,
  collect,
  fileArgument,
  forceOption,
  optionOption,
  type StudyWords,
} from '../settings.ts';
import { FACES } from '../typefaces.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';
import { gearAsked } from './one-more.ts';

const FORMATS = ['text', 'markdown', 'html', 'svg'] as const;
type Format = (typeof FORMATS)[number];

interface Words extends StudyWords {
  more?: string;
  options?: string[];
  limits?: boolean;
  title?: string;
  notes?: string;
  format: Format;
  paper?: 'A4' | 'Letter';
  save?: string;
  log: string;
  force?: boolean;
}

/** One page to carry upstairs. */
export function briefCommand(): Command {
  const command = new Command('brief')
    .description(
      "one page for the plant's management: the answer, why, what it costs, how sure, what would change it",
    )
    .addArgument(fileArgument())
    .addOption(
      new Option(
        '--more <gear>',
        'what one more clamp set (or other gear) does; this is what is asked when nothing else is',
      ).conflicts(['options', 'limits']),
    )
    .addOption(
      new Option('--options <ids>', 'options of the file against things as they are, with commas between')
        .argParser(collect)
        .conflicts('limits'),
    )
    .addOption(new Option('--limits', 'what holds the cell back'))
    .addOption(optionOption())
    .addOption(new Option('--title <text>', 'a title of your own (default: the question)'))
    .addOption(new Option('--notes <text>', 'notes of your own, at the end'))
    .addOption(
      new Option('--format <format>', 'text, markdown, html (prints on one page), or svg (the pictures)')
        .choices(FORMATS)
        .default('text'),
    )
    .addOption(
      new Option('--paper <size>', 'set the page for one size of paper (default: fits both)').choices([
        'A4',
        'Letter',
      ]),
    )
    .addOption(
      new Option('--save <file>', 'write to a file; pictures of a markdown page, and svg, go beside it'),
    )
    .addOption(bookOption())
    .addOption(forceOption());
  return addStudyWords(addWhatIfs(command)).action((file: string | undefined, words: Words) =>
    brief(file, words),
  );
}

const LABELS: Record<BriefStage, string> = {
  question: 'The question',
  then: 'One more of each thing',
  usual: 'Usual days in a row',
  staircase: 'What averages leave out',
  inputs: 'What would change the answer',
  ledger: 'Everything that can be done',
};

async function brief(file: string | undefined, words: Words): Promise<void> {
  if (words.format === 'svg' && words.save === undefined)
    throw commandWrong('Pictures are written beside a file: say which with --save, such as --save brief.svg');
  const input = await readInput(file, words);
  const question = questionOf(input, words);
  if (words.format !== 'svg') await mayReplace(words.save, { kind: 'page', force: words.force === true });
  const data = await running(words.threads, ({ runner, signal, onLook }) => {
    let label = LABELS.question;
    return makeBrief(input.scenario, question, runner, {
      asked: askedOf(words),
      signal,
      onStage: (stage) => (label = LABELS[stage]),
      onLook: (state) => onLook(label)(state),
    });
  });
  const command = repeatCommand(['brief'], input, words, asked(question)).map(quoted).join(' ');
  const page = buildBrief({
    scenario: input.scenario,
    data,
    again: { file: input.file, version: VERSION, seed: input.seed, command, made: today() },
    record: await recordOf(words.log, input.scenario.name),
    ...(words.title === undefined ? {} : { title: words.title }),
    ...(words.notes === undefined ? {} : { notes: words.notes }),
  });
  if (words.json === true) {
    const partial = data.answer.kind === 'crew' ? false : studyOf(data.answer).kind !== 'final';
    printJson({
      command: 'brief',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      partial,
      title: page.title,
      data,
      remarks: input.remarks,
      again: command,
    });
  } else await handOut(page, words);
}

/** How its forecasts of this cell came out so far. */
const recordOf = async (log: string, cell: string): Promise<LogCoverage> =>
  coverageOfBook(logOfBook((await bookToAnswerFrom(log)).entries, cell));

function questionOf({ scenario, base }: Input, { more, options, limits, option = [] }: Words): BriefQuestion {
  if (limits === true) return { kind: 'limits' };
  if (options === undefined) return { kind: 'one more', gear: gearAsked(scenario, more) };
  if (option.length > 0)
    throw commandWrong('--option changes the file, --options asks about its choices: give one of the two.');
  const ids = optionIds(base, options);
  if (ids.length === 0)
    throw commandWrong('--options needs at least one option of the file, such as --options third-set');
  return { kind: 'options', ids };
}

function asked(question: BriefQuestion): string[] {
  switch (question.kind) {
    case 'one more':
      return ['--more', question.gear];
    case 'options':
      return ['--options', question.ids.join(',')];
    case 'limits':
      return ['--limits'];
    case 'crew':
      return [];
  }
}

async function handOut(page: Page, { format, paper, save: out, force }: Words): Promise<void> {
  const pictures = picturesOf(page);
  const texts: Record<Exclude<Format, 'svg'>, () => string> = {
    text: () => toText(page, COLUMNS),
    markdown: () => toMarkdown(out === undefined ? withoutFiles(page) : named(page, out)),
    html: () => toHtml(onOneSheet(page, paper), { faces: FACES, ...(paper === undefined ? {} : { paper }) }),
  };
  if (out === undefined) {
    if (format !== 'svg') print(texts[format]());
    return;
  }
  const files =
    format === 'svg'
      ? pictures.map((one) => [beside(out, one.file, pictures.length), one.svg] as const)
      : [
          [out, texts[format]()] as const,
          ...(format === 'markdown'
            ? pictures.map((one) => [join(dirname(out), pictureName(out, one.file)), one.svg] as const)
            : []),
        ];
  if (files.length === 0)
    throw commandWrong('This page has no picture: the runs were stopped before there was one.');
  for (const [path, text] of files) {
    const kind = text.startsWith('<svg') ? 'picture' : 'page';
    await replaceFile(path, text, { kind, force: force === true });
    say(`Written: ${path}`);
  }
}

/** "brief.svg" itself for a single picture, "brief-staircase.svg" for each of several. */
const beside = (out: string, file: string, several: number): string =>
  several === 1 ? out : join(dirname(out), pictureName(out, file));
const pictureName = (out: string, file: string): string => `${basename(out, extname(out))}-${file}`;

const named = (page: Page, out: string): Page => ({
  ...page,
  blocks: page.blocks.map((block) =>
    block.kind === 'picture' && block.file !== undefined
      ? { ...block, file: pictureName(out, block.file) }
      : block,
  ),
});
const withoutFiles = (page: Page): Page => ({
  ...page,
  blocks: page.blocks.map((block) => {
    if (block.kind !== 'picture') return block;
    const { file: _file, ...rest } = block;
    return rest;
  }),
});

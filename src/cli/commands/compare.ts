import { Command, Option } from 'commander';
import { checkScenario } from '../../scenario/check.ts';
import { applyOption, describeChanges } from '../../scenario/options.ts';
import { sameJson } from '../../scenario/merge-patch.ts';
import { nameOf, resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { comparison } from '../../study/from-scenario.ts';
import { isPriced } from '../../study/clamp-question.ts';
import { oneMoreOfEach, type Asked } from '../../study/one-more.ts';
import { onUsualDays, type OnUsualDays, type UsualChoice } from '../../study/usual-days.ts';
import { runStudy } from '../../study/study.ts';
import { summarize, type StudySummary } from '../../study/summary.ts';
import { optionIds, patchOf, readInput, type FileWord } from '../input.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { comparePage, type HeldBack } from '../../report/pages/compare-page.ts';
import { printJson, printPage, say } from '../print.ts';
import {
  mayWriteChoices,
  pictureOption,
  tableOption,
  writeChoices,
  type ChoicesFiles,
} from '../choices-files.ts';
import { repeatCommand } from '../repeat.ts';
import { answered, type Printed, type Question, type Run } from '../running.ts';
import {
  addStudyWords,
  askedOf,
  cautionsOption,
  collect,
  fileArgument,
  forceOption,
  type StudyWords,
} from '../settings.ts';
import type { Typed } from '../../whatif/make.ts';
import { freeId } from '../../whatif/names.ts';
import type { Made } from '../../whatif/what-if.ts';
import { commandWrong, scenarioWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs, choicesOf, together, typedAgain } from '../what-if-words.ts';

export interface CompareWords extends StudyWords, ChoicesFiles {
  options?: string[];
  change?: string[];
  why?: boolean;
}

/** Options of a file, each against the file as it is, on the same luck. */
export function compareCommand(): Command {
  const command = new Command('compare')
    .description('options of the file, each against things as they are, on the same luck')
    .addArgument(fileArgument())
    .addOption(
      new Option(
        '--options <ids>',
        'which options, with commas between (default: all the file has)',
      ).argParser(collect),
    )
    .addOption(
      new Option(
        '--change <json>',
        'for programs: a choice as a JSON merge patch, or @file with it; give the word again for another',
      ).argParser(oneMore),
    )
    .option('-w, --why', 'and what holds each choice back (one more of each thing is tried to find it)')
    .addOption(pictureOption())
    .addOption(tableOption())
    .addOption(forceOption());
  return addStudyWords(addWhatIfs(command, { joins: true }))
    .addOption(cautionsOption())
    .action(
      async (file: string | undefined, words: CompareWords) =>
        void (await answered(words.threads, await compareQuestion(file, words))),
    );
}

const oneMore = (value: string, before: string[] | undefined): string[] => [...(before ?? []), value];

export async function compareQuestion(file: FileWord, words: CompareWords): Promise<Question> {
  const { frames, choices } = choicesOf(words.whatIfs ?? []);
  const { scenario: read, ...input } = await readInput(file, { seed: words.seed, whatIfs: frames });
  const made = choices.map((typed) => together(read, typed));
  const { scenario, own } = await withOwn(optionsOf(read, input.base), made, words.change ?? []);
  const named = words.options ?? (own.length > 0 ? [] : resolvePlant(scenario).options.map(({ id }) => id));
  const options = optionIds(scenario, [...named, ...own]);
  if (options.length === 0) {
    throw commandWrong(
      'The file has no options to compare. Add some under "options", or try one more of each thing: clampwright limits',
    );
  }
  const changed =
    words.with === undefined ? scenario : await changedBase(file, words, frames, scenario, options);
  await mayWriteChoices(words);
  const request = comparison(changed, options);
  const asked = askedOf(words);
  const answer = async (run: Run): Promise<Printed> => {
    const state = await runStudy(
      {
        ...request,
        settings: { ...request.settings, ...asked.settings },
        ...(asked.count === undefined ? {} : { count: asked.count }),
      },
      run.runner,
      run.onLook('Each choice'),
      run.signal,
    );
    const study = summarize(state);
    const why = words.why === true ? await heldBack(changed, options, asked, run) : null;
    const usual = await onUsualDays(
      changed,
      pricedOf(changed, options),
      run.runner,
      asked,
      run.onLook('Usual days in a row'),
      run.signal,
    );
    const files = await writeChoices(words, study, request.cases);
    return () => print({ study, why, usual, files });
  };
  const whole = { ...input, scenario: changed, base: changed };
  const cautions = cautionsOf(changed, changed, options);
  function print({ study, why, usual, files }: Answer): boolean {
    const partial = study.kind === 'partial';
    const repeat = {
      command: repeatCommand(['compare'], whole, { ...words, whatIfs: [] }, again(words, options, own)),
      count: study.count,
    };
    if (words.json === true) {
      printJson({
        command: 'compare',
        version: VERSION,
        file: input.file,
        seed: input.seed,
        options,
        why,
        usual,
        partial,
        study,
        cautions,
        remarks: input.remarks,
        again: repeat.command,
      });
    } else {
      printPage(
        comparePage({ input: whole, cases: request.cases, options, study, why, usual, cautions, repeat }),
      );
    }
    for (const file of files) say(`Written: ${file}`);
    return !partial;
  }
  return { answer };
}

interface Answer {
  study: StudySummary;
  why: HeldBack[] | null;
  usual: OnUsualDays | null;
  /** Written beside the answer. */
  files: string[];
}

/** Changes to the day leave a file's options out; what is compared needs them. */
const optionsOf = (read: Scenario, base: Scenario): Scenario =>
  base.options === undefined ? read : { ...read, options: base.options };

/** The file with the choices of one's own among its options, checked with them, no two under one name. */
async function withOwn(
  scenario: Scenario,
  made: Made[],
  texts: string[],
): Promise<{ scenario: Scenario; own: string[] }> {
  const options: NonNullable<Scenario['options']> = { ...scenario.options };
  const names = new Set(resolvePlant(scenario).options.map(({ name }) => name));
  const own: string[] = [];
  const add = (name: string, changes: Record<string, unknown>, price?: number): void => {
    const same = Object.keys(options).find((id) => sameJson(options[id]!.changes, changes));
    if (same !== undefined) {
      if (!own.includes(same)) own.push(same);
      return;
    }
    const id = freeId(options, `change-${own.length + 1}`);
    options[id] = { name: freeName(names, name), changes, ...(price === undefined ? {} : { price }) };
    own.push(id);
  };
  for (const { label, changes, price } of made) add(label, changes, price);
  for (const text of texts) {
    const changes = await patchOf(text, '--change');
    add(describeChanges(scenario, changes).join('; ') || 'no change', changes);
  }
  if (own.length === 0) return { scenario, own };
  const reading = checkScenario({ ...scenario, options });
  if (reading.kind === 'wrong') throw scenarioWrong('The file with your changes', reading.faults);
  return { scenario: reading.scenario, own };
}

const MOST_NAME = 120;

/** The name, or with a number behind it where a choice has it already; remembered. */
function freeName(names: Set<string>, wanted: string): string {
  const short = wanted.length > MOST_NAME ? `${wanted.slice(0, MOST_NAME - 5)}…` : wanted;
  let name = short;
  for (let number = 2; names.has(name); number += 1) name = `${short} (${number})`.slice(-MOST_NAME);
  names.add(name);
  return name;
}

/** The choices that have a price: those are bought for usual days, not for tomorrow. */
const pricedOf = (scenario: Scenario, options: string[]): UsualChoice[] =>
  isPriced(scenario)
    ? resolvePlant(scenario).options.flatMap(({ id, name, price }) =>
        options.includes(id) && price !== null && price > 0
          ? [{ id, name, scenario: applyOption(scenario, id) }]
          : [],
      )
    : [];

/** What holds the cell back as it is, and with each choice; null where it was stopped before that. */
async function heldBack(
  scenario: Scenario,
  options: string[],
  asked: Asked,
  { runner, signal, onLook }: Run,
): Promise<HeldBack[]> {
  const cells = [
    { name: 'As it is', cell: scenario },
    ...options.map((id) => ({
      name: nameOf(resolvePlant(scenario).options, id),
      cell: applyOption(scenario, id),
    })),
  ];
  const found: HeldBack[] = [];
  for (const { name, cell } of cells) {
    if (signal.aborted) break;
    const each = await oneMoreOfEach(cell, runner, asked, onLook(`One more of each: ${name}`), signal);
    if (each.study.kind === 'final') found.push({ name, constraint: each.constraint });
  }
  return found;
}

const again = (words: CompareWords, options: string[], own: string[]): string[] => [
  ...(options.every((id) => own.includes(id))
    ? []
    : ['--options', options.filter((id) => !own.includes(id)).join(',')]),
  ...typedAgain(words.whatIfs),
  ...(words.change ?? []).flatMap((text) => ['--change', text]),
  ...(words.why === true ? ['--why'] : []),
];

/** The changes of `--with` under every choice; each choice is checked again on top of them. */
async function changedBase(
  file: FileWord,
  words: CompareWords,
  frames: Typed[],
  scenario: Scenario,
  options: string[],
): Promise<Scenario> {
  const { scenario: changed } = await readInput(file, {
    with: words.with,
    seed: words.seed,
    whatIfs: frames,
  });
  const base = { ...changed, ...(scenario.options === undefined ? {} : { options: scenario.options }) };
  for (const id of options) {
    const reading = checkScenario(applyOption(base, id));
    if (reading.kind === 'wrong') throw scenarioWrong(`The scenario with --with and “${id}”`, reading.faults);
  }
  return base;
}

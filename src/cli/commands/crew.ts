import { Command, Option } from 'commander';
import { onOneSheet } from '../../document/one-sheet.ts';
import { buildBrief, crewQuestionOf, makeBrief, type BriefData } from '../../report/brief.ts';
import { DEFAULTS } from '../../scenario/defaults.ts';
import { writeCsv } from '../../document/csv.ts';
import { answerSentences, lateSentence } from '../../report/crew-words.ts';
import { sheetRows } from '../../report/crew-sheet.ts';
import { wallHtml } from '../../report/wall-sheet.ts';
import { toHtml } from '../../document/document-html.ts';
import { calendarFile, crewEvents } from '../../staffing/calendar.ts';
import { crossTraining, type CrossTraining } from '../../staffing/cross-training.ts';
import { CREW, planCrew, type CrewPlan, type CrewSettings } from '../../staffing/plan-crew.ts';
import { openDay, type CrewQuestion } from '../../staffing/question.ts';
import { personDays } from '../../staffing/sheet.ts';
import { tryChange, type TriedChange } from '../../staffing/try-change.ts';
import { cautionsFor } from '../../scenario/cautions.ts';
import { crewQuestion, type CrewWords } from '../crew-question.ts';
import { mayReplace, replaceFile } from '../disk/replace-file.ts';
import { nextWorkingDay, dayWords } from '../../scenario/calendar.ts';
import { bookOption } from '../book-entries.ts';
import { today } from '../clock.ts';
import { dayOpening } from '../../report/day-words.ts';
import { dayOfBook, putIntoDay, typedDayOf } from '../day-of-book.ts';
import { patchOf, readInput } from '../input.ts';
import { crewPage } from '../../report/pages/crew-page.ts';
import { quoted } from '../../report/pages/foot.ts';
import { printJson, printPage, say } from '../print.ts';
import { running, type Run } from '../running.ts';
import {
  collect,
  fileArgument,
  forceOption,
  cautionsOption,
  jsonOption,
  optionOption,
  seedOption,
  timesKnownOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { FACES } from '../typefaces.ts';
import { scenarioWrong, Trouble } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { addWhatIfs, isWhatIf, together, typedAgain } from '../what-if-words.ts';

interface Words extends Omit<CrewWords, 'keep'> {
  keep?: true;
  leave?: string[];
  log: string;
  absences: boolean;
  how?: boolean;
  crossTraining?: number;
  try?: string;
  sheet?: string;
  wall?: string;
  calendar?: string;
  brief?: string;
  day?: string;
  count: number;
  search: number;
  threads: number;
  force?: boolean;
  json?: boolean;
}

const STOPPED = 130;

/** Tomorrow's crew: who stands where, do we make it, with how much overtime. */
export function crewCommand(): Command {
  const list = (flags: string, what: string): Option => new Option(flags, what).argParser(collect);
  const command = new Command('crew')
    .description(
      "tomorrow's crew: who stands where, whether you make the number, how much overtime, what if somebody calls out",
    )
    .addArgument(fileArgument())
    .addOption(list('--out <ids>', 'who is out, with commas between: tova,wren'))
    .addOption(
      list(
        '--late <id=minutes>',
        'who comes late, and by how much: kofi=30, or kofi=30@50 for a chance of 50 %',
      ),
    )
    .addOption(list('--perhaps <id=percent>', 'who comes with what chance: ines=80'))
    .addOption(
      new Option('--target <units>', "good units due (default: the file's)").argParser(wholeFrom(0, 100_000)),
    )
    .addOption(
      new Option(
        '--overtime <minutes>',
        "the most overtime that may be asked for, 0 for none (default: the file's)",
      ).argParser(wholeFrom(0, 1440)),
    )
    .addOption(list('--overtime-for <ids>', 'of whom it may be asked (default: everybody who may)'))
    .addOption(
      new Option(
        '--confidence <percent>',
        `chance asked of the target (default: the file's, else ${DEFAULTS.study.promise})`,
      ).argParser(wholeFrom(1, 99)),
    )
    .option(
      '--cheapest',
      'the cheapest plan that still makes the target, instead of the one that is worth most',
    )
    .option('--keep', 'put plan and forecast into the book of days')
    .addOption(
      list(
        '--leave <what>',
        'leave as the file has it: posts, order, changes, breaks, last-start, overtime, rule',
      ),
    )
    .addOption(bookOption())
    .addOption(
      new Option('--changes <n>', 'changes of post in the day, for each person')
        .argParser(wholeFrom(0, 2))
        .default(1),
    )
    .addOption(
      new Option(
        '--try <what-if>',
        'a change by hand to the planner\'s sheet, and what it costs: a what-if and what follows it, "stands ines=clean,sand" (for programs: JSON, or @file)',
      ),
    )
    .addOption(
      new Option(
        '--cross-training <level>',
        'which second skill buys most, at this level: 1 training, 2 with help, 3 alone, 4 can train others',
      ).argParser(wholeFrom(1, 4)),
    )
    .option('--how', 'say also by which procedures the plan was found')
    .option('--no-absences', "leave out what each person's absence would do")
    .addOption(new Option('--wall <file>', 'write the sheet for the wall, one page to print (HTML)'))
    .addOption(new Option('--sheet <file>', 'write the sheet as a table (CSV)'))
    .addOption(new Option('--calendar <file>', 'write shifts and posts as a calendar file (ICS)'))
    .addOption(new Option('--brief <file>', "write one page for the plant's management, to print (HTML)"))
    .addOption(
      new Option(
        '--day <date>',
        'the day planned for, YYYY-MM-DD, by its calendar and what was handed over (default where one is needed: the next working day)',
      ),
    )
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(timesKnownOption())
    .addOption(
      new Option('-n, --count <shifts>', "shifts the plan's figures are taken from")
        .argParser(wholeFrom(30, 100_000))
        .default(CREW.report),
    )
    .addOption(
      new Option('--search <shifts>', 'shifts the search for plans may run')
        .argParser(wholeFrom(100, 10_000_000))
        .default(CREW.search.shifts),
    )
    .addOption(threadsOption())
    .addOption(forceOption())
    .addOption(cautionsOption())
    .addOption(jsonOption());
  return addWhatIfs(command, { except: ['out', 'late', 'overtime', 'target'] }).action(
    (file: string | undefined, words: Words) => crew(file, words),
  );
}

async function crew(file: string | undefined, words: Words): Promise<void> {
  const filed = await readInput(file, words);
  const keeps = words.keep === true;
  const day = words.day === undefined && !keeps ? null : typedDayOf(words.day ?? tomorrowOf(filed.scenario));
  const opened = day === null ? null : await dayOfBook(filed.scenario, words.log, day);
  const input = opened === null ? filed : { ...filed, scenario: opened.unplanned };
  const question = crewQuestion(input.scenario, { ...words, keep: words.leave ?? [] });
  const change = words.try === undefined ? null : await changeTried(input.scenario, words.try);
  const force = words.force === true;
  await mayReplace(words.sheet, { kind: 'sheet', force });
  await mayReplace(words.wall, { kind: 'page', force });
  await mayReplace(words.calendar, { kind: 'calendar', force });
  await mayReplace(words.brief, { kind: 'page', force });
  const { plan, tried, training, brief } = await running(words.threads, (run) =>
    answer(question, words, change, run),
  );
  await writeFiles(plan, question, words, day ?? tomorrowOf(filed.scenario));
  if (opened !== null && keeps) await putIntoDay(opened, plan, change, tried, words.log);
  const again = [
    'clampwright',
    'crew',
    input.file,
    ...(words.option ?? []).flatMap((id) => ['--option', id]),
    ...typed(words),
    ...typedAgain(words.whatIfs),
    '--seed',
    input.seed,
  ];
  if (words.brief !== undefined && brief !== null) {
    const from = {
      file: input.file,
      version: VERSION,
      seed: input.seed,
      command: again.map(quoted).join(' '),
      made: today(),
    };
    const page = buildBrief({ scenario: input.scenario, data: brief, again: from });
    await replaceFile(words.brief, toHtml(onOneSheet(page), { faces: FACES }), { kind: 'page', force });
  }
  const cautions = cautionsFor(plan.scenario);
  if (words.json === true) {
    printJson({
      command: 'crew',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      day,
      partial: false,
      plan,
      tried,
      training,
      cautions,
      remarks: input.remarks,
      again,
    });
  } else {
    printPage(
      crewPage({
        input,
        day: opened === null ? null : dayOpening(opened),
        plan,
        tried,
        training,
        how: words.how === true,
        cautions,
        repeat: { command: again, count: plan.study.count },
      }),
    );
  }
}

/** A change by hand: a what-if in words, or JSON. */
async function changeTried(scenario: Scenario, text: string): Promise<Record<string, unknown>> {
  const [, word, given] = /^(?:--)?([a-z-]+)[ =]+(.+)$/.exec(text.trim()) ?? [];
  if (word === undefined || !isWhatIf(word)) return patchOf(text, '--try');
  return together(scenario, [{ word, given: given! }]).changes;
}

interface Answer {
  plan: CrewPlan;
  tried: Extract<TriedChange, { kind: 'tried' }> | null;
  training: CrossTraining | null;
  /** Null where none is asked for. */
  brief: BriefData | null;
}

async function answer(
  question: CrewQuestion,
  words: Words,
  change: Record<string, unknown> | null,
  run: Run,
): Promise<Answer> {
  const { runner, signal } = run;
  const each = Math.min(CREW.oneMore, words.count);
  const settings: CrewSettings = {
    ...CREW,
    search: { ...CREW.search, shifts: words.search },
    report: words.count,
    oneMore: each,
    absence: words.absences ? Math.min(CREW.absence, words.count) : 0,
  };
  try {
    const plan = await planCrew(
      question,
      runner,
      settings,
      ({ stage, done, of }) => run.onShifts(capital(stage), done, of),
      signal,
    );
    const tried =
      change === null
        ? null
        : await tryChange(
            question,
            plan,
            change,
            runner,
            { count: words.count },
            run.onLook('Your change'),
            signal,
          );
    if (tried?.kind === 'wrong') throw scenarioWrong('The sheet with your change', tried.faults);
    const training =
      words.crossTraining === undefined
        ? null
        : await crossTraining(
            plan,
            runner,
            {
              level: words.crossTraining,
              count: Math.min(300, words.count),
            },
            run.onLook('Second skills'),
            signal,
          );
    const brief =
      words.brief === undefined
        ? null
        : await makeBrief(question.scenario, crewQuestionOf(plan), runner, { signal });
    return { plan, tried, training, brief };
  } catch (error) {
    if (signal.aborted)
      throw new Trouble(
        STOPPED,
        'Stopped by hand before a plan was settled: nothing is offered. A smaller --search is quicker.',
      );
    throw error;
  }
}

const capital = (stage: string): string => stage[0]!.toUpperCase() + stage.slice(1);

async function writeFiles(plan: CrewPlan, question: CrewQuestion, words: Words, day: string): Promise<void> {
  const force = words.force === true;
  if (plan.kind === 'over the limit') {
    if (words.wall !== undefined || words.sheet !== undefined || words.calendar !== undefined)
      say("No sheet is written: no plan keeps the file's limits.");
    return;
  }
  if (words.sheet !== undefined)
    await replaceFile(words.sheet, writeCsv(sheetRows(plan.sheet)), { kind: 'sheet', force });
  if (words.wall !== undefined) {
    const page = wallHtml(
      {
        sheet: plan.sheet,
        ...(words.day === undefined ? {} : { day: dayWords(day) }),
        answer: answerSentences(plan),
        late: lateSentence(plan),
        cautions: cautionsFor(plan.scenario),
      },
      { faces: FACES },
    );
    await replaceFile(words.wall, page, { kind: 'page', force });
  }
  if (words.calendar !== undefined) {
    const events = crewEvents({
      day,
      cell: openDay(question).shift.name,
      people: personDays(plan.sheet),
    });
    await replaceFile(words.calendar, calendarFile(events, { stamp: Date.now(), name: plan.cell }), {
      kind: 'calendar',
      force,
    });
  }
}

/** The next working day of the cell after today. */
const tomorrowOf = (scenario: Scenario): string => nextWorkingDay(scenario, today());

/** The words typed that decide the numbers, as they are to be typed again. */
function typed(words: Words): string[] {
  const lists: [string, string[] | undefined][] = [
    ['--out', words.out],
    ['--late', words.late],
    ['--perhaps', words.perhaps],
    ['--overtime-for', words.overtimeFor],
    ['--leave', words.leave],
  ];
  const single: [string, number | string | undefined][] = [
    ['--target', words.target],
    ['--overtime', words.overtime],
    ['--confidence', words.confidence],
    ['--changes', words.changes === 1 ? undefined : words.changes],
    ['--day', words.day],
    ['--count', words.count === CREW.report ? undefined : words.count],
    ['--search', words.search === CREW.search.shifts ? undefined : words.search],
    ['--with', words.with],
    ['--try', words.try],
  ];
  return [
    ...lists.flatMap(([flag, values]) => (values === undefined ? [] : [flag, values.join(',')])),
    ...single.flatMap(([flag, value]) => (value === undefined ? [] : [flag, String(value)])),
    ...(words.crossTraining === undefined ? [] : ['--cross-training', String(words.crossTraining)]),
    ...(words.cheapest === true ? ['--cheapest'] : []),
    ...(words.absences ? [] : ['--no-absences']),
  ];
}

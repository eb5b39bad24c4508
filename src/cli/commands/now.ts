import { Command, Option } from 'commander';
import { handoverPage } from '../../report/handover.ts';
import { nowPage } from '../../report/now-page.ts';
import { checkHandover, checkNow } from '../../today/check-now.ts';
import { forecastNow } from '../../today/forecast.ts';
import { possibleMoves, tryMoves } from '../../today/moves.ts';
import type { NowState } from '../../today/state.ts';
import { sumOf } from '../../today/told-count.ts';
import type { EventRow } from '../../record/event-row.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { bookOption, sayInBook, tellKept } from '../book-entries.ts';
import { daySentence } from '../../report/day-words.ts';
import { addCountWords, countTold, recordTold, type CountWords } from '../count-words.ts';
import { dayAsked } from '../day-of-book.ts';
import { countedBefore, countSaid } from '../../today/kept-counts.ts';
import { replaceFile } from '../disk/replace-file.ts';
import { readInput, type Changes, type Input } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { running } from '../running.ts';
import {
  fileArgument,
  forceOption,
  cautionsOption,
  jsonOption,
  seedOption,
  timesKnownOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { Trouble, SCENARIO_WRONG } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends Changes, CountWords {
  moves: boolean;
  handover?: true;
  tomorrow?: string;
  promised?: string;
  note: string;
  day?: string;
  log: string;
  keep?: true;
  count: number;
  threads: number;
  force?: boolean;
  json?: boolean;
}

/** During the shift: do we still make it, and what to move; at its end the handover. */
export function nowCommand(): Command {
  const command = new Command('now')
    .description(
      'it is 10:40 and this is in the cell: do we still make it, what should I move; at the end the handover',
    )
    .addArgument(fileArgument());
  addCountWords(command)
    .addOption(
      new Option(
        '--day <date>',
        'the day it is about: its plan and its counts are used (default: today, where the book has it)',
      ),
    )
    .addOption(bookOption())
    .option('--keep', 'put the count into the book')
    .option('--no-moves', 'leave out what could be moved')
    .option('--handover', 'the handover page instead')
    .addOption(new Option('--promised <text>', 'for the handover: what was promised this morning'))
    .addOption(new Option('--note <text>', 'for the handover').default(''))
    .addOption(
      new Option(
        '--tomorrow <file>',
        "with the handover: write the scenario with tomorrow's opening stock (JSON)",
      ),
    )
    .addOption(
      new Option('-n, --count <shifts>', 'run so many rests of the shift')
        .argParser(wholeFrom(30, 1_000_000))
        .default(400),
    )
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(timesKnownOption())
    .addOption(threadsOption())
    .addOption(forceOption())
    .addOption(cautionsOption())
    .addOption(jsonOption());
  return addWhatIfs(command, { except: ['out'] }).action((file: string | undefined, words: Words) =>
    run(file, words),
  );
}

async function run(file: string | undefined, words: Words): Promise<void> {
  const filed = await readInput(file, words);
  const opened = await dayAsked(filed.scenario, words.log, words.day, words.keep === true);
  const input = opened === null ? filed : { ...filed, scenario: opened.scenario };
  const { scenario } = input;
  const events = await recordTold(words, scenario);
  const last = opened?.view.counts.at(-1)?.content ?? null;
  const { count, told } = await countTold(scenario, words, events, last);
  if (words.handover === true || words.tomorrow !== undefined) {
    await handOver(input, words, count, events);
    return;
  }
  const { now, rest } = fine(checkNow(scenario, count));
  const earlier = opened === null ? [] : countedBefore(scenario, opened);
  const { forecast, moves } = await running(words.threads, async ({ runner, signal }) => ({
    forecast: await forecastNow(scenario, now, runner, signal, words.count, earlier),
    moves: words.moves ? await tryMoves(rest, possibleMoves(rest, now), runner, signal) : null,
  }));
  if (opened !== null && words.keep === true && told) {
    const said = { day: opened.day, kind: 'count' as const, content: countSaid(now) };
    tellKept(await sayInBook(words.log, filed.scenario.name, () => [said]));
  }
  if (words.json === true)
    printJson({
      command: 'now',
      version: VERSION,
      file: input.file,
      seed: input.seed,
      day: opened?.day ?? null,
      sum: sumOf(scenario, now),
      forecast,
      moves,
    });
  else printPage(nowPage({ scenario, forecast, moves, day: opened === null ? [] : [daySentence(opened)] }));
}

function fine(checked: ReturnType<typeof checkNow>): { now: NowState; rest: Scenario } {
  if (checked.kind === 'wrong')
    throw new Trouble(SCENARIO_WRONG, 'This count of the cell cannot be.', checked.faults);
  return checked;
}

/** The page of the handover; with `--tomorrow` the scenario that starts from it. */
async function handOver(
  { scenario, file }: Input,
  words: Words,
  count: unknown,
  events: EventRow[] | null,
): Promise<void> {
  const { now, rest } = fine(checkHandover(scenario, count));
  if (words.tomorrow !== undefined) {
    await replaceFile(words.tomorrow, `${JSON.stringify(rest, null, 2)}\n`, {
      kind: 'scenario',
      force: words.force === true,
    });
    say(`Wrote ${words.tomorrow}: the same cell with what stands in it now as its opening stock.`);
  }
  const page = handoverPage({ scenario, now, promised: words.promised ?? null, events, note: words.note });
  if (words.json === true) printJson({ command: 'now', version: VERSION, file, now, handover: page });
  else printPage(page);
}

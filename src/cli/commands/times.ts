import { Argument, Command, InvalidArgumentError, Option } from 'commander';
import { timesPage } from '../../report/times-page.ts';
import { resolve } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { applyFits } from '../../timing/apply-fits.ts';
import { FORECAST, forecastWithTimes } from '../../timing/forecast-times.ts';
import { placeKey } from '../../timing/groups.ts';
import type { Role } from '../../timing/header-words.ts';
import { guessMapping, type Mapping } from '../../timing/mapping.ts';
import { accountOf, readObservations } from '../../timing/read-observations.ts';
import { CANDIDATE_KINDS, FEWEST, type CandidateKind } from '../../timing/step-fit.ts';
import { timeKey } from '../../timing/left-out.ts';
import type { Observation } from '../../timing/observation.ts';
import { studyTimes } from '../../timing/study-times.ts';
import { readTable, type Table } from '../../timing/table.ts';
import { readText } from '../disk/read-file.ts';
import { replaceFile } from '../disk/replace-file.ts';
import { readInput, type Changes } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { running } from '../running.ts';
import {
  collect,
  fileArgument,
  forceOption,
  jsonOption,
  seedOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { leavePartial } from '../surroundings.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';

const ROLES: readonly Role[] = [
  'step',
  'product',
  'person',
  'minutes',
  'start',
  'end',
  'date',
  'rating',
  'repeat',
];
/** Times that are all alike become fixed by themselves; nobody has to ask for it. */
const KINDS: readonly CandidateKind[] = CANDIDATE_KINDS.filter((kind) => kind !== 'fixed');

interface Words extends Changes {
  map?: string[];
  only?: string;
  unit?: 'minutes' | 'seconds' | 'hours';
  dates?: 'day-first' | 'month-first';
  evenOut: 'factors' | 'rating' | 'none';
  withAllowance?: true;
  knownTo: number;
  use?: string[];
  leaveOut?: number[];
  means?: string[];
  for?: string[];
  names?: true;
  apply?: string;
  forecast?: true;
  resamples: number;
  threads: number;
  force?: boolean;
  json?: boolean;
}

const MOST_LIST = 200 * 1024 * 1024;

/** From a list of observed times to the times of the scenario. */
export function timesCommand(): Command {
  return new Command('times')
    .description(
      'from a list of times taken at the bench to the times of the file: how many, which curve, how many more',
    )
    .addArgument(
      new Argument(
        '<observations>',
        'the list (CSV or text): step and minutes, or start and end; product, person, date, rating',
      ),
    )
    .addArgument(fileArgument())
    .addOption(
      new Option(
        '--map <column=role...>',
        `what a column holds: Station=step; roles: ${ROLES.join(', ')}, or none`,
      ).argParser(collect),
    )
    .addOption(new Option('--only <step>', 'all rows are of this step'))
    .addOption(
      new Option('--unit <unit>', 'what bare numbers count (default: told by the column)').choices([
        'minutes',
        'seconds',
        'hours',
      ]),
    )
    .addOption(
      new Option('--dates <order>', 'how 03/04 is meant (default: told by the rows)').choices([
        'day-first',
        'month-first',
      ]),
    )
    .addOption(
      new Option('--even-out <how>', 'what takes differences in pace out')
        .choices(['factors', 'rating', 'none'])
        .default('factors'),
    )
    .addOption(
      new Option(
        '--with-allowance',
        'the times have the allowance in them already (clock times of whole pieces)',
      ),
    )
    .addOption(
      new Option('--known-to <percent>', 'how well each mean should be known')
        .argParser(percentOver0)
        .default(5),
    )
    .addOption(
      new Option(
        '--use <step=curve...>',
        `choose a curve yourself: sand=gamma; curves: ${KINDS.join(', ')}`,
      ).argParser(collect),
    )
    .addOption(
      new Option('--leave-out <rows>', 'rows of the list left out of every figure: 14,27').argParser(
        rowsTyped,
      ),
    )
    .addOption(
      new Option(
        '--means <word=id...>',
        'what a word of the list stands for in the file: "rubbing=sand", step, product or person',
      ).argParser(collect),
    )
    .addOption(
      new Option('--for <steps>', 'put the times of these steps only into the file').argParser(collect),
    )
    .addOption(new Option('--names', 'call people by their names (otherwise person A, person B)'))
    .addOption(
      new Option(
        '--apply <file>',
        'write the scenario with the chosen curves and where they came from (JSON)',
      ),
    )
    .addOption(
      new Option('--forecast', 'run the shift with them: luck, and what is not known of the times, apart'),
    )
    .addOption(
      new Option('--resamples <n>', 'how often the list is drawn anew for that')
        .argParser(wholeFrom(2, 10_000))
        .default(FORECAST.resamples),
    )
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(threadsOption())
    .addOption(forceOption())
    .addOption(jsonOption())
    .action((list: string, file: string | undefined, words: Words) => run(list, file, words));
}

function rowsTyped(text: string): number[] {
  const rows = text.split(',').map((one) => Number(one.trim()));
  if (rows.every((row) => Number.isInteger(row) && row > 0)) return rows;
  throw new InvalidArgumentError('It takes numbers of rows with commas between, such as 14,27.');
}

function percentOver0(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value <= 100)) throw new InvalidArgumentError('It takes per cent over 0, such as 5.');
  return value;
}

async function run(list: string, file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const table = readTable(await readText(list, MOST_LIST, 'a list of times'));
  const mapping = mappingOf(table, scenario, words);
  const read = readObservations(table, mapping, scenario);
  // What is fitted is fitted to the other rows.
  if (read.unread.length > 0) leavePartial();
  const study = studyTimes(scenario, read.observations, {
    precision: words.knownTo / 100,
    pace: words.evenOut,
    withAllowance: words.withAllowance === true,
    uses: usesOf(words, scenario),
    leaveOut: leftOut(words.leaveOut, read.observations),
  });
  for (const step of words.for ?? []) stepOf(scenario, step, '--for');
  const wanted = study.places.filter(({ fit }) => words.for === undefined || words.for.includes(fit.step));
  const fits = wanted.map((place) => place.fit);
  const applied = applyFits(
    scenario,
    fits,
    wanted.map(({ doubts }) => doubts),
  );
  if (words.apply !== undefined) {
    await replaceFile(words.apply, `${JSON.stringify(applied, null, 2)}\n`, {
      kind: 'scenario',
      force: words.force === true,
    });
    say(
      `Wrote ${words.apply}: the file with ${fits.filter((fit) => fit.chosen !== null).length} times from the list, each with where it came from.`,
    );
  }
  const forecast =
    words.forecast !== true
      ? null
      : await running(words.threads, ({ runner, signal }) =>
          forecastWithTimes(applied, fits, runner, { resamples: words.resamples }, signal),
        );
  if (words.json === true) {
    printJson({
      command: 'times',
      version: VERSION,
      file: input.file,
      seed: input.seed,
      list,
      columns: columnsTold(table, mapping),
      read,
      study,
      forecast,
    });
    return;
  }
  printPage(timesPage({ scenario, read: accountOf(read), study, forecast, withNames: words.names === true }));
  if (read.observations.length < FEWEST)
    say(
      `Columns were read as: ${columnsTold(table, mapping)
        .map(({ column, role }) => `${column}=${role}`)
        .join(', ')}. Correct them with --map.`,
    );
}

function columnsTold(table: Table, { columns, stepColumns }: Mapping): { column: string; role: string }[] {
  const role = (at: number): string =>
    Object.entries(columns).find(([, column]) => column === at)?.[0] ??
    Object.entries(stepColumns).find(([, column]) => column === at)?.[0] ??
    'none';
  return table.header.map((column, at) => ({ column, role: role(at) }));
}

/** The guess, with what was said by hand put right. */
function mappingOf(table: Table, scenario: Scenario, words: Words): Mapping {
  const mapping = guessMapping(table, scenario);
  for (const one of words.map ?? []) {
    const [name, role] = splitAtLast(one, '--map');
    const column = table.header.findIndex((header) => header.toLowerCase() === name.toLowerCase());
    if (column < 0)
      throw commandWrong(
        `The list has no column "${name}"; it has ${table.header.map((header) => `"${header}"`).join(', ')}.`,
      );
    const known = ROLES.find((other) => other === role);
    if (known === undefined && role !== 'none')
      throw commandWrong(`--map knows no "${role}"; a column holds ${ROLES.join(', ')} or none.`);
    mapping.columns = Object.fromEntries(Object.entries(mapping.columns).filter(([, at]) => at !== column));
    if (known !== undefined) mapping.columns[known] = column;
  }
  if (words.only !== undefined) {
    stepOf(scenario, words.only, '--only');
    delete mapping.columns.step;
    Object.assign(mapping, { stepColumns: {}, onlyStep: words.only });
  }
  for (const one of words.means ?? []) putWord(mapping, scenario, splitAtLast(one, '--means'));
  if (words.unit !== undefined) mapping.unit = words.unit;
  if (words.dates !== undefined)
    mapping.dateOrder = words.dates === 'day-first' ? 'day first' : 'month first';
  return mapping;
}

/** A word of the list for a step, a product or a person of the file. */
function putWord(mapping: Mapping, scenario: Scenario, [word, id]: [string, string]): void {
  const { steps, products, people } = resolve(scenario);
  const kinds = { steps, products, people };
  const kind = (['steps', 'products', 'people'] as const).find((one) =>
    kinds[one].some((thing) => thing.id === id),
  );
  if (kind === undefined)
    throw commandWrong(
      `--means: there is no "${id}"; there are ${[...steps, ...products, ...people].map((one) => one.id).join(', ')}.`,
    );
  mapping[kind] = { ...mapping[kind], [word]: id };
}

function leftOut(rows: number[] | undefined, observations: readonly Observation[]): ReadonlySet<string> {
  const left = observations.filter(({ row }) => rows?.includes(row));
  const missing = (rows ?? []).filter((row) => !left.some((one) => one.row === row));
  if (missing.length > 0)
    throw commandWrong(`--leave-out: row ${missing.join(', ')} of the list gives no time.`);
  return new Set(left.map(timeKey));
}

function usesOf(words: Words, scenario: Scenario): Record<string, CandidateKind> {
  return Object.fromEntries(
    (words.use ?? []).flatMap((one) => {
      const [step, curve] = splitAtLast(one, '--use');
      stepOf(scenario, step, '--use');
      const kind = KINDS.find((one) => one === curve);
      if (kind === undefined)
        throw commandWrong(`--use knows no curve "${curve}"; it knows ${KINDS.join(', ')}.`);
      const products = [null, ...resolve(scenario).products.map(({ id }) => id)];
      return [
        ...products.map((product) => ({ step, product, repeat: false })),
        { step, product: null, repeat: true },
      ].map((place) => [placeKey(place), kind] as const);
    }),
  );
}

function stepOf(scenario: Scenario, step: string, flag: string): void {
  if (!Object.hasOwn(scenario.steps, step))
    throw commandWrong(
      `${flag}: no step is called "${step}"; there are ${Object.keys(scenario.steps).join(', ')}.`,
    );
}

function splitAtLast(text: string, flag: string): [string, string] {
  const at = text.lastIndexOf('=');
  if (at <= 0) throw commandWrong(`${flag} takes two names with "=" between them; found "${text}".`);
  return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
}

import { Argument, Command, Option } from 'commander';
import { checkScenario } from '../../scenario/check.ts';
import { DEFAULTS } from '../../scenario/defaults.ts';
import {
  clampedAt,
  laterFirst,
  ownCell,
  type OwnCell,
  type PersonAsked,
} from '../../scenario/own/own-cell.ts';
import { readNames, readSteps } from '../../scenario/own/read-lists.ts';
import { inventedShop } from '../../scenario/own/invented-shop.ts';
import { start, STARTS, type Start, type StepAsked } from '../../scenario/own/starts.ts';
import { listed } from '../../words/words.ts';
import { asking, fine, wrong, type Answered, type Asking } from '../asking.ts';
import { mayReplace, replaceFile } from '../disk/replace-file.ts';
import { say } from '../print.ts';
import { forceOption } from '../settings.ts';
import { scenarioWrong } from '../trouble.ts';

/** Asks what has to be known of a cell, and writes it down as a file that can be run. */
export function newCommand(): Command {
  return new Command('new')
    .description('asks a few things about your own cell and writes a file of it')
    .addArgument(new Argument('[file]', 'where to write it').default('my-cell.json'))
    .addOption(
      new Option('--from <shop>', 'begin with an invented shop instead of asking').choices(
        STARTS.map(({ id }) => id),
      ),
    )
    .addOption(forceOption())
    .action((file: string, { from, force }: { from?: string; force?: boolean }) =>
      from === undefined ? begin(file, force === true) : beginFrom(start(from), file, force === true),
    );
}

/** Asks nothing: a shop to try things on, marked as invented. */
async function beginFrom(shop: Start, file: string, force: boolean): Promise<void> {
  await mayReplace(file, { kind: 'scenario', force });
  const scenario = { ...ownCell(inventedShop(shop)), invented: true };
  await replaceFile(file, `${JSON.stringify(scenario, null, 2)}\n`, { kind: 'scenario', force });
  say(`Written: ${file}. Its people and times are invented: put in your own.`);
}

async function begin(file: string, force: boolean): Promise<void> {
  await mayReplace(file, { kind: 'scenario', force });
  const questions = asking(process.stdin, process.stdout);
  try {
    const scenario = ownCell(await askAll(questions));
    const reading = checkScenario(scenario);
    if (reading.kind === 'wrong') throw scenarioWrong('The cell', reading.faults);
    await replaceFile(file, `${JSON.stringify(scenario, null, 2)}\n`, { kind: 'scenario', force });
    say(`Written: ${file}`);
    const guessed = Object.values(scenario.steps).filter(({ timesFrom }) => timesFrom !== undefined).length;
    questions.tell(
      [
        ...(guessed === 0
          ? []
          : [
              `${guessed === 1 ? 'One time is' : `${guessed} times are`} still a guess to begin with: put in your own.`,
            ]),
        'Parts do not run out in this file, and everybody does alone what they stand at; change that in it, or in the planner.',
        `Next: npx clampwright run ${file}`,
        ...(scenario.gear === undefined ? [] : [`Or: npx clampwright one-more ${file} --gear clamp`]),
      ].join('\n'),
    );
  } finally {
    questions.close();
  }
}

async function askAll(questions: Asking): Promise<OwnCell> {
  const name = await questions.ask('What is the cell called?', (line) =>
    line === '' ? wrong('Give it a name, such as: Bench 2.') : fine(line.slice(0, 120)),
  );
  const steps = await askSteps(questions);
  const clampSets =
    clampedAt(steps) === null
      ? 0
      : await questions.ask('How many clamp sets are there? (0: none are needed; Enter: 2)', wholeOr(2));
  const people = await askPeople(questions, steps);
  const { start, end } = DEFAULTS.shift;
  return {
    name,
    steps,
    clampSets,
    people,
    start: await questions.ask(`When does the shift start? (Enter: ${start})`, clockOr(start)),
    end: await questions.ask(`When does it end? (Enter: ${end})`, clockOr(end)),
    target: await questions.ask('How many good pieces are due in a shift? (Enter: no number)', (line) =>
      line === '' ? fine(null) : wholeOr(0)(line),
    ),
  };
}

const told = (steps: readonly StepAsked[]): string =>
  steps
    .map(({ name, minutes, wait }) => `  ${name} ${minutes}${wait ? ' (waits, nobody needed)' : ''}`)
    .join('\n');

async function askSteps(questions: Asking): Promise<StepAsked[]> {
  const start = await questions.ask(
    `What does it make? ${STARTS.map((one, i) => `${i + 1} ${one.name}`).join(', ')} (Enter: 1)`,
    (line): Answered<(typeof STARTS)[number]> => {
      const found = STARTS[line === '' ? 0 : Number(line) - 1];
      return found === undefined ? wrong(`Write a number from 1 to ${STARTS.length}.`) : fine(found);
    },
  );
  for (;;) {
    const lines = await questions.lines(
      `The steps in their order, each with the usual minutes of a piece. Enter keeps these, which are guesses:\n${told(start.steps)}\nOr write your own, one a line (such as: fit 14), and an empty line at the end.`,
    );
    if (lines.length === 0) return start.steps;
    const { steps, unread } = readSteps(lines.join('\n'));
    if (unread.length === 0 && steps.some(({ wait }) => !wait)) return steps;
    questions.tell(
      unread.length === 0
        ? 'At least one step needs hands.'
        : `Not read: ${unread.join('; ')}. Write a name and minutes, such as: fit 14.`,
    );
  }
}

async function askPeople(questions: Asking, steps: StepAsked[]): Promise<PersonAsked[]> {
  const names = await questions.ask('Who works there? Names, with commas between.', (line) => {
    const read = readNames(line);
    return read.length === 0 ? wrong('At least one name, such as: Ada, Ben.') : fine(read);
  });
  const posts = steps.flatMap(({ name, wait }, i) => (wait ? [] : [{ at: i, name }]));
  const choice = posts.map(({ name }, i) => `${i + 1} ${name}`).join(', ');
  const places = (line: string): Answered<number[]> => {
    const numbers = line
      .split(/[\s,;]+/)
      .filter((one) => one !== '')
      .map(Number);
    if (numbers.length === 0 || numbers.some((one) => posts[one - 1] === undefined))
      return wrong(`Write numbers from 1 to ${posts.length}, such as: 2,1.`);
    return fine([...new Set(numbers)].map((one) => posts[one - 1]!.at));
  };
  questions.tell(`The posts: ${choice}.`);
  const people: PersonAsked[] = [];
  for (const name of names)
    people.push({
      name,
      posts: await questions.ask(`Where does ${name} stand? Numbers, first choice first.`, places),
    });
  const empty = posts.filter(({ at }) => !people.some((one) => one.posts.includes(at)));
  for (const { at, name } of empty) {
    const who = await questions.ask(
      `Nobody stands at ${name} yet. Who does too? (${listed(names, 'or')})`,
      (line) => {
        const found = people.find((one) => one.name.toLowerCase() === line.toLowerCase());
        return found === undefined ? wrong(`Write one of these names: ${names.join(', ')}.`) : fine(found);
      },
    );
    who.posts = laterFirst([...who.posts, at]);
  }
  return people;
}

const wholeOr =
  (otherwise: number) =>
  (line: string): Answered<number> => {
    if (line === '') return fine(otherwise);
    const value = Number(line.replace(/[\s,’']/g, ''));
    return Number.isInteger(value) && value >= 0 && value <= 10_000
      ? fine(value)
      : wrong('Write a whole number in figures, such as 2.');
  };

const clockOr =
  (otherwise: string) =>
  (line: string): Answered<string> => {
    if (line === '') return fine(otherwise);
    const found = /^(\d{1,2})(?:[:.h]?(\d{2}))?$/.exec(line);
    const [hour, minute] = [Number(found?.[1]), Number(found?.[2] ?? 0)];
    return hour <= 23 && minute <= 59
      ? fine(`${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`)
      : wrong('Write a clock time, such as 6:30 or 14:30.');
  };

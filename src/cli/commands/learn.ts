import { Command, InvalidArgumentError, Option } from 'commander';
import { learnPage, learnSentences } from '../../report/learn-page.ts';
import { applyChanges, shiftsOf } from '../../scenario/options.ts';
import { nameOf, resolve, resolvePlant, type ResolvedShift } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { between, factorOn, learningOf } from '../../staffing/learning.ts';
import { baseCase, settingsOf } from '../../study/from-scenario.ts';
import { runStudy } from '../../study/study.ts';
import { summarize } from '../../study/summary.ts';
import { VERSION } from '../../report/version.ts';
import { readInput, type Changes } from '../input.ts';
import { printJson, printPage } from '../print.ts';
import { running } from '../running.ts';
import { fileArgument, jsonOption, seedOption, threadsOption, wholeFrom, withOption } from '../settings.ts';
import { commandWrong } from '../trouble.ts';

interface Words extends Changes {
  step: string;
  pay: number;
  first: number;
  rate: number;
  brings?: number;
  helper?: number;
  withBench?: true;
  count: number;
  threads: number;
  json?: boolean;
}

/** The days tried: the curve is steep at first. */
const TRIED = [13, 8, 4, 2, 1];
const HELPED_DAYS = 5;

const number =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text);
    if (text.trim() === '' || !(value >= least && value <= most))
      throw new InvalidArgumentError(`It takes a number from ${least} to ${most}.`);
    return value;
  };

/** A trainee at a post, day by day. */
export function learnCommand(): Command {
  return new Command('learn')
    .description(
      'somebody new at a post, by days: what the cell makes more, what it costs now, and when it is earned back',
    )
    .addArgument(fileArgument())
    .addOption(new Option('--step <step>', 'the post').makeOptionMandatory())
    .addOption(new Option('--pay <money>', 'their pay an hour').argParser(number(0, 1e6)).default(0))
    .addOption(
      new Option('--first <times>', 'times the trained time on the first day')
        .argParser(number(1, 20))
        .default(1.6),
    )
    .addOption(
      new Option('--rate <percent>', 'what is left of it with every doubling of the days')
        .argParser(number(50, 99.9))
        .default(85),
    )
    .addOption(
      new Option(
        '--brings <money>',
        "what one more good piece brings (default: the file's margin)",
      ).argParser(number(0, 1e6)),
    )
    .addOption(
      new Option(
        '--helper <pieces>',
        `good pieces a colleague does not make on each of the first ${HELPED_DAYS} days, showing how`,
      ).argParser(number(0, 1000)),
    )
    .option('--with-bench', 'they get a bench of their own')
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(
      new Option('--count <shifts>', 'shifts to run of each').argParser(wholeFrom(30, 100_000)).default(300),
    )
    .addOption(threadsOption())
    .addOption(jsonOption())
    .action(learn);
}

async function learn(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const { nextShifts: _next, ...scenario } = input.scenario;
  const { step } = words;
  const shift = resolve(scenario);
  const hands = shift.steps.filter(({ kind }) => kind === 'hands').map(({ id }) => id);
  if (!hands.includes(step))
    throw commandWrong(`--step: nobody works at "${step}"; there are ${hands.join(', ')}.`);
  const learning = { first: words.first, rate: words.rate / 100 };
  const factors = [...new Set([1, ...TRIED.map((day) => factorOn(learning, day))])].sort((a, b) => a - b);
  const gains = await gainsOf(scenario, shift, words, factors);
  const found = factors.map((factor, i) => ({ factor, gain: gains[i]! }));
  const { currency, margin } = resolvePlant(scenario).money;
  const brings = words.brings ?? margin;
  const cost = (words.pay * paidMinutes(shift)) / 60;
  const answer = learningOf({
    ...learning,
    pieces: between(found.map(({ factor, gain }) => ({ factor, pieces: gain.estimate }))),
    cost,
    brings: brings === null ? 0 : brings,
    ...(words.helper === undefined ? {} : { helper: { pieces: words.helper, days: HELPED_DAYS } }),
  });
  const told = {
    cell: scenario.name,
    step: nameOf(shift.steps, step),
    currency,
    brings,
    cost,
    found,
    answer,
  };
  const all = { ...told, ...learning };
  if (words.json === true)
    printJson({ command: 'learn', version: VERSION, ...all, words: learnSentences(all) });
  else printPage(learnPage(all));
}

/** What the cell makes more with the newcomer at each of these times, on the same luck. */
async function gainsOf(scenario: Scenario, shift: ResolvedShift, words: Words, factors: number[]) {
  const cases = [
    baseCase(scenario),
    ...factors.map((factor) => ({
      id: `at ${factor}`,
      name: `at ${factor} times`,
      shifts: shiftsOf(applyChanges(scenario, newcomer(shift, words, factor))),
    })),
  ];
  const pairs = factors.map((_, i) => ({ before: 0, after: i + 1 }));
  const state = await running(words.threads, ({ runner, signal, onLook }) =>
    runStudy(
      { cases, pairs, settings: settingsOf(scenario), count: words.count },
      runner,
      onLook('Newcomer'),
      signal,
    ),
  );
  return summarize(state).pairs.map(({ good }) => good);
}

function newcomer(
  { people, steps }: ResolvedShift,
  { step, pay, withBench }: Words,
  factor: number,
): Record<string, unknown> {
  const taken = new Set(people.map(({ id }) => id));
  const id = ['newcomer', ...Array.from({ length: 99 }, (_, i) => `newcomer-${i + 2}`)].find(
    (one) => !taken.has(one),
  )!;
  const { benches } = steps.find((one) => one.id === step)!;
  return {
    people: { [id]: { name: 'the newcomer', pay, covers: [step], skills: { [step]: { level: 3, factor } } } },
    ...(withBench === true ? { steps: { [step]: { benches: benches + 1 } } } : {}),
  };
}

/** Of the whole shift, without unpaid breaks. */
const paidMinutes = ({ length, breaks }: ResolvedShift): number =>
  length - breaks.reduce((sum, { minutes, paid }) => sum + (paid ? 0 : minutes), 0);

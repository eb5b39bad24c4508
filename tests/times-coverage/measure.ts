/**
 * Shops whose true times are hidden: of each only a list of 25 observed times a step is seen. The list goes
 * the whole way a user's goes (text, columns, fits, resamples, forecast); then the true shop works, and what
 * it makes is held against the ranges given.
 */
import cellK from '../../scenarios/cell-k.json';
import { compile } from '../../src/engine/compile.ts';
import { compileTime } from '../../src/duration/compile.ts';
import { exp, normalQuantile } from '../../src/random/exact.ts';
import { runJob } from '../../src/record/job.ts';
import { layoutOf } from '../../src/record/layout.ts';
import { scalarAt } from '../../src/record/report.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Time } from '../../src/duration/time.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import type { Interval } from '../../src/study/intervals/interval.ts';
import { percentile, sortedValues } from '../../src/study/intervals/percentile-interval.ts';
import { applyFits } from '../../src/timing/apply-fits.ts';
import { forecastWithTimes } from '../../src/timing/forecast-times.ts';
import { luckOf, type Luck } from '../../src/timing/luck.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { studyTimes } from '../../src/timing/study-times.ts';
import { readTable } from '../../src/timing/table.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

export const EACH = 25;
/** Shifts the true shop works: enough that the error of its mean is small against the ranges. */
const TRUE_SHIFTS = 400;

function base(): Scenario {
  const reading = readScenario(JSON.stringify(cellK));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  const { options: _options, ...scenario } = reading.scenario;
  return scenario;
}

/**
 * The true curve of a step: about the reference cell's mean (a fifth up or down, mostly), of three kinds in
 * turn.
 */
function hiddenTime(mean: number, kind: number, luck: Luck, at: number): Time {
  const own = Number((mean * exp(0.2 * normalQuantile(luck(at)))).toPrecision(5));
  const cv = Number((0.15 + 0.25 * luck(at + 1)).toFixed(3));
  if (kind === 0) return { mean: own, cv };
  if (kind === 1) return { curve: 'gamma', mean: own, cv };
  return {
    quick: Number((own * (1 - 1.1 * cv)).toPrecision(5)),
    usual: Number((own * 0.98).toPrecision(5)),
    slow: Number((own * (1 + 1.35 * cv)).toPrecision(5)),
  };
}

/** A shop by its number. */
export function hiddenShop(shop: number): Scenario {
  const scenario = base();
  const luck = luckOf('hidden shops', shop, 1);
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step], i) => {
      if (step.kind === 'wait') return [id, step];
      const repeat =
        step.repeatTime === undefined
          ? {}
          : { repeatTime: hiddenTime(compileTime(step.repeatTime).mean, (shop + i) % 3, luck, 10 * i + 5) };
      return [
        id,
        { ...step, time: hiddenTime(compileTime(step.time).mean, (shop + i) % 3, luck, 10 * i), ...repeat },
      ];
    }),
  );
  return { ...scenario, steps, seed: `hidden shop ${shop}` };
}

/** What somebody with a stopwatch and a semicolon spreadsheet brings home from it. */
export function observedIn(truth: Scenario, shop: number): string {
  const lines = Object.entries(truth.steps).flatMap(([id, step], i) => {
    if (step.kind === 'wait') return [];
    return [step.time, ...(step.repeatTime === undefined ? [] : [step.repeatTime])].flatMap((time, again) => {
      const luck = luckOf('stopwatch', shop, 10 * i + again);
      return Array.from(
        { length: EACH },
        (_, k) =>
          `${id};${compileTime(time).quantile(luck(k)).toFixed(2).replace('.', ',')};${again === 1 ? 'yes' : 'no'}`,
      );
    });
  });
  return ['Station;Minuten;again', ...lines].join('\r\n');
}

function goodsOf(scenario: Scenario, count: number): number[] {
  const [shift] = shiftsOf(scenario);
  const layout = layoutOf(compile(shift!));
  const { rows } = runJob({ shifts: [shift!], from: 0, count });
  return Array.from({ length: count }, (_, row) => rows[0]![row * layout.size + scalarAt(layout, 'good')]!);
}

export interface ShopResult {
  /** Shares of the true shop's shifts within the ranges as they are printed (whole units). */
  withTimes: number;
  luckOnly: number;
  /** Of a range made with the true times known, rounded likewise: what whole units make of eight in ten. */
  timesKnown: number;
  meanHeld: boolean;
  rows: { read: number; unread: number };
}

export async function oneShop(shop: number): Promise<ShopResult> {
  const truth = hiddenShop(shop);
  // The planner's file has other times: those of the reference cell.
  const scenario: Scenario = { ...base(), seed: `planner of shop ${shop}` };
  const table = readTable(observedIn(truth, shop));
  const read = readObservations(table, guessMapping(table, scenario), scenario);
  const fits = studyTimes(scenario, read.observations, { draws: 0 }).places.map((place) => place.fit);
  const { split } = await forecastWithTimes(applyFits(scenario, fits), fits, inLineRunner());
  const goods = goodsOf(truth, TRUE_SHIFTS);
  const within = ({ low, high }: { low: number; high: number }): number =>
    goods.filter((good) => good >= Math.round(low) && good <= Math.round(high)).length / goods.length;
  const mean = goods.reduce((sum, good) => sum + good, 0) / goods.length;
  const known = sortedValues(goodsOf({ ...truth, seed: `known shop ${shop}` }, TRUE_SHIFTS));
  const { shifts, meanRange } = split!;
  return {
    withTimes: within(shifts.widened),
    luckOnly: within(shifts.luckOnly),
    timesKnown: within({ low: percentile(known, 0.1), high: percentile(known, 0.9) }),
    meanHeld: mean >= meanRange.low && mean <= meanRange.high,
    rows: { read: read.observations.length, unread: read.unread.length },
  };
}

export interface TimesCoverage {
  shops: number;
  /** Mean shares over the shops, 99 % ranges by their spread; of the mean: share of shops, 99 % (Wilson). */
  withTimes: { share: number; half: number };
  luckOnly: { share: number; half: number };
  timesKnown: { share: number; half: number };
  mean: Interval;
}

export async function measureShops(shops: number): Promise<TimesCoverage> {
  const results: ShopResult[] = [];
  for (let shop = 0; shop < shops; shop++) results.push(await oneShop(shop));
  const spread = (values: number[]): { share: number; half: number } => {
    const share = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - share) ** 2, 0) / (values.length - 1);
    return { share, half: 2.58 * Math.sqrt(variance / values.length) };
  };
  return {
    shops,
    withTimes: spread(results.map((one) => one.withTimes)),
    luckOnly: spread(results.map((one) => one.luckOnly)),
    timesKnown: spread(results.map((one) => one.timesKnown)),
    mean: chanceInterval(results.filter((one) => one.meanHeld).length, shops, 0.99),
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/**
 * `npm run times-coverage`: the table, plain or Markdown. True where no range holds more rarely than it
 * claims, as far as so many shops tell.
 */
export async function timesCoverageTable(
  shops: number,
  markdown: boolean,
  tell: (line: string) => void,
): Promise<boolean> {
  const { withTimes, luckOnly, timesKnown, mean } = await measureShops(shops);
  const rows = [
    [
      'single shifts, what is not known of the times in',
      '80 %',
      percent(withTimes.share),
      `${percent(withTimes.share - withTimes.half)} to ${percent(withTimes.share + withTimes.half)}`,
    ],
    [
      'single shifts, luck alone (for comparison)',
      '-',
      percent(luckOnly.share),
      `${percent(luckOnly.share - luckOnly.half)} to ${percent(luckOnly.share + luckOnly.half)}`,
    ],
    [
      'single shifts, were the true times known',
      '80 %',
      percent(timesKnown.share),
      `${percent(timesKnown.share - timesKnown.half)} to ${percent(timesKnown.share + timesKnown.half)}`,
    ],
    ['the long-run mean', '95 %', percent(mean.estimate), `${percent(mean.low)} to ${percent(mean.high)}`],
  ];
  tell(`${shops} hidden shops, ${EACH} observed times a step, ${TRUE_SHIFTS} true shifts each.`);
  if (markdown) tell('\n| range of | claims | held | 99 % range of that share |\n| --- | --: | --: | --: |');
  for (const row of rows)
    tell(
      markdown
        ? `| ${row.join(' | ')} |`
        : `${row[0]!.padEnd(50)} ${row
            .slice(1)
            .map((cell) => cell.padStart(18))
            .join(' ')}`,
    );
  return withTimes.share + withTimes.half >= 0.8 && mean.high >= 0.95;
}

/**
 * How often the ranges that are printed for luck alone hold the truth: whole studies as the command line
 * makes them with `--times-known`, of the reference cell with two and three clamp sets, each on its own seed.
 */
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import cellK from '../../scenarios/cell-k.json';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { comparison } from '../../src/study/from-scenario.ts';
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import { shared, type Interval } from '../../src/study/intervals/interval.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

const OPTION = 'third-set';

/** Good units a shift that two sets seldom reach and three seldom miss. */
const TARGET = 18;

export function cell(seed: string): Scenario {
  // The truth has the file's own times: it is luck whose ranges are measured here.
  const study = { timesKnown: true };
  const reading = readScenario(
    JSON.stringify({ ...cellK, seed, study, shift: { ...cellK.shift, target: TARGET } }),
  );
  if (reading.kind === 'wrong') throw new Error(JSON.stringify(reading.faults));
  return reading.scenario;
}

/** A figure of the printed page, and where it stands in a study's answer. */
export interface Printed {
  name: string;
  range: (study: StudySummary) => Interval;
}

const of = (at: number): string => (at === 0 ? 'two sets' : 'three sets');
export const PRINTED: Printed[] = [0, 1]
  .flatMap((at): Printed[] => [
    { name: `good units, ${of(at)}`, range: (study) => study.cases[at]!.good },
    { name: `lead time, ${of(at)}`, range: (study) => study.cases[at]!.shifts[0]!.scalars.leadMean },
    {
      name: `first-pass yield, ${of(at)}`,
      range: (study) => study.cases[at]!.shifts[0]!.scalars.firstPassYield,
    },
    { name: `chance of ${TARGET}, ${of(at)}`, range: (study) => study.cases[at]!.target!.chance },
  ])
  .concat({ name: 'what the third set gains', range: (study) => study.pairs[0]!.good });

export interface Settings {
  precision: number;
  /** Replications a case, without the rule. */
  count?: number;
}

/** One study, as `compare` makes it, of the file's option against its base. */
export async function study(seed: string, { precision, count }: Settings): Promise<StudySummary> {
  const request = comparison(cell(seed), [OPTION]);
  const settings = { ...request.settings, precision };
  return summarize(
    await runStudy({ ...request, settings, ...(count === undefined ? {} : { count }) }, inLineRunner()),
  );
}

export interface Covered {
  name: string;
  truth: Interval;
  held: number;
  repeats: number;
  /** Share of the studies whose range held the truth, 99 % range. */
  share: Interval;
}

export interface Coverage {
  covered: Covered[];
  /** Shifts a case, on average and at most; studies stopped by the cap. */
  shifts: number;
  mostShifts: number;
  capped: number;
}

/** @param truth ranges of one study so long that its own error hardly matters, in the order of PRINTED. */
export async function measureCoverage(
  truth: Interval[],
  repeats: number,
  settings: Settings,
): Promise<Coverage> {
  const held = PRINTED.map(() => 0);
  let [shifts, mostShifts, capped] = [0, 0, 0];
  for (let repeat = 0; repeat < repeats; repeat++) {
    const made = await study(`coverage ${repeat}`, settings);
    shifts += made.count / repeats;
    mostShifts = Math.max(mostShifts, made.count);
    capped += made.capped ? 1 : 0;
    PRINTED.forEach(({ range }, at) => {
      const { low, high } = range(made);
      held[at]! += low <= truth[at]!.estimate && truth[at]!.estimate <= high ? 1 : 0;
    });
  }
  const covered = PRINTED.map(({ name }, at): Covered => ({
    name,
    truth: truth[at]!,
    held: held[at]!,
    repeats,
    share: chanceInterval(held[at]!, repeats, 0.99),
  }));
  return { covered, shifts, mostShifts, capped };
}

/** The truth: one study of so many shifts a case on a seed of its own. */
export async function truthOf(count: number): Promise<Interval[]> {
  const made = await study('truth', { precision: 1, count });
  return PRINTED.map(({ range }) => range(made));
}

/**
 * How often Wilson's 95 % range of `count` shifts holds a chance, exactly: counts are whole, so it is 95 %
 * only on average over chances (Brown, Cai and DasGupta, Statistical Science 16, 2001, from memory).
 */
export function wilsonHolds(count: number, chance: number): number {
  let sum = 0;
  for (let met = 0; met <= count; met++) {
    const { low, high } = chanceInterval(met, count);
    if (low <= chance && chance <= high)
      sum += binomialCdf(met, count, chance) - binomialCdf(met - 1, count, chance);
  }
  return sum;
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** `npm run coverage`: the table of luck alone, as plain text or Markdown. */
export async function coverageTable(
  repeats: number,
  truthShifts: number,
  markdown: boolean,
  tell: (line: string) => void,
): Promise<boolean> {
  const truth = await truthOf(truthShifts);
  let good = true;
  tell(
    `${markdown ? '## ' : ''}Luck alone: ranges as printed with \`--times-known\`, where the file has the true times\n\n` +
      'What the full ranges hold, where nobody knows the true times, is measured on hidden shops (`npm run hidden-shops`).',
  );
  for (const precision of [0.25, 0.1]) {
    const { covered, shifts, mostShifts, capped } = await measureCoverage(truth, repeats, { precision });
    tell(
      `\nPrecision ${precision} good units on the difference: ${repeats} studies of ${Math.round(shifts)} shifts a case on average, at most ${mostShifts}; ${capped} stopped by the cap.\n`,
    );
    if (markdown)
      tell(
        '| 95 % range of | truth (its own 95 % range) | held | 99 % range of that share | exact for whole counts |\n| --- | --: | --: | --: | --: |',
      );
    for (const {
      name,
      truth: { estimate, half },
      held,
      share,
    } of covered) {
      const exact = name.startsWith('chance') ? wilsonHolds(Math.round(shifts), estimate) : 0.95;
      // No rarer than stated as far as so many repeats can tell of all figures together.
      const holds =
        chanceInterval(held, repeats, shared(0.99, 2 * PRINTED.length)).high >= Math.min(0.95, exact);
      good &&= holds;
      const cells = [
        `${estimate.toFixed(4)} ± ${half.toFixed(4)}`,
        percent(share.estimate),
        `${percent(share.low)} to ${percent(share.high)}${holds ? '' : ' (too few)'}`,
        name.startsWith('chance') ? percent(exact) : '',
      ];
      tell(
        markdown
          ? `| ${[name, ...cells].join(' | ')} |`
          : `${name.padEnd(32)} ${cells.map((cell) => cell.padStart(22)).join(' ')}`,
      );
    }
  }
  return good;
}

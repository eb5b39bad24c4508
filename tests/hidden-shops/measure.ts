/**
 * Shops whose truth is hidden: of each only 25 timings a step are seen, and how many of some checked pieces
 * went back. They go the whole way a lead's go (a list, columns, fits, the file, the question of one more
 * set), and what the answer says is held against what another program finds of the true shop (simulator.ts).
 */
import { clockOfMinutes } from '../../src/scenario/clock.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { oneMoreAnswer, oneMoreRequest } from '../../src/study/clamp-question.ts';
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { applyFits } from '../../src/timing/apply-fits.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { studyTimes } from '../../src/timing/study-times.ts';
import { readTable } from '../../src/timing/table.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import type { HiddenShop, Row } from './rows.ts';

export { ROWS } from './rows.ts';
import { goodUnits, Luck, WORKED } from './simulator.ts';

export const EACH = 25;
/** Pieces whose check was counted. */
const CHECKED = 100;
const SETS = 2;
/** Clock minutes. */
const SHIFT_START = 6 * 60;

/** What the lead writes down before any timing: usual times, everybody's post. */
export function plannersFile({ crew, truth }: HiddenShop, shop: number, sentBack: number): Scenario {
  const person = (covers: string[]) => (name: string) => [name, { name, covers }] as const;
  const file = {
    format: 1,
    name: `Hidden shop ${shop}`,
    invented: true,
    seed: `planner of shop ${shop}`,
    steps: {
      fit: { time: { mean: 12, cv: 0.2 }, benches: Math.max(2, crew.fit.length) },
      glue: { time: { mean: 8, cv: 0.2 }, takes: [{ gear: 'clamp', until: 'unclamp' }] },
      cure: { kind: 'wait', time: truth.cure },
      unclamp: { time: { mean: 5, cv: 0.2 }, benches: Math.max(2, crew.fit.length) },
      sand: { time: { mean: 15, cv: 0.2 }, benches: crew.sand.length },
      check: {
        time: { mean: 7, cv: 0.2 },
        rework: [{ to: 'sand', percent: (100 * sentBack) / CHECKED, known: { of: CHECKED } }],
        scrap: 0.5,
      },
    },
    gear: { clamp: { name: 'clamp set', count: SETS } },
    people: Object.fromEntries([
      ...crew.fit.map(person(['unclamp', 'fit'])),
      ...crew.glue.map(person(['glue'])),
      ...crew.sand.map(person(['sand'])),
      ...crew.check.map(person(['check'])),
    ]),
  };
  const reading = readScenario(JSON.stringify(file));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

function listOf(hidden: HiddenShop, luck: Luck): string {
  const lines = WORKED.flatMap((step) =>
    Array.from({ length: EACH }, () => {
      const { minutes, person, at } = hidden.time(step, luck);
      const clock = clockOfMinutes(SHIFT_START + Math.floor(at));
      return `${step};${Math.max(0.02, minutes).toFixed(2)};${person ?? ''};${clock}`;
    }),
  );
  return ['step;minutes;person;start', ...lines].join('\n');
}

export interface Held {
  gain: boolean;
  mean: boolean;
  /** Luck alone, as it was before. */
  gainByLuck: boolean;
  meanByLuck: boolean;
  /** Share of the true shifts within nine in ten to one in ten, and what that should be. */
  shifts: number;
  promise: number;
  /** The same as the answer itself says them: whole units make them more than eight and nine in ten. */
  claimedInside: number;
  claimedPromise: number;
  verdict: string;
  right: boolean | null;
  warned: boolean;
  gainOff: number;
  halfGain: number;
}

export async function oneShop(row: Row, shop: number, trueShifts: number): Promise<Held> {
  const luck = new Luck(7919 * shop + 17);
  const hidden = row.shop(luck);
  let sentBack = 0;
  for (let i = 0; i < CHECKED; i++) sentBack += luck.uniform() < hidden.truth.toSand ? 1 : 0;
  const file = plannersFile(hidden, shop, sentBack);
  const table = readTable(listOf(hidden, luck));
  const read = readObservations(table, guessMapping(table, file), file);
  const study = studyTimes(file, read.observations, { draws: 199 });
  const scenario = applyFits(
    file,
    study.places.map(({ fit }) => fit),
  );
  const answer = oneMoreAnswer(
    scenario,
    'clamp',
    summarize(await runStudy(oneMoreRequest(scenario, 'clamp'), inLineRunner())),
  );
  const goods = [0, 1, 2].map((more) =>
    Array.from({ length: trueShifts }, () => goodUnits(hidden.truth, SETS + more, luck)),
  );
  const means = goods.map((list) => list.reduce((sum, one) => sum + one, 0) / list.length);
  const [one] = answer.study.cases;
  const { gain, verdict, matters } = answer;
  const trueGain = means[1]! - means[0]!;
  const held = (range: { low: number; high: number }, truth: number): boolean =>
    range.low <= truth && truth <= range.high;
  const byLuck = ({ estimate, luck: half }: { estimate: number; luck: number }, truth: number): boolean =>
    Math.abs(estimate - truth) <= half;
  const { nineInTen, oneInTen } = one!.spread;
  return {
    gain: held(gain, trueGain),
    mean: held(one!.good, means[0]!),
    gainByLuck: byLuck(gain, trueGain),
    meanByLuck: byLuck(one!.good, means[0]!),
    shifts: goods[0]!.filter((good) => good >= nineInTen && good <= oneInTen).length / trueShifts,
    promise: goods[0]!.filter((good) => good >= nineInTen).length / trueShifts,
    claimedInside: one!.spread.inside,
    claimedPromise: one!.spread.reached.find(({ value }) => value === nineInTen)?.share ?? NaN,
    verdict: verdict!.kind,
    right: rightOf(verdict!.kind, trueGain, means[2]! - means[1]!, matters),
    warned: study.places.some(({ doubts }) => doubts.length > 0),
    gainOff: gain.estimate - trueGain,
    halfGain: gain.half,
  };
}

/** Whether a firm verdict is right; null where it is not firm. */
function rightOf(kind: string, gain: number, next: number, matters: number): boolean | null {
  if (kind === 'removes') return gain >= matters && next < matters;
  if (kind === 'eases') return gain >= matters && next >= matters;
  return kind === 'was not the constraint' ? gain < matters : null;
}

export const shareOf = (held: readonly boolean[]): ReturnType<typeof chanceInterval> =>
  chanceInterval(held.filter(Boolean).length, held.length);

export interface RowResult {
  row: Row;
  shops: number;
  held: Held[];
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** The table of `npm run hidden-shops`, Markdown. True where every row holds as often as it must. */
export function hiddenTable(results: readonly RowResult[]): { lines: string[]; good: boolean } {
  const head = [
    'hidden shops',
    'gain held',
    'mean held',
    'by luck alone',
    'warned',
    'single shifts: claimed, came',
    'nine in ten: claimed, came',
    'firm verdicts wrong',
  ];
  let good = true;
  const rows = results.map(({ row, shops, held }) => {
    const [gain, own] = [held.filter((one) => one.gain), held.filter((one) => one.mean)];
    const warned = held.filter((one) => one.warned).length;
    const firm = held.filter((one) => one.right !== null);
    const enough = (share: number): boolean =>
      chanceInterval(Math.round(share * shops), shops, 0.99).high >= row.atLeast / 100;
    const left = held.filter((one) => !one.warned || (one.gain && one.mean)).length / shops;
    good &&= (enough(gain.length / shops) && enough(own.length / shops)) || left < 1 - row.atLeast / 100;
    return [
      `${row.name} (${shops})`,
      percent(gain.length / shops),
      percent(own.length / shops),
      `${percent(mean(held.map((one) => Number(one.gainByLuck))))}, ${percent(mean(held.map((one) => Number(one.meanByLuck))))}`,
      `${warned}`,
      `${percent(mean(held.map((one) => one.claimedInside)))}, ${percent(mean(held.map((one) => one.shifts)))}`,
      `${percent(mean(held.map((one) => one.claimedPromise)))}, ${percent(mean(held.map((one) => one.promise)))}`,
      `${firm.filter((one) => one.right === false).length} of ${firm.length}`,
    ];
  });
  const line = (cells: string[]): string => `| ${cells.join(' | ')} |`;
  return {
    lines: [line(head), line(head.map((_, i) => (i === 0 ? '---' : '--:'))), ...rows.map(line)],
    good,
  };
}

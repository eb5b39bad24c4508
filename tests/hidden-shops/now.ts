/**
 * Now's fan: true days of hidden shops are stopped at some minute, what is in the cell is counted as somebody
 * counts who walks through it, and the rest is forecast on a lead's file. Where does the day end?
 */
import { clockAfter } from '../../src/scenario/clock.ts';
import type { CarryOver, Scenario } from '../../src/scenario/schema.ts';
import { baseCase, settingsOf } from '../../src/study/from-scenario.ts';
import { runStudy, type StudyState } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { checkNow } from '../../src/today/check-now.ts';
import { forecastOf } from '../../src/today/forecast.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { fileOf, SETS } from './lead.ts';
import { ROWS } from './rows.ts';
import { Luck, ownPosts, TrueDay, WORKED, type Seen } from './simulator.ts';

/** Kits in front of the cell: more than can be fitted in a day. */
const KITS = 150;
/** Runs of the rest, as the command has it. */
const RESTS = 400;

export interface Ended {
  /** Minute of the count. */
  at: number;
  /** What was said of the end, and where it was. */
  low: number;
  high: number;
  /** Shares claimed (0 to 1): from `low` to `high`, `low` or more, `high` or more. */
  inside: number;
  atLeast: number;
  most: number;
  good: number;
  /** Chance told of the number due, and whether it was made. */
  chance: number;
  made: boolean;
}

/** So many true days of one hidden shop; in every other one there are interruptions. */
export async function oneShopsDays(shop: number, days: number): Promise<Ended[]> {
  const luck = new Luck(7919 * (shop + 600_000) + 17);
  const hidden = ROWS[shop % 2]!.shop(luck);
  const written = fileOf(hidden, 'timed', shop, luck).scenario;
  const file: Scenario = { ...written, intake: { kind: 'at start', units: KITS } };
  const planned = await asked(file);
  const target = planned.cases[0]!.spread.half;
  const scenario: Scenario = { ...file, shift: { ...file.shift, target } };
  const plan = ownPosts(hidden.truth);
  const names = Object.keys(scenario.people);
  const ended: Ended[] = [];
  for (let day = 0; day < days; day++) {
    const at = 30 + Math.floor(450 * luck.uniform());
    const one = new TrueDay(hidden.truth, SETS, luck, plan);
    const count = counted(one.runTo(at), at, names);
    const { good } = one.runTo(Infinity);
    const checked = checkNow(scenario, count);
    if (checked.kind === 'wrong') throw new Error(checked.faults.join('\n'));
    const rest = await asked(checked.rest);
    const { ends, target: due } = forecastOf(scenario, checked.now, planned.cases[0]!, rest);
    const { reached, inside } = rest.cases[0]!.spread;
    const shareOf = (level: number): number =>
      reached.find(({ value }) => value + count.good === level)?.share ?? NaN;
    ended.push({
      at,
      low: ends.nineInTen,
      high: ends.oneInTen,
      inside,
      atLeast: shareOf(ends.nineInTen),
      most: shareOf(ends.oneInTen),
      good,
      chance: due!.chance.estimate,
      made: good >= target,
    });
  }
  return ended;
}

async function asked(scenario: Scenario): Promise<StudySummary> {
  const request = { cases: [baseCase(scenario)], pairs: [], settings: settingsOf(scenario), count: RESTS };
  const state: StudyState = await runStudy(request, inLineRunner());
  return summarize(state);
}

/**
 * As it is counted on a walk: pieces by where they are; whose piece in hand, and about how long; the cures by
 * the time written on the clamps. All in whole minutes.
 */
function counted(
  seen: Seen,
  minute: number,
  names: readonly string[],
): { at: string; good: number; inside: CarryOver[] } {
  const waiting = WORKED.flatMap((step): CarryOver[] => {
    const units = step === 'fit' ? KITS - seen.begun : seen.waiting[step];
    return units > 0 ? [{ at: step, units }] : [];
  });
  return {
    at: clockAfter('06:00', minute),
    good: seen.good,
    inside: [
      ...waiting,
      ...seen.inHand.map(({ step, person, minutes }): CarryOver => {
        const worked = { minutes: Math.floor(minutes) };
        return { at: step, state: 'in hand', person: names[person]!, ...worked };
      }),
      ...seen.curing.map((left): CarryOver => ({ at: 'cure', state: 'curing', minutes: Math.ceil(left) })),
    ],
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** The table of `npm run hidden-shops -- --now`; days of one shop share its timings. */
export function nowTable(shops: readonly Ended[][]): { lines: string[]; good: boolean } {
  const all = shops.flat();
  const claims: [string, (one: Ended) => number, (one: Ended) => boolean][] = [
    ['in the fan', (one) => one.inside, ({ good, low, high }) => good >= low && good <= high],
    ['“nine in ten make” and over', (one) => one.atLeast, ({ good, low }) => good >= low],
    ['“one in ten makes” and over', (one) => one.most, ({ good, high }) => good >= high],
    ['the number due', (one) => one.chance, ({ made }) => made],
  ];
  const parts: [string, (one: Ended) => boolean][] = [
    ['first third', ({ at }) => at < 170],
    ['second third', ({ at }) => at >= 170 && at < 340],
    ['last third', ({ at }) => at >= 340],
    ['all', () => true],
  ];
  let good = true;
  const lines = parts.map(([name, belongs]) => {
    const of = all.filter(belongs);
    const cells = claims.map(([, claimed, came]) => {
      const off = of.map((one) => Number(came(one)) - claimed(one));
      return `${percent(mean(of.map(claimed)))}, ${percent(mean(of.map((one) => Number(came(one)))))} (${(100 * mean(off)).toFixed(1)})`;
    });
    return `| ${name} (${of.length}) | ${cells.join(' | ')} |`;
  });
  for (const [, claimed, came] of claims) {
    // By shop, as days of one shop are alike; 2.58 standard errors (99 %).
    const byShop = shops.map((days) => mean(days.map((one) => Number(came(one)) - claimed(one))));
    const middle = mean(byShop);
    const error = Math.sqrt(mean(byShop.map((one) => (one - middle) ** 2)) / (byShop.length - 1));
    good &&= Math.abs(middle) <= 0.03 + 2.58 * error;
  }
  return {
    lines: [
      `| counted in the | ${claims.map(([name]) => `${name}: claimed, came`).join(' | ')} |`,
      `| --- | ${claims.map(() => '--:').join(' | ')} |`,
      ...lines,
    ],
    good,
  };
}

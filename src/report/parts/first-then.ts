/** "First do, then buy, do not": the ledger in three lines, and where overtime stops paying. */
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { OVERTIME_CAPS, overtimeId, type FixGroup } from '../../study/fixes.ts';
import { netOf, type Ledger, type LedgerRow } from '../../study/ledger.ts';
import type { PairSummary } from '../../study/summary.ts';
import { differenceCell } from '../../words/study-words.ts';
import type { OnUsualDays } from '../../study/usual-days.ts';
import { fixed, listed, money, moneyRange, plain, runsOf } from '../../words/words.ts';
import { paybackWords, returnOf } from './money.ts';

/** What the lines speak of; of what is hired or loosened they say nothing. */
export const SPOKEN_OF: ReadonlySet<FixGroup> = new Set(['free', 'overtime', 'bought']);

/** The lines in the order in which money is spent: nothing, then once, then never. */
export const doFirst = (scenario: Scenario, ledger: Ledger): string[] => [
  firstLine(scenario, ledger),
  ...buyLines(scenario, ledger),
  ...overtimeLines(scenario, ledger),
];

const named = (ledger: Ledger, ids: readonly string[]): LedgerRow[] =>
  ids.flatMap((id) => ledger.rows.filter((row) => row.id === id));

function firstLine(scenario: Scenario, ledger: Ledger): string {
  const rows = named(ledger, ledger.first);
  if (rows.length === 0 || ledger.together === null)
    return 'First do: none of the free things that were tried surely adds more than it costs.';
  const leave = [...new Set(rows.flatMap((row) => (row.leave === null ? [] : [row.leave])))];
  const asks = leave.length === 0 ? '' : ` That needs the leave of ${listed(leave)}.`;
  return `First do, for nothing: ${listed(rows.map(({ name }) => name))}: ${gains(scenario, ledger.together)}.${asks}`;
}

/** "+1.2 (0.8 to 1.6) units a shift, $54 a shift ($36 to $72) once wages are paid". */
function gains(scenario: Scenario, pair: PairSummary): string {
  const words = figures(scenario, pair);
  return netOf(scenario, pair) === null ? words : `${words} once wages are paid`;
}

function figures(scenario: Scenario, pair: PairSummary): string {
  const net = netOf(scenario, pair);
  const units = `${differenceCell(pair.good)} units a shift`;
  if (net === null) return units;
  const { estimate, range } = moneyRange(net, resolvePlant(scenario).money.currency);
  return `${units}, ${estimate} a shift${range === '' ? '' : ` (${range})`}`;
}

/** What surely returns its price within the years it is reckoned over is bought; what does not is left. */
function buyLines(scenario: Scenario, ledger: Ledger): string[] {
  const { currency, margin } = resolvePlant(scenario).money;
  if (margin === null)
    return ['Then buy: what pays cannot be told, as the file does not say what a good unit brings in.'];
  const priced = ledger.rows.flatMap((row) => {
    if (row.price === null || row.price === 0 || row.group !== 'bought') return [];
    const returned = returnOf(scenario, { price: row.price, pair: row.after ?? row.alone });
    return returned === null || netOf(scenario, row.alone) === null
      ? []
      : [{ row, price: row.price, returned }];
  });
  const worth = (one: (typeof priced)[number]): number => one.returned.presentValue.estimate;
  const { difference } = resolvePlant(scenario).study;
  // What surely gains less than matters is not what holds the cell back, however cheap.
  const isNot = ({ row, returned }: (typeof priced)[number]): boolean =>
    returned.presentValue.high < 0 || (row.after ?? row.alone).good.high < difference;
  const [best] = priced
    .filter((one) => one.returned.presentValue.low > 0 && !isNot(one))
    .sort((a, b) => worth(b) - worth(a));
  const not = priced.filter(isNot).map(({ row }) => row.name);
  const open = priced
    .filter((one) => one !== best && !isNot(one) && one.returned.presentValue.low <= 0)
    .map(({ row }) => row.name);
  const before = (row: LedgerRow): string =>
    row.after === null ? '' : ` (without the free fixes ${figures(scenario, row.alone)})`;
  return [
    best === undefined
      ? 'Then buy: nothing with a price in the file surely pays.'
      : `Then buy ${best.row.name}, ${money(best.price, currency)}: ${gains(scenario, best.row.after ?? best.row.alone)}${before(best.row)}; it ${paybackWords(best.returned.payback)}.`,
    ...(not.length === 0
      ? []
      : [`Do not buy ${listed(together(not), 'or')}: it does not pay, or gains less than matters.`]),
    ...(open.length === 0 ? [] : [`Whether ${listed(together(open), 'or')} pays cannot be told yet.`]),
  ];
}

/** On how many shifts the rows rest, and why a row and a question about that thing alone say the same. */
export function ledgerRuns({ usual, priced }: Pick<Ledger, 'usual' | 'priced'>): string {
  const [sorted, bought] = [runsOfDays(usual), priced === null ? null : runsOfDays(priced)];
  if (bought === null || bought === sorted) return `From ${sorted}.`;
  return `What has a price is run until it is as sure as when asked about alone, and so says the same: ${bought}. The rest is run just far enough to put it in order: ${sorted}.`;
}

const runsOfDays = ({ study, warmUp, counted }: OnUsualDays): string => runsOf(study.count, warmUp + counted);

const BENCH = 'one more bench for ';

/** "one more bench for “fit”, “sand”": what all have in common is said once. */
function together(names: readonly string[]): string[] {
  const first = names.findIndex((name) => name.startsWith(BENCH));
  return [
    ...names.filter((name) => !name.startsWith(BENCH)),
    ...names.flatMap((name, i) =>
      name.startsWith(BENCH) ? [i === first ? name : name.slice(BENCH.length)] : [],
    ),
  ];
}

/** What the next piece costs at each cap against what it brings, and where more stops paying. */
function overtimeLines(scenario: Scenario, { rows }: Ledger): string[] {
  const { margin, currency } = resolvePlant(scenario).money;
  const caps = OVERTIME_CAPS.flatMap((cap) =>
    rows.filter(({ id }) => id === overtimeId(cap)).map(({ alone }) => ({ minutes: plain(cap), alone })),
  );
  if (caps.length === 0 || margin === null) return [];
  let [good, cost] = [0, 0];
  let stops: string | null = null;
  const steps = caps.map(({ minutes, alone }) => {
    const [more, dearer] = [alone.good.estimate - good, alone.cost.estimate - cost];
    [good, cost] = [alone.good.estimate, alone.cost.estimate];
    const each = more < LEAST ? null : dearer / more;
    if (stops === null && (each === null || each > margin)) stops = minutes;
    return each === null
      ? `up to ${minutes} min no more`
      : `up to ${minutes} min ${fixed(more, 1)} more at ${money(Math.max(0, each), currency, 2)} each`;
  });
  if (good < LEAST)
    return [
      `Overtime: up to ${caps.at(-1)!.minutes} min a shift makes no more pieces, so it does not pay, on average.`,
    ];
  const judged =
    stops === null
      ? `so it pays to ${caps.at(-1)!.minutes} min`
      : stops === caps[0]!.minutes
        ? 'so it does not pay'
        : `so it stops paying before ${stops} min`;
  return [
    `Overtime: ${steps.join('; ')}, where a piece brings ${money(margin, currency)}: ${judged}, on average.`,
  ];
}

/** Fewer pieces than this are none: what one costs would be a figure of chance. */
const LEAST = 0.05;

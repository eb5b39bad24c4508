/** The answer of "ledger": what to do first, what to buy then, what to leave, and all that was tried. */
import type { Block, Page } from '../../document/document.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import type { FixGroup } from '../../study/fixes.ts';
import { netOf, type Ledger, type LedgerRow } from '../../study/ledger.ts';
import { differenceWith } from '../../words/study-words.ts';
import { stockWords, usualDaysWords } from '../../words/usual-words.ts';
import { fixed, money, roundDown, roundUp } from '../../words/words.ts';
import type { Input } from '../input.ts';
import { doFirst, ledgerRuns } from '../parts/first-then.ts';
import { paybackWords, returnOf } from '../parts/money.ts';
import { foot, openingWords, type Repeat } from './foot.ts';

const GROUPS: Record<FixGroup, string> = {
  free: 'Free',
  overtime: 'Overtime',
  bought: 'Bought',
  hired: 'Hired',
  loosened: 'Loosened',
};

export interface LedgerPage {
  input: Input;
  /** Null where it was stopped before the end. */
  ledger: Ledger | null;
  cautions: Caution[];
  repeat: Repeat;
}

export function ledgerPage({ input, ledger, cautions, repeat }: LedgerPage): Page {
  const { scenario } = input;
  const title = `${scenario.name}: what can be done, cheapest first`;
  const heading: Block = { kind: 'heading', level: 1, text: title };
  if (ledger === null) {
    const text = 'PARTIAL: stopped by hand; there is nothing to say yet.';
    return { title, blocks: [heading, { kind: 'paragraph', text }] };
  }
  const { difference } = resolvePlant(scenario).study;
  return {
    title,
    blocks: [
      heading,
      { kind: 'list', items: doFirst(scenario, ledger) },
      {
        kind: 'paragraph',
        text: `All of it on ${usualDaysWords(ledger.usual)}. ${stockWords(ledger.usual, difference).join(' ')} Each range holds by itself, with its wages, at ${fixed(ledger.usual.study.confidence * 100, 0)}%. ${ledgerRuns(ledger)}`,
      },
      { kind: 'paragraph', text: openingWords(input) },
      ...(Object.keys(GROUPS) as FixGroup[]).flatMap((group) => tableOf(scenario, ledger, group)),
      ...foot(input, repeat, cautions),
    ],
  };
}

/** The rows of a group, what brings the most first. */
function tableOf(scenario: Scenario, ledger: Ledger, group: FixGroup): Block[] {
  const rows = ledger.rows.filter((row) => row.group === group);
  if (rows.length === 0) return [];
  const worth = ({ alone }: LedgerRow): number => netOf(scenario, alone)?.estimate ?? alone.good.estimate;
  const sorted = group === 'overtime' ? rows : [...rows].sort((a, b) => worth(b) - worth(a));
  const after = ledger.first.length > 0 && group !== 'free' && group !== 'loosened';
  const paid = group === 'bought';
  const needs = rows.some(({ leave }) => leave !== null);
  return [
    {
      kind: 'table',
      caption: `${GROUPS[group]}: each alone, a shift${after ? '; then once the free ones are done' : ''}.`,
      head: [
        '',
        'Units',
        ...(after ? ['After the free ones'] : []),
        'Net',
        ...(paid ? ['Price', 'Pays back'] : []),
        ...(needs ? ['Needs leave of'] : []),
      ],
      align: [
        'left',
        'right',
        ...(after ? ['right' as const] : []),
        'right',
        ...(paid ? (['right', 'left'] as const) : []),
        ...(needs ? ['left' as const] : []),
      ],
      rows: sorted.map((row) => [
        row.name,
        differenceWith(row.alone.good, 1),
        ...(after ? [row.after === null ? '-' : differenceWith(row.after.good, 1)] : []),
        netCell(scenario, row),
        ...(paid ? [priceCell(scenario, row), paybackCell(scenario, row)] : []),
        ...(needs ? [row.leave ?? '-'] : []),
      ]),
    },
  ];
}

function netCell(scenario: Scenario, { alone }: LedgerRow): string {
  const net = netOf(scenario, alone);
  if (net === null) return '-';
  const { currency } = resolvePlant(scenario).money;
  const whole = (value: number): string => money(value, currency, 0);
  const range =
    net.low === net.high ? '' : ` (${whole(roundDown(net.low, 0))} to ${whole(roundUp(net.high, 0))})`;
  return `${whole(roundDown(net.estimate, 0))}${range}`;
}

const priceCell = (scenario: Scenario, { price }: LedgerRow): string =>
  price === null ? 'not said' : money(price, resolvePlant(scenario).money.currency);

/** After the free fixes where there are any: that is when it would be bought. */
function paybackCell(scenario: Scenario, { price, alone, after }: LedgerRow): string {
  if (price === null || netOf(scenario, alone) === null) return '-';
  const returned = returnOf(scenario, { price, pair: after ?? alone });
  return returned === null ? '-' : paybackWords(returned.payback);
}

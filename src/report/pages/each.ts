/** The table of one more of each thing. */
import type { Block } from '../../document/document.ts';
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { differenceAlike, gainDecimals } from '../../words/alike.ts';
import { differenceSentence } from '../../words/sentences.ts';
import { bestRow } from '../../words/study-words.ts';
import { money } from '../../words/words.ts';
import type { ExtraGain, OneMoreOfEach } from '../../study/one-more.ts';

/** Rows of the table in a short answer. */
const MOST_ROWS = 8;

/** @param all every row; otherwise the ones that gain most, and how many were left out. */
export function eachTable(
  { rows }: OneMoreOfEach,
  scenario: Scenario,
  caption: string,
  all = false,
): Block[] {
  const shown = all ? rows : rows.slice(0, MOST_ROWS);
  const left = rows.length - shown.length;
  return [
    {
      kind: 'table',
      caption,
      head: ['One more', 'Units a shift', 'Surely between', 'Price'],
      align: ['left', 'right', 'right', 'right'],
      rows: shown.map((row) => rowOf(row, scenario)),
    },
    ...(left === 0
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text: `${left} more were tried and gain less; "clampwright limits" lists them all.`,
          },
        ]),
  ];
}

function rowOf({ name, gain, price }: ExtraGain, scenario: Scenario): string[] {
  const { money: paid, study } = resolvePlant(scenario);
  const { estimate, range } = differenceAlike(gain, gainDecimals(study.difference));
  return [
    name,
    estimate,
    range === '' ? 'always' : range,
    price === null || price === 0 ? '-' : money(price, paid.currency),
  ];
}

/** "Another Orla with a bench adds 2.9 units a shift (2.6 to 3.2)." of the thing that gains most. */
export function bestWords({ rows }: OneMoreOfEach, matters: number): string {
  const best = bestRow(rows);
  return best === undefined
    ? ''
    : differenceSentence({ kind: 'thing', words: `${best.name}` }, best.gain, { kind: 'units' }, matters);
}

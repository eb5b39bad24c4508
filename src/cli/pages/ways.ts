/** The ways of reckoning side by side: by the cure alone, a spreadsheet of averages, the ceiling, and what the shifts made. */
import type { Block } from '../../brief/document.ts';
import { capitalized, fixed, listed, plural } from '../../brief/words.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { fluidCeiling } from '../../study/ceilings/fluid-ceiling.ts';
import { naiveNumber, spreadsheetNumber } from '../../study/ceilings/spreadsheet.ts';

export interface Way {
  label: string;
  shift: ResolvedShift;
  /** Good units the shifts made, on average. */
  made: number;
}

/** @param gearName what is counted by the cure alone, one of it. */
export function waysBlocks(ways: Way[], gearName: string): Block[] {
  const naive = ways.map(({ shift }) => naiveNumber(shift)?.units ?? NaN);
  const row = (name: string, values: number[]): string[] => [name, ...values.map((value) => (Number.isFinite(value) ? fixed(value, 1) : '-'))];
  const words = bindingWords(ways[0]!.shift);
  return [
    {
      kind: 'table', caption: 'Where averages mislead: good units a shift by each way of reckoning.',
      head: ['', ...ways.map(({ label }) => label)], align: ['left', ...ways.map(() => 'right' as const)],
      rows: [
        ...(naive.some(Number.isFinite) ? [row(`${capitalized(plural(gearName))} by the cure alone`, naive)] : []),
        row('A spreadsheet of averages', ways.map(({ shift }) => spreadsheetNumber(shift).units)),
        row('The most this crew and gear could make, nobody ever waiting', ways.map(({ shift }) => fluidCeiling(shift).good)),
        row('What the shifts made, on average', ways.map(({ made }) => made)),
      ],
    },
    ...(words === '' ? [] : [{ kind: 'paragraph' as const, text: words }]),
  ];
}

function bindingWords(shift: ResolvedShift): string {
  const binding = spreadsheetNumber(shift).lines.slice(0, 1).map(({ kind, id }) =>
    (kind === 'gear' ? plural(shift.gear.find((one) => one.id === id)?.name ?? id) : `“${shift.steps.find((one) => one.id === id)?.name ?? id}”`));
  return binding.length === 0 ? '' : `The spreadsheet names ${listed(binding)} as the limit; what lies between the last two lines is the price of waiting and variation.`;
}

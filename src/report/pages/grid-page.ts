/** The answer of "grid": two things to vary, a field each. */
import type { Block, Page } from '../../document/document.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { resolvePlant } from '../../scenario/resolve.ts';
import { YEARS_OF_USE, type GridAnswer, type GridCell } from '../../study/grid.ts';
import type { Axis } from '../../whatif/grid.ts';
import { chanceWithRange } from '../../words/study-words.ts';
import { counted, fixed, money, percent, plain, rangeText, shiftsIn } from '../../words/words.ts';
import type { Input } from '../input.ts';
import { foot, openingWords, type Repeat } from './foot.ts';

export interface GridPage {
  input: Input;
  down: Axis;
  across: Axis;
  grid: GridAnswer;
  cautions: Caution[];
  repeat: Repeat;
}

export function gridPage({ input, down, across, grid, cautions, repeat }: GridPage): Page {
  const { base } = input;
  const { currency } = resolvePlant(base).money;
  const title = `${base.name}: ${down.name} by ${across.name}`;
  const table = (caption: string, cell: (one: GridCell, at: number) => string): Block => ({
    kind: 'table',
    caption,
    head: [down.name, ...across.told],
    rows: down.told.map((told, row) => [
      told,
      ...grid.cells
        .slice(row * grid.columns, (row + 1) * grid.columns)
        .map((one, i) => cell(one, row * grid.columns + i)),
    ]),
    align: ['left', ...across.values.map((): 'left' => 'left')],
  });
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      ...(grid.partial
        ? [{ kind: 'paragraph' as const, text: 'PARTIAL: stopped by hand; what follows may still change.' }]
        : []),
      { kind: 'paragraph', text: chosenWords(grid, down, across, currency) },
      table(
        `Good units a shift with their range${grid.cheapest === null ? '' : '; [ ] the cheapest that makes it'}.`,
        (one, at) => marked(`${unitsCell(one)}${letter(one.alike)}`, grid, at),
      ),
      ...(grid.target === null
        ? []
        : [
            table(
              `The chance ${several(grid) ? 'that each shift makes its own number' : `of ${plain(grid.target)}`}; ${percent(grid.promise)} is asked for.`,
              (one, at) => marked(chanceOf(one), grid, at),
            ),
          ]),
      table(
        grid.mostNet === null
          ? `Cost a shift: labor, and what is bought paid off over ${YEARS_OF_USE} years.`
          : `Net money a shift: what the good units bring in, less labor and what is bought paid off over ${YEARS_OF_USE} years.`,
        (one, at) => marked(moneyCell(one, currency), grid, at),
      ),
      { kind: 'paragraph', text: alikeSentence(grid) },
      ...[...down.left, ...across.left].map(({ told, why }) => ({
        kind: 'paragraph' as const,
        text: `Left out, since the file does not take it: ${told} (${why}).`,
      })),
      { kind: 'paragraph', text: howSure(grid) },
      { kind: 'paragraph', text: openingWords(input) },
      ...foot(input, repeat, cautions),
    ],
  };
}

/** Shifts in a row: each has a number of its own. */
const several = ({ cells }: GridAnswer): boolean => (cells[0]!.good.inARow ?? 1) > 1;

const marked = (text: string, { cheapest }: GridAnswer, at: number): string =>
  cheapest?.at === at ? `[${text}]` : text;

const letter = (group: number | null): string => (group === null ? '' : ` ${lettered(group)}`);
export const lettered = (group: number): string =>
  group < 26
    ? String.fromCharCode(97 + group)
    : `${lettered(Math.floor(group / 26) - 1)}${lettered(group % 26)}`;

function unitsCell({ good }: GridCell): string {
  const { estimate, range } = rangeText(good);
  return range === '' ? estimate : `${estimate} (${range})`;
}

const chanceOf = ({ chance, makes }: GridCell): string =>
  chance === null
    ? '-'
    : `${chanceWithRange(chance)}${makes === 'yes' ? ' makes it' : makes === 'perhaps' ? ' may' : ''}`;

const moneyCell = ({ net, cost }: GridCell, currency: string): string =>
  money(Math.round((net ?? cost).estimate), currency);

/** A field in a sentence: "3 clamp sets and 1 more person at sand with a bench". */
export const fieldWords = ({ row, column }: GridCell, down: Axis, across: Axis): string =>
  `${across.told[column]!} and ${down.told[row]!}`;

/** The answer in one text. */
export const chosenWords = (grid: GridAnswer, down: Axis, across: Axis, currency: string): string =>
  gridSentences(grid, down, across, currency).join(' ');

/** Which fields cannot be told from those beside them, by their letters. */
export function alikeSentence({ cells }: Pick<GridAnswer, 'cells'>): string {
  const groups = new Map<number, number[]>();
  for (const { alike, good } of cells)
    if (alike !== null) groups.set(alike, [...(groups.get(alike) ?? []), good.estimate]);
  if (groups.size === 0) return 'Every field can be told from those beside it.';
  const told = [...groups].map(([group, units]) => {
    const [least, most] = [fixed(Math.min(...units), 1), fixed(Math.max(...units), 1)];
    return `${lettered(group)} (${counted(units.length, 'field')}, ${least === most ? least : `${least} to ${most}`} units)`;
  });
  return `Fields of one letter cannot be told apart, each from one beside it: ${told.join(', ')}.`;
}

/** The answer: the cheapest that makes it, what may do for less, what brings in the most. */
function gridSentences(grid: GridAnswer, down: Axis, across: Axis, currency: string): string[] {
  const words = (at: number): string => fieldWords(grid.cells[at]!, down, across);
  return [
    ...(grid.target === null ? [] : cheapestSentences(grid, words)),
    ...(grid.mostNet === null
      ? []
      : [
          `The most money a shift: ${words(grid.mostNet)}, ${money(Math.round(grid.cells[grid.mostNet]!.net!.estimate), currency)}.`,
        ]),
    ...(grid.target === null && grid.mostNet === null
      ? [`The most good units: ${words(mostMade(grid))}.`]
      : []),
  ];
}

const mostMade = ({ cells }: GridAnswer): number =>
  cells.reduce((best, { good }, at) => (good.estimate > cells[best]!.good.estimate ? at : best), 0);

function cheapestSentences(grid: GridAnswer, words: (at: number) => string): string[] {
  const often = shiftsIn(grid.promise);
  const promise = several(grid)
    ? `the number of each shift ${often.replace(/shifts?/, 'times')}`
    : `${plain(grid.target!)} in ${often}`;
  const { cheapest, perhapsCheaper } = grid;
  if (cheapest === null) return [`No field here makes ${promise}.`];
  if (!cheapest.sure)
    return [
      `Whether any field here makes ${promise} cannot be told yet; the cheapest that may: ${words(cheapest.at)}.`,
    ];
  const less =
    perhapsCheaper.length === 0
      ? []
      : [
          `For less, ${words(perhapsCheaper[0]!)}${perhapsCheaper.length > 1 ? ` and ${counted(perhapsCheaper.length - 1, 'other')}` : ''} may make it too: that cannot be told yet.`,
        ];
  return [`The cheapest that makes ${promise}: ${words(cheapest.at)}.`, ...less];
}

function howSure({ cells, count, confidence }: GridAnswer): string {
  const out = cells.filter((one) => one.out).length;
  const pruned =
    out === 0
      ? ''
      : ` ${counted(out, 'field')} could not make it whatever the luck: nobody ever waiting, too little can be made; they were played a quarter as often.`;
  return `From ${counted(count, 'shift')} of each field, the same luck for all; the ranges are ${fixed(confidence * 100, 0)}% sure.${pruned}`;
}

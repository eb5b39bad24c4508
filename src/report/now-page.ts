/**
 * It is 10:40: do we still make it, and what should I move? The answer in words, from the rest of the shift
 * as it was run.
 */
import { differenceAlike } from '../words/alike.ts';
import { cautionPart } from './pages/foot.ts';
import { minutesOfClock, clockOfMinutes } from '../scenario/clock.ts';
import { cautionsFor } from '../scenario/cautions.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { BANDS, type Band } from '../study/shift-summary.ts';
import type { Forecast, HourLine } from '../today/forecast.ts';
import type { MoveGain } from '../today/moves.ts';
import { sumOf, type Sum } from '../today/told-count.ts';
import type { Block, Page } from '../document/document.ts';
import { chanceSentence, promisesSentence } from '../words/sentences.ts';
import { mindSentence, partsOfRange } from '../words/input-words.ts';
import { chanceFrom, chanceWithRange, roundedLevel } from '../words/study-words.ts';
import { counted, duration, fixed, rangeText } from '../words/words.ts';

/** "12 good by 10:40. Nine shifts in ten end at 20 …; the chance of 22 is 41 %." */
export function nowSentences(forecast: Forecast): string[] {
  const { now, soFar, ends, target, overtime, over } = forecast;
  const done = over && ends.oneInTen <= soFar;
  const sentences = [
    `${counted(soFar, 'good unit')} by ${now.at}.`,
    done ? 'The shift is over.' : promisesSentence(ends),
  ];
  if (target !== null) {
    sentences.push(
      soFar >= target.units
        ? `The ${target.units} due are made.`
        : done
          ? `${target.units - soFar} of the ${target.units} due are missing.`
          : chanceSentence(target.units, chanceFrom(target.chance)),
    );
  }
  if (overtime.estimate >= 1)
    sentences.push(
      `The rest takes ${duration(Math.round(overtime.estimate))} of overtime on average, all people together.`,
    );
  return sentences;
}

/** "On average 20.4 (19.6 to 21.2): the runs leave 0.1 open, your times 0.8." */
export function nowSure({ ends, inputs }: Pick<Forecast, 'ends' | 'inputs'>): string {
  const { estimate, range } = rangeText(ends.mean);
  const mind = mindSentence(inputs);
  const sure =
    range === ''
      ? `It ends at ${estimate} in every run.`
      : `On average it ends at ${estimate} (${range}): ${partsOfRange(ends.mean, inputs)}.`;
  return mind === null ? sure : `${sure} ${mind}`;
}

/** Units: moves stand under each other. */
const MOVE_DECIMALS = 1;

/** Moves that surely help, in words; the best first. */
export function helpfulMoves(moves: MoveGain[]): MoveGain[] {
  return moves.filter(({ gain }) => gain.low > 0);
}

export function moveSentence({ move, gain, chance }: MoveGain): string {
  const size = differenceAlike(gain, MOVE_DECIMALS);
  const makes = chance === null ? '' : `; the chance is then ${chanceWithRange(chance)}`;
  return `${move.name}: ${size.estimate} units${size.range === '' ? '' : ` (${size.range})`}${makes}.`;
}

/** What was told against what came in; null where nothing is missing, or nobody can know. */
export function missingSentence(sum: Sum | null): string | null {
  if (sum === null || sum.missing === 0) return null;
  const told = `${counted(sum.opening, 'piece')} stood there at the start and ${sum.came} came since; counted are ${sum.good} good and ${sum.inside} in the cell`;
  return sum.missing > 0
    ? `${told}: ${counted(sum.missing, 'piece')} ${sum.missing === 1 ? 'is' : 'are'} missing (scrapped, or not counted).`
    : `${told}: ${-sum.missing} more than there can be. Count again.`;
}

export interface NowTold {
  scenario: Scenario;
  forecast: Forecast;
  moves: MoveGain[] | null;
  /** Which day it is about and whose plan, in sentences. */
  day?: string[];
}

export function nowPage({ scenario, forecast, moves, day = [] }: NowTold): Page {
  const [first, ...others] = nowSentences(forecast);
  const start = minutesOfClock(resolve(scenario).start);
  const blocks: Block[] = [
    {
      kind: 'heading',
      level: 1,
      text: `${scenario.name} at ${forecast.now.at}: ${inWords(forecast)}${bestMove(forecast, moves)}`,
    },
    { kind: 'paragraph', text: [first, ...others].join(' ') },
    ...[...day, ...told(sumOf(scenario, forecast.now))].map((text): Block => ({ kind: 'paragraph', text })),
    { kind: 'paragraph', text: nowSure(forecast) },
    ...moveBlocks(moves),
    { kind: 'heading', level: 2, text: 'Plan and fact by the hour' },
    {
      kind: 'table',
      head: ['By', 'Planned', 'Made', 'Nine in ten', 'Half', 'One in ten'],
      rows: hourRows(forecast, start),
      caption:
        'Good units so far, with ranges; planned: what half the shifts have by then; from now on what nine in ten, half, and one in ten have.',
      align: ['left', 'right', 'right', 'right', 'right', 'right'],
    },
    ...cautionPart(cautionsFor(scenario)),
  ];
  return { title: `${scenario.name} at ${forecast.now.at}`, blocks };
}

const told = (sum: Sum | null): string[] => {
  const sentence = missingSentence(sum);
  return sentence === null ? [] : [sentence];
};

/** The move that helps most, where the number is not made yet; empty where none surely helps. */
export function bestMove({ target, soFar }: Forecast, moves: MoveGain[] | null): string {
  const [best] = helpfulMoves(moves ?? []);
  if (best === undefined || (target !== null && soFar >= target.units)) return '';
  return `; ${best.move.name} adds ${fixed(best.gain.estimate, 1)}`;
}

function inWords({ target, soFar, over, ends }: Forecast): string {
  if (target === null) return 'where the shift may end';
  if (over && ends.oneInTen <= soFar && soFar < target.units) return `${soFar} of the ${target.units} due`;
  if (soFar >= target.units) return 'the number is made';
  const { low, high } = target.chance;
  if (low >= 0.8) return `${target.units} is likely`;
  if (high <= 0.2) return `${target.units} is unlikely as things stand`;
  return `${target.units} is open`;
}

function moveBlocks(moves: MoveGain[] | null): Block[] {
  if (moves === null) return [];
  const help = helpfulMoves(moves);
  const harm = moves.filter(({ gain }) => gain.high < 0).length;
  const open = moves.length - help.length - harm;
  const said =
    help.length === 0
      ? `Of ${counted(moves.length, 'move')} tried none surely helps.`
      : `Tried on the same luck: ${counted(help.length, 'move')} ${help.length === 1 ? 'surely helps' : 'surely help'}.`;
  const rest = `${said}${open > 0 ? ` ${open} more make no difference these runs can see.` : ''}${harm > 0 ? ` ${harm} would cost units.` : ''}`;
  const items = help.slice(0, 8).map(moveSentence);
  return [
    { kind: 'heading', level: 2, text: 'What to move' },
    { kind: 'paragraph', text: rest },
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
    ...(help.some(({ move }) => move.kind === 'break' || move.kind === 'overtime')
      ? [
          {
            kind: 'note' as const,
            text: 'Breaks and overtime are moved only as local law and agreements allow.',
          },
        ]
      : []),
  ];
}

/** One row an hour: the plan's median, what was made, and from now on where the day goes. */
function hourRows({ plan, fact, ahead }: Forecast, start: number): string[][] {
  const rows = new Map<number, string[]>();
  const row = (at: number): string[] => {
    const known = rows.get(at) ?? [clockOfMinutes(start + at), '', '', '', '', ''];
    rows.set(at, known);
    return known;
  };
  const cell = (line: HourLine, band: Band): string => roundedLevel(line[band], line.ranges[band]);
  for (const line of plan) row(line.at)[1] = cell(line, 'middle');
  for (const line of fact.slice(1)) row(line.at)[2] = fixed(line.good, 0);
  for (const line of ahead.slice(1)) row(line.at).splice(3, 3, ...BANDS.map((band) => cell(line, band)));
  return [...rows.entries()].sort(([a], [b]) => a - b).map(([, cells]) => cells);
}

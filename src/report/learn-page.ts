/** Somebody new at a post: what it costs now, and on which day it has paid. */
import type { Block, Page } from '../document/document.ts';
import { capitalized, fixed, money, plain } from '../words/words.ts';
import type { LearningAnswer } from '../staffing/learning.ts';
import type { Interval } from '../study/intervals/interval.ts';

export interface LearnTold {
  cell: string;
  step: string;
  currency: string;
  /** What a piece brings; null: the file does not say. */
  brings: number | null;
  cost: number;
  /** What the cell makes more at each time tried, the trained one first. */
  found: { factor: number; gain: Interval }[];
  answer: LearningAnswer;
  first: number;
  rate: number;
}

const SHOWN = [1, 2, 3, 5, 8, 13, 21, 34, 60, 120];

export function learnPage(told: LearnTold): Page {
  const { answer, brings, currency, step } = told;
  const inMoney = brings !== null;
  const rows = SHOWN.map((day) => answer.days[day - 1]!).map(({ day, factor, pieces, net, sum }) => [
    String(day),
    fixed(factor, 2),
    fixed(pieces, 1),
    ...(inMoney ? [money(net, currency, 0), money(sum, currency, 0)] : []),
  ]);
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: `${told.cell}: somebody new at “${step}”` },
    { kind: 'paragraph', text: learnSentences(told).join(' ') },
    {
      kind: 'table',
      head: ['Day', 'Times as long', 'More good pieces', ...(inMoney ? ['Of the day', 'Up to it'] : [])],
      rows,
      align: rows[0]!.map(() => 'right' as const),
      caption: `By days at the post: ${fixed(told.first, 2)} times the trained time on the first, ${plain(told.rate * 100)}% of that with every doubling of the days.`,
    },
    {
      kind: 'note',
      text: 'How fast somebody learns is your guess: count their pieces for a week and ask again. Training clears somebody for a task, not this plan; never for ranking people.',
    },
  ];
  return { title: `${told.cell}: somebody new at ${step}`, blocks };
}

export function learnSentences({ answer, brings, cost, currency, found }: LearnTold): string[] {
  const { days, fullDay, paysFrom, backOn, lowest } = answer;
  const trained = found[0]!.gain;
  const full = fullDay === null ? 'not within a year' : `on day ${fullDay}`;
  const size = `On the first day the cell makes ${fixed(days[0]!.pieces, 1)} more good pieces, trained ${fixed(trained.estimate, 1)} (${fixed(trained.low, 1)} to ${fixed(trained.high, 1)}); as quick as anybody ${full}.`;
  if (brings === null)
    return [
      size,
      `They cost ${money(cost, currency, 2)} a day; what a good piece brings is not in the file, so when that is earned back is not told (say it with --brings).`,
    ];
  if (paysFrom === null)
    return [size, `At ${money(cost, currency, 2)} a day no day pays for itself within a year.`];
  const back =
    backOn === null ? 'it is not earned back within a year' : `all of it is earned back on day ${backOn}`;
  return [
    size,
    capitalized(
      `at ${money(cost, currency, 2)} a day, the first day that pays for itself is day ${paysFrom}; ${back}. The most out of pocket is ${money(-lowest, currency, 2)}.`,
    ),
  ];
}

/**
 * Somebody new at a post: how the days go until they are as quick as anybody, and when it has paid.
 *
 * The learning curve by days: on day d a piece takes max(1, first x d^-b) times the trained time, where every
 * doubling of the days leaves `rate` of it (b = -log2 rate). After Wright 1936 in the form with a floor that
 * Yelle 1979 and Anzanello & Fogliatto 2011 list (recalled, not read); days at the post stand in for pieces.
 */
import { exp, log } from '../random/exact.ts';

export interface Learning {
  /** Times the trained time that the first day takes, 1 or more. */
  first: number;
  /** Left of it by every doubling of the days, over 0 and under 1: 0.85. */
  rate: number;
}

/** Times the trained time on day d, from 1. */
export const factorOn = ({ first, rate }: Learning, day: number): number =>
  Math.max(1, first * exp((log(rate) / log(2)) * log(day)));

export interface LearningAsked extends Learning {
  /** Pieces of a day at so many times the trained time: of the post, or what the cell makes more. */
  pieces: (factor: number) => number;
  /** What the newcomer costs a day, and what a piece brings. */
  cost: number;
  brings: number;
  /** Pieces a colleague does not make on each of the first days, showing how. */
  helper?: { pieces: number; days: number };
}

export interface LearningDay {
  day: number;
  factor: number;
  pieces: number;
  /** What this day brings less what it costs, and all days up to it. */
  net: number;
  sum: number;
}

export interface LearningAnswer {
  days: LearningDay[];
  /** The first day at the trained time; null: not within a year. */
  fullDay: number | null;
  /** Pieces less than a trained person's, all days together. */
  short: number;
  /** The first day that pays for itself, and the first on which all of it is earned back; null: none. */
  paysFrom: number | null;
  backOn: number | null;
  /** The most that is out of pocket. */
  lowest: number;
}

/** Working days looked at: about a year. */
const YEAR = 250;

export function learningOf(asked: LearningAsked): LearningAnswer {
  const trained = asked.pieces(1);
  const days: LearningDay[] = [];
  let [sum, short, lowest] = [0, 0, 0];
  for (let day = 1; day <= YEAR; day++) {
    const factor = factorOn(asked, day);
    const pieces = asked.pieces(factor);
    const { helper } = asked;
    const lost = helper !== undefined && day <= helper.days ? helper.pieces : 0;
    const net = (pieces - lost) * asked.brings - asked.cost;
    sum += net;
    short += trained - pieces;
    lowest = Math.min(lowest, sum);
    days.push({ day, factor, pieces, net, sum });
  }
  return {
    days,
    fullDay: days.find(({ factor }) => factor === 1)?.day ?? null,
    short,
    paysFrom: days.find(({ net }) => net >= 0)?.day ?? null,
    backOn: days.find(({ sum: so }) => so >= 0)?.day ?? null,
    lowest,
  };
}

/** A straight line between what was found at some factors, ascending; the ends go on level. */
export function between(found: readonly { factor: number; pieces: number }[]): (factor: number) => number {
  return (factor) => {
    const after = found.findIndex((one) => one.factor >= factor);
    if (after < 0) return found.at(-1)!.pieces;
    const to = found[after]!;
    if (after === 0 || to.factor === factor) return to.pieces;
    const from = found[after - 1]!;
    return from.pieces + ((to.pieces - from.pieces) * (factor - from.factor)) / (to.factor - from.factor);
  };
}

/**
 * The picture that shows why: from the most that crew and gear could make, nobody ever waiting, down to what
 * the cell makes, a word on each tread.
 */
import type { StaircaseResult, StaircaseTread } from '../../study/staircase.ts';
import type { Block } from '../../document/document.ts';
import { staircasePicture, type Foot, type Staircase, type Tread } from '../../charts/index.ts';
import { lossName, stairSentences, startSentence } from '../../words/loss-words.ts';
import { makesSentence } from '../../words/sentences.ts';
import { fixed, roundDown, roundUp } from '../../words/words.ts';

/** Width of a picture on the page, px. */
export const PICTURE_WIDTH = 960;

export type Stairs = Omit<StaircaseResult, 'summary'>;

const DECIMALS = 1;
const rounded = (value: number): number => Math.round(value * 10 ** DECIMALS) / 10 ** DECIMALS;

/**
 * Levels as they are written: what stands between two of them is then the difference of what is read, and
 * adds up by hand.
 */
export function treadsOf({ most, treads, units }: Stairs): Tread[] {
  return [
    { value: rounded(most), word: 'the most that crew and gear can keep up' },
    ...treads.map((tread, i): Tread => ({
      value: rounded(i === treads.length - 1 ? units.estimate : tread.units),
      word: `${lossName(tread)}${rangeOf(tread)}`,
      ...(tread.losses.includes('clamps waiting for hands') && tread.change.high < 0
        ? { meaning: 'waiting' as const }
        : {}),
    })),
  ];
}

/** " (0.8 to 1.3)" taken; with a plus where it is given. */
function rangeOf({ change }: StaircaseTread): string {
  if (!Number.isFinite(change.half)) return '';
  const given = change.low > 0;
  const [low, high] = given ? [change.low, change.high] : [-change.high, -change.low];
  const ends = [roundDown(low, DECIMALS), roundUp(high, DECIMALS)].map((end) => fixed(end + 0, DECIMALS));
  return ` (${given ? '+' : ''}${ends.join(' to ')})`;
}

/** "times that vary (0.4 to 1.0) −0.7". */
export function treadWords(treads: Tread[]): string {
  return treads
    .slice(1)
    .map(({ value, word }, i) => {
      const change = rounded(value - treads[i]!.value);
      return `${word} ${change > 0 ? '+' : ''}${fixed(change, DECIMALS)}`;
    })
    .join(', ');
}

/** The picture's data, for a page or for a sheet of paper. */
export function stairsPicture(stairs: Stairs, foot: Omit<Foot, 'unit' | 'note'>): Staircase {
  const treads = treadsOf(stairs);
  return {
    title: 'From the most this crew and gear could make to what the cell makes',
    description: `From ${fixed(treads[0]!.value, DECIMALS)}, the most this crew and gear could make with nobody ever waiting, to ${fixed(treads.at(-1)!.value, DECIMALS)} in the shifts run: ${treadWords(treads)}.`,
    treads,
    foot: {
      ...foot,
      unit: 'good units a shift',
      note: 'In brackets the range of what a tread takes. Rounded.',
    },
  };
}

/** What the question would change: one more tread, up or down from what the cell makes. */
export interface Then {
  word: string;
  units: number;
  /** Over what the cell makes as it is. */
  gain: number;
}

/**
 * @param naive what the waits alone would promise; null without any. @param ceiling of this one shift. @param
 * then left out: no more treads.
 */
export function staircaseBlocks(
  stairs: Stairs,
  seed: string,
  { naive, ceiling }: { naive: number | null; ceiling: number },
  then?: Then,
): Block[] {
  const data = stairsPicture(stairs, { shifts: stairs.count, seed });
  const description = `${data.description}${then === undefined ? '' : ` And ${then.word}: ${fixed(then.units, DECIMALS)}.`}`;
  const more: Tread[] =
    then === undefined
      ? []
      : [{ value: rounded(then.units), word: then.word, change: then.gain, firm: true }];
  const last = { ...data.treads.at(-1)!, firm: true };
  const treads = [...data.treads.slice(0, -1), last, ...more];
  return [
    {
      kind: 'picture',
      file: 'staircase.svg',
      description,
      svg: staircasePicture({ ...data, description, treads }, { width: PICTURE_WIDTH, id: 'staircase' }),
    },
    {
      kind: 'paragraph',
      text: [
        makesSentence(stairs.units, 'good units', 'as it is, the cell'),
        startSentence(stairs, ceiling),
        ...(naive === null ? [] : [`One of the cure alone says ${fixed(naive, DECIMALS)}.`]),
      ].join(' '),
    },
    { kind: 'paragraph', small: true, text: stairSentences(stairs).join(' ') },
  ];
}

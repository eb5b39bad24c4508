/**
 * The picture that shows why: from the spreadsheet's number down to what the cell makes, a word on each
 * tread.
 */
import type { Loss, StaircaseResult } from '../../study/staircase.ts';
import type { Block } from '../../document/document.ts';
import { staircasePicture, type Tread } from '../../charts/index.ts';
import { makesSentence } from '../../words/sentences.ts';
import { fixed } from '../../words/words.ts';

/** Width of a picture on the page, px. */
export const PICTURE_WIDTH = 960;

type Stairs = Omit<StaircaseResult, 'summary'>;

/** What a tread is called on the page. */
const WORDS: Record<Loss, string> = {
  'shared hands': 'hands shared between steps',
  'clamps waiting for hands': 'clamps waiting for hands',
  'full racks': 'full racks',
  variation: 'times that vary',
  'breaks and the first hour': 'breaks and the first hour',
  rework: 'rework and scrap',
};

const DECIMALS = 1;
const rounded = (value: number): number => Math.round(value * 10 ** DECIMALS) / 10 ** DECIMALS;

/**
 * Levels as they are written: what stands between two of them is then the difference of what is read, and
 * adds up by hand.
 */
export function treadsOf({ spreadsheet, treads }: Stairs): Tread[] {
  return [
    { value: rounded(spreadsheet), word: 'a spreadsheet of averages' },
    ...treads.map(({ loss, units }): Tread => ({
      value: rounded(units),
      word: WORDS[loss],
      ...(loss === 'clamps waiting for hands' &&
      rounded(units) < rounded(unitsBefore({ spreadsheet, treads }, loss))
        ? { meaning: 'waiting' as const }
        : {}),
    })),
  ];
}

function unitsBefore({ spreadsheet, treads }: Pick<Stairs, 'spreadsheet' | 'treads'>, loss: Loss): number {
  const at = treads.findIndex((tread) => tread.loss === loss);
  return at <= 0 ? spreadsheet : treads[at - 1]!.units;
}

/** "hands shared between steps +0.3, clamps waiting for hands −0.2". */
export function treadWords(treads: Tread[]): string {
  return treads
    .slice(1)
    .map(({ value, word }, i) => {
      const change = rounded(value - treads[i]!.value);
      return `${word} ${change > 0 ? '+' : ''}${fixed(change, DECIMALS)}`;
    })
    .join(', ');
}

/** What the question would change: one more tread, up or down from what the cell makes. */
export interface Then {
  word: string;
  units: number;
  /** Over what the cell makes as it is. */
  gain: number;
}

/**
 * @param naive what the waits alone would promise; null without any. @param then left out: no more treads.
 */
export function staircaseBlocks(stairs: Stairs, seed: string, naive: number | null, then?: Then): Block[] {
  const treads = treadsOf(stairs);
  const all = rounded(treads.at(-1)!.value - treads[0]!.value);
  const description = `From the ${fixed(treads[0]!.value, DECIMALS)} of a spreadsheet of averages to what the cell makes as it is, ${fixed(treads.at(-1)!.value, DECIMALS)}: ${treadWords(treads)}; together ${all > 0 ? '+' : ''}${fixed(all, DECIMALS)}.${then === undefined ? '' : ` And ${then.word}: ${fixed(then.units, DECIMALS)}.`}`;
  const more: Tread[] =
    then === undefined
      ? []
      : [{ value: rounded(then.units), word: then.word, change: then.gain, firm: true }];
  const last = { ...treads.at(-1)!, firm: true };
  return [
    {
      kind: 'picture',
      file: 'staircase.svg',
      description,
      svg: staircasePicture(
        {
          title: 'From the spreadsheet’s number to what the cell makes',
          description,
          treads: [...treads.slice(0, -1), last, ...more],
          foot: {
            shifts: stairs.count,
            seed,
            unit: 'good units a shift',
            note: 'Each tread puts one thing back as it is; what it is worth depends on the order, the whole does not. Rounded.',
          },
        },
        { width: PICTURE_WIDTH, id: 'staircase' },
      ),
    },
    {
      kind: 'paragraph',
      text: `${makesSentence(stairs.units, 'good units', 'as it is, the cell')} A spreadsheet of averages says ${fixed(treads[0]!.value, DECIMALS)}${naive === null ? '' : `; one of the cure alone says ${fixed(naive, DECIMALS)}`}.`,
    },
  ];
}

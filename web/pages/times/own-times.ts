/** The times as the cell has them now, step by step: what a list or the stopwatch is to put right. */
import type { Block } from '../../../src/document/document.ts';
import { fixed, inSentence } from '../../../src/words/words.ts';
import type { Time } from '../../../src/duration/time.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { timeInWords } from '../../parts/time-words.ts';
import { meanOf } from '../common/times.ts';

/**
 * Times of hands only: a cure is the data sheet's, not the bench's. A product's own time and the time of a
 * repeat visit have rows of their own.
 */
export function ownTimes(scenario: Scenario): Block[] {
  const row = (name: string, time: Time): string[] => [name, fixed(meanOf(time), 1), timeInWords(time)];
  const { steps, products } = shiftOf(scenario);
  const rows = steps.flatMap(({ id, name, kind, time, repeatTime }) => {
    if (kind === 'wait') return [];
    return [
      row(name, time),
      ...products
        .filter((product) => product.tasks[id]!.own)
        .map((product) => row(`${name}, ${inSentence(product.name)}`, product.tasks[id]!.time)),
      ...(repeatTime === null ? [] : [row(`${name}, again`, repeatTime)]),
    ];
  });
  return [
    { kind: 'heading', level: 2, text: 'What the cell uses now' },
    {
      kind: 'table',
      caption: 'Minutes of hands a piece, allowance out.',
      head: ['Step', 'Mean', 'As the file has it'],
      align: ['left', 'right', 'left'],
      rows,
    },
  ];
}

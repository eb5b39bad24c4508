/** The times as the cell has them now, step by step: what a list or the stopwatch is to put right. */
import type { Block } from '../../../src/document/document.ts';
import { fixed, inSentence } from '../../../src/words/words.ts';
import type { Time } from '../../../src/duration/time.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { timeInWords } from '../../parts/time-words.ts';
import { meanOf } from '../common/times.ts';

/**
 * Times of hands only: a cure is the data sheet's, not the bench's. A product's own time and the time of a
 * repeat visit have rows of their own.
 */
export function ownTimes(scenario: Scenario): Block[] {
  const row = (name: string, time: Time): string[] => [name, fixed(meanOf(time), 1), timeInWords(time)];
  const rows = Object.entries(scenario.steps).flatMap(([id, step]) => {
    if (step.kind === 'wait') return [];
    const name = step.name ?? id;
    return [
      row(name, step.time),
      ...Object.entries(scenario.products ?? {}).flatMap(([product, one]) =>
        one.times?.[id] === undefined
          ? []
          : [row(`${name}, ${inSentence(one.name ?? product)}`, one.times[id])],
      ),
      ...(step.repeatTime === undefined ? [] : [row(`${name}, again`, step.repeatTime)]),
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

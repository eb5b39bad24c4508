/** What the times of the last days change: step by step, and for the shift. */
import type { Block } from '../document/document.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { StudySummary } from '../study/summary.ts';
import type { NewTimes } from '../timing/new-times.ts';
import { differenceSentence } from '../words/sentences.ts';
import { placeName } from '../words/times-words.ts';
import { capitalized, fixed, percent } from '../words/words.ts';

/** @param study of the shift with the file's times and with the new ones; null where it was not run. */
export function newTimesBlocks(
  scenario: Scenario,
  { places }: Pick<NewTimes, 'places'>,
  study: StudySummary | null,
): Block[] {
  const pair = study?.pairs[0];
  const [before, after] = study === null ? [] : study.cases.map(({ target }) => target);
  return [
    {
      kind: 'table',
      caption: 'Mean minutes at a factor of 1, allowance out.',
      head: ['Step', 'In the file', 'Lately'],
      align: ['left', 'right', 'right'],
      rows: places.map((one) => [
        capitalized(placeName(scenario, one)),
        fixed(one.before, 1),
        fixed(one.after, 1),
      ]),
    },
    ...(pair === undefined
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text: [
              differenceSentence({ kind: 'situation', words: 'with the new times' }, pair.good),
              ...(before == null || after == null
                ? []
                : [
                    `The chance of ${before.units} goes from ${percent(before.chance.estimate)} to ${percent(after.chance.estimate)}.`,
                  ]),
            ].join(' '),
          },
        ]),
  ];
}

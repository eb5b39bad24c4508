import { bothParts } from '../figures.ts';
import { postOf } from '../names.ts';
import type { WhatIf } from '../what-if.ts';
import { movedTime } from './cure.ts';

/** What a post takes: the whole curve earlier or later. */
export const time: WhatIf = {
  word: 'time',
  group: 'times',
  takes: 'POST=MINUTES, +MINUTES or -MINUTES',
  says: 'the usual time at a post is so much, or so much more or less; its spread moves along',
  example: 'fit=-1',
  such: ({ shift }) => {
    const post = shift.steps.find(({ kind, time: one }) => kind === 'hands' && typeof one === 'object');
    return post === undefined ? null : `${post.id}=+1`;
  },
  read(cell, given) {
    const [thing, value] = bothParts(given);
    return movedTime(cell, postOf(cell, thing), value);
  },
  offers: () => [],
};

/**
 * Why a person is without work, in the shop's words, by the recorder's code; codes of missing gear are put in
 * words where names are known.
 */
import { NO_COVER, NO_FIT, NO_HELP, NO_UNIT, NOWHERE, WAITING_PARTNER } from '../engine/recorder.ts';

export const IDLE_WORDS: Readonly<Record<number, string>> = {
  [NO_UNIT]: 'nothing to work on',
  [NOWHERE]: 'nowhere to put it',
  [NO_FIT]: 'would not fit before the break or the end',
  [NO_HELP]: 'no second pair of hands',
  [WAITING_PARTNER]: 'waiting for the other of two',
  [NO_COVER]: 'no post at this time',
};

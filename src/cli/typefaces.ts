/**
 * The faces of the pages, for what is written of them (SIL Open Font License 1.1): the parts with Latin
 * letters, unaltered as their packages give them.
 */
import sans from '@fontsource-variable/public-sans/files/public-sans-latin-wght-normal.woff2?inline';
import sansExtended from '@fontsource-variable/public-sans/files/public-sans-latin-ext-wght-normal.woff2?inline';
import serif from '@fontsource-variable/vollkorn/files/vollkorn-latin-wght-normal.woff2?inline';
import serifExtended from '@fontsource-variable/vollkorn/files/vollkorn-latin-ext-wght-normal.woff2?inline';
import { PICTURE_FACE, TEXT_FACE, type Face } from '../document/faces.ts';

/** As the packages say them. */
const LATIN =
  'U+0000-00FF, U+0131, U+0152-0153, U+02BB-02BC, U+02C6, U+02DA, U+02DC, U+2000-206F, U+20AC, U+2122, U+2191, U+2193, U+2212, U+2215, U+FEFF, U+FFFD';
const EXTENDED =
  'U+0100-02BA, U+02BD-02C5, U+02C7-02CC, U+02CE-02D7, U+02DD-02FF, U+1E00-1E9F, U+1EF2-1EFF, U+20A0-20AB, U+20AD-20C0, U+2113';

const both = (family: string, weights: string, latin: string, extended: string): Face[] => [
  { family, weights, range: LATIN, data: latin },
  { family, weights, range: EXTENDED, data: extended },
];

export const FACES: readonly Face[] = [
  ...both(TEXT_FACE, '400 900', serif, serifExtended),
  ...both(PICTURE_FACE, '100 900', sans, sansExtended),
];

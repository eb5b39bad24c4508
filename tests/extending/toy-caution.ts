/** A caution as a newcomer would add it; invented, not advice. Tests put it into a copy of the sources. */
export const CAUTION_FILE = 'src/scenario/cautions/night.ts';
export const CAUTION_LIST = 'src/scenario/cautions/list.ts';
export const CAUTION_TEXT =
  'Invented for a test: those who work past midnight find their way home in daylight.';

export const CAUTION = `import { caution } from './caution.ts';

export const night = caution({
  topic: 'night',
  text: '${CAUTION_TEXT}',
  short: 'who works past midnight goes home in daylight',
  source: 'Nobody.',
  beside: ['breaks'],
  onShortPapers: ['record'],
  applies: ({ start, length }) => Number(start.slice(0, 2)) * 60 + length > 24 * 60,
});
`;

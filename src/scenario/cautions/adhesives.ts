import { waits } from './applies.ts';
import { caution } from './caution.ts';

export const adhesives = caution({
  topic: 'adhesives',
  text: 'Lamps, solvents and adhesives: as their makers say; gloves and eye protection.',
  short: 'adhesives and solvents as their makers say',
  source: null,
  beside: ['wait'],
  onShortPapers: [],
  applies: waits,
});

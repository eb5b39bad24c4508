import { sands } from './applies.ts';
import { caution } from './caution.ts';

export const repetition = caution({
  topic: 'repetition',
  text: 'Repetition, force and grip: rotate, and keep the breaks.',
  short: 'rotate, and keep the breaks',
  source: 'HSE HSG60.',
  beside: ['sanding'],
  onShortPapers: [],
  applies: sands,
});

import { waits } from './applies.ts';
import { caution } from './caution.ts';

export const cure = caution({
  topic: 'cure',
  text: "Cure and rest times are put in by you; the adhesive's data sheet rules, for this wood, this day and before sanding.",
  short: "the adhesive's data sheet rules cure and rest times",
  source: null,
  beside: ['wait', 'own times of a product'],
  onShortPapers: ['handover', 'record'],
  applies: waits,
});

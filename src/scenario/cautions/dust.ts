import { sands } from './applies.ts';
import { caution } from './caution.ts';

export const dust = caution({
  topic: 'dust',
  text: 'Wood dust from sanding harms lungs and nose: extraction and masks as local rules say.',
  short: 'wood dust needs extraction and masks',
  source: 'UK hardwood 3 mg/m3 over 8 h; NIOSH recommends 1; OSHA 15 total, 5 respirable.',
  beside: ['sanding', 'limit of vibration'],
  onShortPapers: [],
  applies: sands,
});

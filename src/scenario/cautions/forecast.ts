import { always } from './applies.ts';
import { caution } from './caution.ts';

export const forecast = caution({
  topic: 'forecast',
  text: 'A forecast, not a promise; never for ranking people. It clears nobody for a task: training does.',
  short: 'this is a forecast, not a promise, and never for ranking people',
  source: null,
  beside: ['study'],
  onShortPapers: ['record'],
  applies: always,
});

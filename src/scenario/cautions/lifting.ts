import { caution } from './caution.ts';

export const lifting = caution({
  topic: 'lifting',
  text: 'Lifting and clamping: two people where a piece is awkward, whatever the plan says.',
  short: 'two people where a piece is awkward',
  source: null,
  beside: ['hands at once', 'gear taken'],
  onShortPapers: [],
  applies: ({ steps }) => steps.some((step) => step.takes.length > 0 || step.people === 2),
});

import { always } from './applies.ts';
import { caution } from './caution.ts';

export const hours = caution({
  topic: 'hours',
  text: 'Hours, breaks, overtime and pay: local law and agreements decide, not this plan; states and plants differ.',
  short: 'law and agreements rule hours, breaks, overtime and pay',
  source:
    'US: 29 CFR 778 (1.5 times over 40 h a week). UK: Working Time Regulations 1998 (20 min if over 6 h, 11 h daily rest, 48 h weekly average).',
  beside: ['breaks', 'where a person stands', 'week of a person', 'overtime pay'],
  onShortPapers: [],
  applies: always,
});
